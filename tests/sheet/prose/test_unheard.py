"""What an order of play names and the sheet does not tell is found where the play names it."""

import pytest

from tests.sheet.prose.paragraphs import FOLDER
from trainer.problems import loud
from trainer.sheet.reading import read

_DANCE = (FOLDER / "phrased.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("play", "found"),
    [
        ("Order: A, B, A, D, B, B", ["The order of play names D, but the sheet does not tell it"]),
        (
            "Order: A, B, A to 16, D, first half of A, B",
            ["The order of play names D, but the sheet does not tell it"],
        ),
        (
            "Order: A; B; A without the last 8; D; B",
            ["The order of play names D, but the sheet does not tell it"],
        ),
        ("A A B, A A B, wait, B, A", ["The order of play names wait, but the sheet does not tell it"]),
        (
            "We dance A and B, then A again and B again. The tag is danced once, and it comes after the seventh B.\n\n"
            "TAG\n1-4   Sway R, sway L, sway R, sway L",
            ["There is no B number 7: the order of play dances it twice"],
        ),
        ("Order: A, short A, B, A, B", ["The order of play dances A short, but not how much of it"]),
    ],
)
def test_names_without_a_meaning(play: str, found: list[str]) -> None:
    _, problems = read(_DANCE.replace("@@", play))
    assert [problem.message for problem in loud(problems)] == found
