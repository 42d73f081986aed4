"""Rows that tell piece by piece what is danced are put as one number of counts; others stay as they are."""

import pytest

from tests.sheet.prose.telling_text import known, rows_of
from trainer.sheet.prose.order.lines.covers import Covers
from trainer.sheet.prose.text.tokens import tokens_of

TOLD = [(text, row["counts"]) for row in rows_of("covers.toml", "row") for text in row["texts"]]
ALONE = [text for row in rows_of("covers.toml", "as_it_stands") for text in row["texts"]]


def _put(row: str) -> str:
    return " ".join(token.text for token in Covers(known(32)).told(tokens_of(row)))


@pytest.mark.parametrize(("text", "counts"), TOLD, ids=[text for text, _ in TOLD])
def test_pieces_are_put_as_counts(text: str, counts: str) -> None:
    assert _put(f"3 | 6:00 | {text} , | restart") == f"3 | 6:00 | {counts} , | restart"


@pytest.mark.parametrize("text", ALONE)
def test_other_words_stay(text: str) -> None:
    row = f"3 | 6:00 | {text}"
    assert _put(row) == " ".join(token.text for token in tokens_of(row))


@pytest.mark.parametrize(
    ("text", "becomes"),
    [
        ("On wall 3 dance A, B and C 1-4, then restart", "On wall 3 dance 20 counts , then restart"),
        ("On wall 3 do the first eight, then restart", "On wall 3 do the first eight , then restart"),
    ],
)
def test_a_sentence_needs_more_than_one_piece(text: str, becomes: str) -> None:
    assert _put(text) == becomes
