"""A sheet in another dress, its case or its signs changed throughout, is danced as it is in its own."""

import re
from collections.abc import Callable

import pytest

from tests.shares import share
from tests.sheet.prose.reached import DATA, read, score_of
from trainer.sheet.opening import opened
from trainer.sheet.prose.text.plus_signs import with_ands_for_plus


def _pluses(text: str) -> str:
    return text.replace("&", "+")


def _signs_for_and(text: str) -> str:
    return text.replace(" and ", " & ")


_SENTENCE = re.compile(r"[A-Z][^\n]*[.!?]")


def _sentences_numbered(text: str) -> str:
    """Number the sentences of each paragraph about walls that has one on every line."""
    blocks = text.split("\n\n")
    for place, block in enumerate(blocks):
        lines = block.strip("\n").split("\n")
        told = all(_SENTENCE.fullmatch(line) for line in lines) and re.search(r"\bwall", block)
        if len(lines) > 1 and told and not re.search(r"\(\d", block):
            blocks[place] = "\n".join(f"{number}. {line}" for number, line in enumerate(lines, 1))
    return "\n\n".join(blocks)


def _each_word(text: str) -> str:
    return re.sub(r"[A-Za-z][A-Za-z']*", lambda match: match[0][0].upper() + match[0][1:], text)


DRESSED: list[tuple[str, Callable[[str], str], list[str]]] = [
    ("all in capitals", str.upper, ["w3/goshawk", "e1/e1-lanterns", "x31/chalkdust", "x16/tworivers", "i2/i2-vane"]),
    ("a capital for each word", _each_word, ["x43/millrace", "m1/m1-tinker", "x18/cooper"]),
    ("no capitals", str.lower, ["d1/d1-postbox", "r1/r1-moth", "x14/cablecar", "x32/kestrel", "x29/inkwell"]),
    ("plus for and", _pluses, ["more/m11", "x16/signalbox", "x9/x9-torvick", "x19/kitbag", "h1/h1-saltglow"]),
    ("notes numbered", _sentences_numbered, ["d3/d3-pepperwort", "v6/pickle-jar", "x33/chalkdust", "x4/marmalade",
                                             "v5/gingercat", "x23/barrelhoop"]),
    ("an & for and", _signs_for_and, ["v5/buttonbox", "e2/e2-osier", "x8/x8-lantern"]),
]  # fmt: skip


ROWS = [pytest.param(dress, name, id=f"{why} {name}") for why, dress, names in DRESSED for name in names]


@pytest.mark.parametrize(("dress", "name"), share(ROWS, 3))
def test_a_sheet_is_danced_alike_in_another_dress(dress: Callable[[str], str], name: str) -> None:
    hold_alike(dress, name)


def hold_alike(dress: Callable[[str], str], name: str) -> None:
    """Hold that a sheet in another dress is read as well as in its own."""
    text = (DATA / f"{name}.txt").read_text(encoding="utf-8")
    assert dress(text) != text
    plain = score_of(name, read(name), with_faults=False)
    dressed = score_of(name, opened(DATA / f"{name}.txt", dress(text)), with_faults=False)
    assert (dressed.events, dressed.alarms) == (plain.events, plain.alarms)


PLUSES = [
    ("1-2 walk R, L\n3 + 4 shuffle R\n5 - 6 rock\n7 + 8 coaster",
     "1-2 walk R, L\n3 & 4 shuffle R\n5 - 6 rock\n7 & 8 coaster", "between two counts that go on"),
    ("1  R side\n+  L close\n2  R side\n+  L close", "1  R side\n&  L close\n2  R side\n&  L close", "its own row"),
    ("1 + 2 walk, walk\n3 + 4 rock\n5 + 6 back, back", "1 + 2 walk, walk\n3 + 4 rock\n5 + 6 back, back",
     "every join is a plus: it may be no half beat"),
    ("1&2 shuffle\n3-4 rock\n5-6 walk\nparts 1 + 2 then tag", "1&2 shuffle\n3-4 rock\n5-6 walk\nparts 1 + 2 then tag",
     "another sign is the half beat"),
    ("A plus is the half beat.\n1-2 walk\n3-4 rock\n5+6 triple\n7+8 triple",
     "A plus is the half beat.\n1-2 walk\n3-4 rock\n5+6 triple\n7+8 triple", "what is explained is read with its key"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told", "why"), PLUSES, ids=[why for *_, why in PLUSES])
def test_a_plus_is_a_half_beat_where_it_can_be_nothing_else(text: str, told: str, why: str) -> None:
    assert with_ands_for_plus(text) == told, why
