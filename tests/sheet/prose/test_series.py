"""A line that says which extra comes there, between two sections whose headings go on: it heads no extra."""

import pytest

from trainer.problems import loud
from trainer.routine import Routine
from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.heads.series import goes_on
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.reading import read

_SECTIONS = (
    ("1-2 R side, L together", "3&4 R side, L together, R side", "5-6 L rock back, recover R", "7-8 L side, touch R"),
    ("1-2 R rock fwd, recover L", "3&4 R back, L together, R fwd", "5-6 L fwd, R together", "7-8 L fwd, touch R"),
    ("1-2 R across L, L back", "3-4 R side, L fwd", "5-6 R fwd, pivot 1/4 L", "7-8 Walk R, walk L"),
)
_EXTRAS = "Tag (4 counts): 1-2 R side, touch L, 3-4 L side, touch R\nEnding (2 counts): 1-2 R stomp fwd, hold\n"


def _page(headings: list[str], ending: str, tag: str) -> str:
    lines = ["PAPER BOAT MILL", "48 counts, 4 walls, intermediate. Intro 32. Weight on left.", ""]
    for at, heading in enumerate(headings):
        lines += [heading, *_SECTIONS[at % 3], *{3: [ending], 5: [tag]}.get(at, [])]
    return "\n".join([*lines, "", _EXTRAS])


def _lengths(routine: Routine) -> list[int]:
    return [len(section.events) for part in routine.parts for section in part.sections]


@pytest.mark.parametrize(
    "heading",
    ["{letter}", "SET {number}", "{ordinal} eight", "{roman}", "[{first}-{last}] Rocks", "Section {number}: Side, rock",
     "{number}. Sides", "- {spelled} -", "Part {letter}: steps", "8 no. {number}", "S{number} Rock & side"],
)  # fmt: skip
@pytest.mark.parametrize(
    ("ending", "tag"),
    [
        ("+ wall 3: restart        + wall 6: ending", "+ wall 2: tag"),
        ("[ending, wall 6] [restart, wall 3]", "[tag, wall 2]"),
        ("* wall 6: ending", "* wall 2: tag"),
        ("*** Restart W3 *** Ending W6 ***", "*** Tag W2 ***"),
        ("> ending here in wall 6", "> tag here in wall 2"),
    ],
)
def test_the_section_after_it_is_danced(heading: str, ending: str, tag: str) -> None:
    ordinals = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth")
    spelled = ("ONE", "TWO", "THREE", "FOUR", "FIVE", "SIX")
    headings = [
        heading.format(
            number=at + 1,
            letter="ABCDEF"[at],
            ordinal=ordinals[at],
            spelled=spelled[at],
            roman=("I", "II", "III", "IV", "V", "VI")[at],
            first=8 * at + 1,
            last=8 * at + 8,
        )
        for at in range(6)
    ]
    routine, problems = read(_page(headings, ending, tag))
    assert _lengths(routine) == [9, 9, 8, 9, 9, 8]
    assert not loud(problems)


@pytest.mark.parametrize(
    ("heading", "above", "next_one"),
    [("D | Vine", "C | Rock", True), ("SET 3", "SET 2", True), ("17-24", "[9-16] Rock", True), ("iv.", "iii.", True),
     ("SET 1", "SET 6", False), ("Tag 2", "SET 1", False),
     ("Vine", "Rock", False), ("First eight", "Sixth eight", False)],
)  # fmt: skip
def test_a_heading_goes_on_with_the_one_above(heading: str, above: str, next_one: bool) -> None:
    one, other = (clean_lines(text)[0].tokens for text in (heading, above))
    assert goes_on(one, other) is next_one


@pytest.mark.parametrize(
    ("counts", "labels"),
    [
        ("12 / 3+4 / +56 / 78", "1 2 3 & 4 & 5 6 7 8"),
        ("12 / +34 / 56 / +78", "1 2 & 3 4 5 6 & 7 8"),
        ("12 / +34 / +56 / 7+8", "1 2 & 3 4 & 5 6 7 & 8"),
    ],
)
def test_a_plus_written_on_to_its_number_is_the_half_before_it(counts: str, labels: str) -> None:
    feet = "RL" * 6
    lines, at = [], 0
    for mark in counts.split(" / "):
        lines.append(f"{mark:7}" + "; ".join(f"{feet[at + step]} fwd" for step in range(len(mark))))
        at += len(mark)
    section = "\n".join(lines)
    page = f"HARBOUR STAIR\n16 counts, 1 wall. Weight on left.\n\nSET 1\n{section}\nSET 2\n{section}\n"
    routine, problems = read(page)
    for one in routine.parts[0].sections:
        assert " ".join(str(event.label) for event in one.events) == labels
    assert not [one for one in loud(problems) if one.kind == "counts"]


@pytest.mark.parametrize(("line", "states"), [("78  R fw; L fw with 1/4 L ....... to 12", True), ("5 | to 6", False)])
def test_an_hour_in_a_cell_of_its_own_is_a_facing(line: str, states: bool) -> None:
    (read_line,) = with_facings(clean_lines(line))
    assert (read_line.tokens[-1].kind == "facing") is states


def test_an_hour_in_a_cell_of_its_own_is_no_pair_of_counts() -> None:
    first = "12     R rock fw; L recover\n3+4    R sd; L cl; R fw with 1/4 R ...... to {}\n"
    second = "56     L rock fw; R recover\n7+8    L bk; R cl; L fw\n"
    page = f"HARBOUR STEP\n16 counts. Weight on left.\n\nSET 1\n{first}{second}SET 2\n{first}{second}"
    routine, problems = read(page.format("12", "6"))
    assert _lengths(routine) == [10, 10]
    assert not [one for one in loud(problems) if one.kind == "counts"]
