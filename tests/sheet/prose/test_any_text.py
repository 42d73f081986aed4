"""Whatever stands in a file, the reader gives a routine and sentences: sheets torn and mixed, free text, bad input.

Mutations of real sheets: lines dropped, doubled, shuffled, joined, put in from another sheet; words swapped; characters
replaced; numbers far too big, very long lines, letters of other scripts.
"""

import random
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.problems import TrainerError, loud
from trainer.sheet.fair import fair
from trainer.sheet.opening import Sheet, open_sheet, opened
from trainer.sheet.prose.habits import written_alike
from trainer.sheet.prose.text.layout import clean_lines

DATA = Path(__file__).parents[2] / "data" / "sheets"
SHEETS = sorted(DATA.rglob("*.txt"))
TEXTS = [path.read_text(encoding="utf-8") for path in SHEETS]
WORDS = sorted({word for text in TEXTS for word in text.split()})
ODD = [
    "", "\u200b", "😀", "𝟙", "½", "٣", "²", "①", "ﬁ", "İ", "ß", "\u00a0", "\t", "\x00", "\x1b[31m", "(" * 200, ")", "[",
    "<3:00>", "{", "&" * 300, "1" * 40, "9" * 4000, "0", "-1", "1/0", "0/0", "1/99999999", "99:99", "12:60", "1-100000",
    "8-1", "1&1&1&", "1-", "x99", "x 999999", "a" * 3000, "R L " * 400, "1 " * 500, "1-8 1-8", "step " * 600,
    "wall 999999999999", "restart after 0", "tag after 64 on walls 1-99999", "play A A A B", "repeat section 99",
]  # fmt: skip
"""Words that no teacher writes."""

HANG = 20.0 if sys.gettrace() is None else 200.0
"""Seconds of processor time that no reading of a usual sheet may come near: an aim is 2 for 128 counts. While coverage
is measured, each line costs many times its time."""


def read_in_time(text: str) -> Sheet:
    begun = time.process_time()
    sheet = opened(Path("any.txt"), text)
    assert time.process_time() - begun < HANG
    return sheet


def test_there_are_sheets() -> None:
    assert len(SHEETS) > 80


def mutated(text: str, dice: random.Random) -> str:
    for _ in range(dice.choice((1, 1, 2, 3, 5, 10))):
        lines = text.split("\n")
        at = dice.randrange(len(lines))
        words = lines[at].split(" ")
        kind = dice.randrange(9)
        if kind == 0:
            del lines[at]
        elif kind == 1:
            lines.insert(at, lines[at])
        elif kind == 2:
            dice.shuffle(lines)
        elif kind == 3:
            one, other = dice.randrange(len(words)), dice.randrange(len(words))
            words[one], words[other] = words[other], words[one]
            lines[at] = " ".join(words)
        elif kind == 4 and lines[at]:
            column = dice.randrange(len(lines[at]))
            odd = dice.choice([*ODD, *(chr(dice.randrange(32, 0x3000)) for _ in ODD)])
            lines[at] = lines[at][:column] + odd + lines[at][column + 1 :]
        elif kind == 5:
            lines = lines[: at + 1]
        elif kind == 6:
            words[dice.randrange(len(words))] = dice.choice(dice.choice((WORDS, ODD)))
            lines[at] = " ".join(words)
        elif kind == 7:
            other_lines = dice.choice(TEXTS).split("\n")
            begin = dice.randrange(len(other_lines))
            lines[at:at] = other_lines[begin : begin + dice.randrange(1, 12)]
        else:
            lines[at : at + 2] = [" ".join(lines[at : at + 2])]
        text = "\n".join(lines)
    return text


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**32), st.sampled_from(range(len(TEXTS))))
def test_a_torn_and_mixed_sheet_is_read(seed: int, place: int) -> None:
    sheet = read_in_time(mutated(TEXTS[place], random.Random(seed)))
    fair(sheet.routine)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.one_of(st.sampled_from(WORDS), st.sampled_from(ODD), st.just("\n"), st.text(max_size=12)), max_size=250)
)
def test_words_in_any_order_are_read(words: list[str]) -> None:
    sheet = read_in_time(" ".join(words))
    fair(sheet.routine)


@settings(max_examples=40, deadline=None)
@given(st.text())
def test_free_text_is_read(text: str) -> None:
    fair(read_in_time(text).routine)


NOVEL = """It was late when the boat came in. Marta stood on the quay, her left hand in her pocket, and counted
the lights. "Eight," she said, "or nine, if you take the one behind the church." Nobody turned. The wind had been from
the right all day, and now it stepped back, as her father would have said, and sat down.
"""
GERMAN = "Schritt nach rechts mit rechts, linken Fuß an rechten heransetzen\nvier Schritte vor, dann klatschen\n"
BAD = [
    ("", "nothing at all"),
    ("   \n\n\t\n", "only blanks"),
    (NOVEL * 40, "a novel"),
    (GERMAN * 8, "a sheet in another language"),
    ("x" * 900_000, "one word"),
    ("step right " * 60_000, "one line"),
    ("step right " * 3_500, "a shorter line"),
    ("1 step right\n" * 15_000, "one count again and again"),
    ("1 step right\n" * 3_000, "one count not so often"),
    ("1-8 " * 100_000, "nothing but counts"),
    ("1-8 " * 9_000, "counts on one line"),
    ("1-8\n" * 9_000, "counts on lines"),
    ("wall 3 restart after 16 counts. " * 1_200, "nothing but restarts"),
    ("(" * 100_000, "brackets"),
    ("Hello everyone, see you on Friday!", "a greeting"),
    ("\x00\x01\x02\ufffd" * 1000, "controls"),
]


@pytest.mark.parametrize(("text", "why"), BAD, ids=[why for _, why in BAD])
def test_bad_input_gets_a_plain_sentence(text: str, why: str) -> None:
    sheet = read_in_time(text)
    assert loud(sheet.problems), why
    assert all(problem.message and problem.message[:1].strip() for problem in sheet.problems)


def test_half_a_sheet_says_what_is_missing() -> None:
    text = (DATA / "a2-biscuit.txt").read_text(encoding="utf-8")
    sheet = read_in_time(text[: len(text) // 2])
    assert any(sheet.routine.events())
    assert loud(sheet.problems)


@pytest.mark.parametrize(
    ("name", "data", "sentence"),
    [
        ("picture.txt", b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "is a picture, not text"),
        ("huge.txt", b"step right\n" * 950_000, "is far bigger than any step sheet"),
        ("raw.txt", bytes(range(256)) * 40, "is not text"),
    ],
)
def test_a_file_that_is_no_sheet_is_refused(tmp_path: Path, name: str, data: bytes, sentence: str) -> None:
    path = tmp_path / name
    path.write_bytes(data)
    with pytest.raises(TrainerError, match=sentence):
        open_sheet(path)


def test_raised_digits_in_a_column_are_no_numbers() -> None:
    rows = (
        "\u00b2\t1-4\tR side, L together, R side, touch L\t12",
        "\u00b3\t5-8\tL side, R together, L side, touch R\t12",
    )
    text = "GORSE\n16 counts\n\nNo\tCount\tWhat\tFace\n" + "\n".join(rows * 2) + "\n"
    assert opened(Path("gorse.txt"), text).routine.parts


@pytest.mark.parametrize(
    "text", ["", "....", "The", "TAG", "Tag 1:", "1.", "(", "CALL:", "A, ", "wall 3", "I", "at six", "A danced"]
)
def test_every_stage_takes_nothing_and_lone_words(text: str) -> None:
    for stage in (*written_alike._OF_THE_PAGE, *written_alike._OF_ITS_COUNTS, *written_alike._OF_ITS_WALLS):
        assert tuple(stage(())) == ()
        stage(clean_lines(text))
