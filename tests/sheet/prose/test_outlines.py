"""Outlines: numbers before lines that are no counts, and numbers that point to a line."""

import pytest

from trainer.sheet.prose.text.layout import clean_lines


def _words(text: str) -> list[str]:
    return [line.words for line in clean_lines(text)]


@pytest.mark.parametrize(
    ("text", "expected", "why"),
    [
        ("1.1 step\n1.2 walk\n2.1 rock\n2.2 kick", ["step", "walk", "rock", "kick"], "two levels"),
        ("1. Part\n1.1 a\n1.2 b\n2. More\n2.1 c\n2.1.1 d", ["part", "a", "b", "more", "c", "d"], "three levels"),
        ("1.1 step\n1.2 walk\n1.3 rock\n1.4 see 1.2 then", ["step", "walk", "rock", "see walk then"], "a title"),
        ("1.1 Tag\n1.2 walk\n1.3 rock\n1.4 the tag (see 1.1)", ["tag", "walk", "rock", "the tag"], "a pointer"),
        (
            "1. Facts\n1.1 a\n1.2 b\n2. Walks\n3. Kicks\n4. Order\n4.1 c\n4.2 d",
            ["facts", "a", "b", "walks", "kicks", "order", "c", "d"],
            "chapters without numbers below them",
        ),
        ("1.1) step\n1.2) walk\n1.3) rock\n1.4) kick", ["step", "walk", "rock", "kick"], "brackets"),
    ],
)
def test_an_outline(text: str, expected: list[str], why: str) -> None:
    assert _words(text) == expected, why


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("1.2 walk\n3.4 walk\n5.6 rock\n7.8 rock", "pairs of counts"),
        ("1.1 step\n1.2 walk", "too few lines"),
    ],
)
def test_no_outline(text: str, why: str) -> None:
    assert _words(text) == [line.replace(".", " . ") for line in text.split("\n")], why
