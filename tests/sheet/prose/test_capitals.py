"""A sheet typed without capitals is read as the same sheet with them."""

from collections.abc import Callable
from pathlib import Path

import pytest
from reached import DATA, read, score_of

from trainer.sheet.opening import opened
from trainer.sheet.prose.text.capitals import with_capitals

WITHOUT = [
    ("weight on the left, and go. after wall two restart.\nhave fun with it, all of you, and smile for the camera",
     "Weight on the left, and go. After wall two restart.\nHave fun with it, all of you, and smile for the camera",
     "sentences, and lines below a full stop"),
    ("kettle steps for the tuesday people, thirty-two counts\norder: a, b, a, tag, b and the last a of the evening",
     "Kettle steps for the tuesday people, thirty-two counts\norder: A, B, A, tag, B and the last A of the evening",
     "a list of parts, and a part by itself"),
    ("part a of the dance, thirty-two counts in all.\npart b of the dance, sixteen counts.\ndance a twice, then a b.",
     "Part A of the dance, thirty-two counts in all.\nPart B of the dance, sixteen counts.\nDance A twice, then a B.",
     "parts that are named"),
    ("okok heres the dance from last nite for all of you\norder is a a b a a b b a\nno tags no restarts nothing",
     "Okok heres the dance from last nite for all of you\norder is A A B A A B B A\nNo tags no restarts nothing",
     "a list of parts with nothing between them"),
    ("1-2 walk r, l\n3-4 rock r forward, recover l and take a breath of air, as it is the end of the first line of it",
     "1-2 walk R, L\n3-4 rock R forward, recover L and take a breath of air, as it is the end of the first line of it",
     "feet"),
    ("s l a c k l i n e\n1-2 walk r, l and then once more r, l, and that is all there is to it for the first line here",
     "S l a c k l i n e\n1-2 walk R, L and then once more R, L, and that is all there is to it for the first line here",
     "a spaced title is no row of feet"),
    ("station a: walk forward and back again, please\nstation b: rock and recover\nrestart in station b on wall three",
     "Station A: walk forward and back again, please\nStation B: rock and recover\nRestart in station B on wall three",
     "headings of a row by letters"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "with_them", "why"), WITHOUT, ids=[why for *_, why in WITHOUT])
def test_capitals_are_put_where_they_would_be(text: str, with_them: str, why: str) -> None:
    assert with_capitals(text) == with_them, why


def test_a_text_with_capitals_stays() -> None:
    text = (DATA / "a2-biscuit.txt").read_text(encoding="utf-8")
    assert with_capitals(text) == text


ALIKE = [
    "a1/a1-brickfield", "c2/c2-larkrise", "m2/m2-quillow", "x13/x13-plasterer", "x15/ferrybell", "x34/moorhen",
    "w3/kestrel", "a3/a3-stonecrop", "f1/f1-quillon",
]  # fmt: skip


@pytest.mark.parametrize("name", ALIKE)
def test_a_sheet_is_danced_alike_without_its_capitals(name: str) -> None:
    text = (DATA / f"{name}.txt").read_text(encoding="utf-8")
    plain = score_of(name, read(name), with_faults=False)
    small = score_of(name, opened(DATA / f"{name}.txt", text.lower()), with_faults=False)
    assert (small.events, small.alarms) == (plain.events, plain.alarms)


OWN = [
    (str.upper, "all in capitals"),
    (str.lower, "without capitals"),
]


@pytest.mark.parametrize(("dress", "why"), OWN, ids=[why for _, why in OWN])
def test_words_are_kept_as_they_were_typed(dress: Callable[[str], str], why: str) -> None:
    text = dress((DATA / "w3/goshawk.txt").read_text(encoding="utf-8"))
    sheet = opened(Path("goshawk.txt"), text)
    words = {event.words for event in sheet.routine.events()}
    assert sheet.routine.title == dress("The Weekly Shuffle"), why
    assert sheet.routine.tune == dress("Goshawk in a Tweed Jacket"), why
    assert all(said == dress(said) for said in words | {part.sections[0].title for part in sheet.routine.parts}), why
    assert len(words) > 10
