"""Sections headed by labels of many makes: the order names them as it is written there."""

import pytest

from tests.sheet.prose.paragraphs import FOLDER
from trainer.problems import loud
from trainer.routine import Routine
from trainer.sheet.opening import opened

_NAMES = ("vines", "walks and a kick", "heels and two pivots", "jazz box, stomps and claps")
_HEADS = {
    "letters in brackets": (("(a) {}", "(b) {}", "(c) {}", "(d) {}"), "(a) and (b)"),
    "letters before a bracket": (("a) {}", "b) {}", "c) {}", "d) {}"), "a) and b)"),
    "capitals in square brackets": (("[A] {}", "[B] {}", "[C] {}", "[D] {}"), "[A] and [B]"),
    "capitals before a full stop": (("A. {}", "B. {}", "C. {}", "D. {}"), "A and B"),
    "capitals alone": (("A", "B", "C", "D"), "A to B"),
    "numbers in round brackets": (("(1) {}", "(2) {}", "(3) {}", "(4) {}"), "(1) and (2)"),
    "figures cut short": (("Fig. 1  {}", "Fig. 2  {}", "Fig. 3  {}", "Fig. 4  {}"), "figs 1 and 2"),
    "lines by letters": (("Line A: {}", "Line B: {}", "Line C: {}", "Line D: {}"), "line A and line B"),
    "Roman numbers": (("i) {}", "ii) {}", "iii) {}", "iv) {}"), "i) and ii)"),
}


def _read(heads: tuple[str, ...], told: str) -> tuple[Routine, list[str]]:
    text = (FOLDER / "dances" / "K1.txt").read_text(encoding="utf-8")
    for place, (name, head) in enumerate(zip(_NAMES, heads, strict=True), 1):
        text = text.replace(f"Section {place}: {name}", head.format(name))
    sheet = opened(FOLDER / "sheet.txt", text.replace("@@", told))
    return sheet.routine, [problem.message for problem in loud(sheet.problems)]


@pytest.mark.parametrize(("heads", "two"), _HEADS.values(), ids=_HEADS)
def test_an_ending_after_two_labelled_sections(heads: tuple[str, ...], two: str) -> None:
    told = f"Wall 7 is the last one, from 6 o'clock: {two} only, then\n1-2  Stomp R forward, hold"
    routine, wrong = _read(heads, told)
    assert not wrong
    assert [section.counts for part in routine.parts for section in part.sections] == [8, 8, 8, 8]
    assert [(one.kind, one.counts) for one in routine.extras] == [("ending", 2)]
    (departure,) = [one for line in routine.order for one in line.departures]
    assert (departure.after, departure.leave) == (16, "end")


@pytest.mark.parametrize(("heads", "two"), _HEADS.values(), ids=_HEADS)
def test_a_label_that_goes_on_with_the_sections_is_missing(heads: tuple[str, ...], two: str) -> None:
    last = two.replace("B", "E").replace("ii", "v").replace("b", "e").replace("2", "5").rsplit(None, 1)[-1]
    noun = next((f"{one} " for one in ("line", "fig.") if one.strip(".") in two), "")
    _, wrong = _read(heads, f"Restart in wall 3 after {noun}{last}, facing 6:00.")
    assert wrong


def test_a_letter_that_the_key_explains_is_no_label() -> None:
    told = "B = back, PV = pivot, H = half, S = side\n\ni)\n1-4 R B, L B, R B, touch L\n5-8 L B, R B, L B, touch R\n"
    told += "ii)\n1-4 R S, touch L, L S, touch R\n5-8 R forward, PV H L, R forward, PV H L\n"
    told += "iii)\n1-4 R S, touch L, L S, touch R\n5-8 R S, touch L, L S, touch R"
    sheet = opened(FOLDER / "sheet.txt", f"TIN WHISTLE\n24 counts, weight on left\n{told}")
    assert [(event.foot, event.direction) for event in list(sheet.routine.events())[:3]] == [
        ("R", "back"), ("L", "back"), ("R", "back"),
    ]  # fmt: skip
    assert not loud(sheet.problems)
