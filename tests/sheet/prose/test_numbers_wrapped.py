"""Numbers that the margin parts from what they number, signs for sections, an x for a cross."""

import pytest

from trainer.sheet.prose.habits.crosses_signed import with_crosses_written
from trainer.sheet.prose.habits.numbers_wrapped import with_numbers_at_their_nouns
from trainer.sheet.prose.habits.sections_by_signs import with_signed_sections
from trainer.sheet.prose.text.layout import clean_lines

WRAPPED = [
    ("Wall 4 begins at 3:00. Dance Sections\n1 to 4 and start the dance again,",
     ["wall 4 begins at 3:00 . dance sections 1 to 4", "and start the dance again ,"]),
    ("The tag is danced after the walls\n2 and 6, facing the front.",
     ["the tag is danced after the walls 2 and 6", ", facing the front ."]),
    ("8 counts, 1 wall\n1-4 R side, L together", ["8 counts , 1 wall", "1 - 4 r side , l together"]),
    ("Here are the sections\n1-4 step R, L, R, L", ["here are the sections", "1 - 4 step r , l , r , l"]),
    ("Sections\n1 to 4 are danced twice", ["sections", "1 to 4 are danced twice"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), WRAPPED)
def test_a_number_stands_with_what_it_numbers(text: str, told: list[str]) -> None:
    assert [line.words for line in with_numbers_at_their_nouns(clean_lines(text))] == told


def test_a_sign_before_numbers_names_sections_where_the_sheet_speaks_of_them() -> None:
    text = "#1 Rock, half\n1-2 rock R\n#2 Quarter\n1-2 rock L\nWall 3: #1 only, tag #1 after wall #2"
    told = [line.words for line in with_signed_sections(clean_lines(text))]
    assert told == [
        "section 1 rock , half", "1 - 2 rock r", "section 2 quarter", "1 - 2 rock l",
        "wall 3 : section 1 only , tag # 1 after wall # 2",
    ]  # fmt: skip


def test_a_sign_before_numbers_of_rows_stays() -> None:
    rows = clean_lines("#1 walk R, L (1-2)\n#2 walk R, L (3-4)")
    assert with_signed_sections(rows) == tuple(rows)


CROSSES = [
    ("5&6 x R over L, L side, x L foot behind R", "5 & 6 cross r over l , l side , cross l foot behind r"),
    ("walk R, L x 2, R over L", "walk r , l x 2 , r over l"),
    ("stomp x R, L", "stomp x r , l"),
]


@pytest.mark.parametrize(("text", "told"), CROSSES)
def test_an_x_before_the_foot_that_crosses_is_a_cross(text: str, told: str) -> None:
    assert with_crosses_written(clean_lines(text))[0].words == told
