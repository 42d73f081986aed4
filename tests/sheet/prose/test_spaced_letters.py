"""Words with blanks between their letters are words; letters listed for themselves are none."""

from pathlib import Path

import pytest

from trainer.sheet.opening import opened
from trainer.sheet.prose.text.layout import clean_lines


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("V E R S E", "VERSE"),
        ("B R E A T H  (4 counts)", "BREATH ( 4 counts )"),
        ("* T H E   F I N I S H *", "THE FINISH"),
        ("T A G", "TAG"),
        ("L A N T E R N  L A N E", "LANTERN LANE"),
        ("A B A B C A", "A B A B C A"),
        ("A B T A B T", "A B T A B T"),
        ("walk fwd R L R L", "walk fwd R L R L"),
        ("1-4 R L R, touch L", "1 - 4 R L R , touch L"),
        ("S Q Q S", "S Q Q S"),
        ("W R E N   O N   A   R O O F", "WREN ON A ROOF"),
    ],
)
def test_letters_of_a_word(text: str, words: str) -> None:
    (line,) = clean_lines(text)
    assert " ".join(token.text for token in line.tokens if token.text != "|") == words


@pytest.mark.parametrize("text", ["* * *  N E T T L E   S O U P  * * *", "N E T T L E   S O U P"])
def test_a_spaced_title_is_whole(text: str) -> None:
    sheet = f"{text}\n32 counts, 4 walls\n\n1-4 Walk forward R, L, R, touch L\n5-8 Walk back L, R, L, touch R\n"
    assert opened(Path("title.txt"), sheet).routine.title == "NETTLE SOUP"
