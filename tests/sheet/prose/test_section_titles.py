"""Titles of sections: the heading without the number that the section's name tells anyway."""

import pytest

from trainer.sheet.reading import read

STEPS = "1-4 Walk forward right, left, right, left\n5-8 Walk back right, left, right, left\n"


@pytest.mark.parametrize(
    ("heading", "title"),
    [
        ("Section 1: walks and more walks", "walks and more walks"),
        ("SECTION ONE - WALKS", "WALKS"),
        ("1. Walks", "Walks"),
        ("S1 Walks forward and back", "Walks forward and back"),
        ("Section 1 (12:00)", ""),
        ("1-8", "1-8"),
        ("1 - 8 WALKS", "1 - 8 WALKS"),
        (">> S1 <<", ""),
        ("<Section 1>", ""),
    ],
)
def test_the_number_is_not_told_twice(heading: str, title: str) -> None:
    routine, _ = read(f"Quay Steps\n16 counts, 4 walls\n\n{heading}\n{STEPS}\nSection 2\n{STEPS}")
    assert [section.title for section in routine.parts[0].sections] == [title, ""]
