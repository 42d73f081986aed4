"""A section danced twice within a wall that the dance does not have is found; those it has stand in the paragraphs."""

import pytest

from tests.sheet.prose.telling_text import as_text, known, told_of


@pytest.mark.parametrize(
    "text", ["Wall 3: repeat section 5.", "On wall 3 dance section 9 twice.", "In wall 3 section 7 is danced twice."]
)
def test_a_section_that_is_not_there_is_found(text: str) -> None:
    found = told_of(text, known(32, walls=2)).problems
    assert [(problem.level, problem.kind) for problem in found] == [("error", "order")]


@pytest.mark.parametrize(
    "text", ["Dance section 1 twice on every wall.", "On wall 3 start section 1 again.", "Wall 3 is danced once more."]
)
def test_what_speaks_of_no_section_of_a_wall_puts_nothing_in(text: str) -> None:
    assert not any("bridge" in line for line in as_text(told_of(text, known(32, walls=2))))
