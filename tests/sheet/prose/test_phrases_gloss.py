"""The sheet's own vocabulary: keys, short forms, names that a teacher explains."""

import pytest

from tests.sheet.prose.walking import danced, item, told
from trainer.sheet.prose.header.gloss import Gloss, gloss_of
from trainer.sheet.prose.text.tokens import tokens_of


def gloss(text: str) -> Gloss:
    return gloss_of([tokens_of(line, number) for number, line in enumerate(text.split("\n"), 1)])


def said(own: Gloss) -> dict[str, str]:
    return {" ".join(name): " ".join(token.text for token in words) for name, words in own.entries}


KEYS = [
    ("fwd = forward, bk = back", {"fwd": "forward", "bk": "back"}, "equal signs"),
    ("key: tch touch, rec recover", {"tch": "touch", "rec": "recover"}, "side by side"),
    ("Legend: F - forward, S - side", {"f": "forward", "s": "side"}, "dashes, single letters"),
    ("Abbrev.: Rf, Lf = right, left foot", {"rf": "right foot", "lf": "left foot"}, "two names, two meanings"),
    ("key: RF/LF right/left foot, w/ with", {"rf": "right foot", "lf": "left foot", "w": "with"}, "slashes"),
    ("key: fwd forward,\ntog together", {"fwd": "forward", "tog": "together"}, "over two lines"),
    ("fw = forward | sd = to the side", {"fw": "forward", "sd": "to the side"}, "pairs parted by wide gaps"),
    (
        "my short ones: f fwd, nx beside the other, bh behind",
        {"f": "fwd", "nx": "beside the other", "bh": "behind"},
        "headed in the teacher's own words",
    ),
    ("tog = together (take the weight)", {"tog": "together ( take the weight )"}, "a bracket belongs to the meaning"),
]


@pytest.mark.parametrize(("text", "expected", "why"), KEYS)
def test_key(text: str, expected: dict[str, str], why: str) -> None:
    assert said(gloss(text)) == expected, why


NO_VOCABULARY = [
    ("tune = Crumbs on the Counter (16 ct in)", "a header line"),
    ("A = 32, B = 16, T = tag 8", "lengths of parts"),
    ("Weight on left. Intro 16.", "sentences"),
    ("walls: 4, counts: 32", "numbers"),
    ("R sailor: R behind L, L side, R side", "a figure before its steps is danced there"),
    ("", "nothing"),
]


@pytest.mark.parametrize(("text", "why"), NO_VOCABULARY)
def test_what_is_no_vocabulary(text: str, why: str) -> None:
    assert gloss(text) == Gloss(), why


NAMES = [
    ("basic R always means: step R to side, rock L behind R, recover R", "basic R", "L", "as explained"),
    ("basic R always means: step R to side, rock L behind R, recover R", "basic L", "R", "in the mirror"),
    (
        "In this dance a harbour step means rock R back, recover L, close R to L.",
        "right harbour step",
        "L",
        "foot put before",
    ),
    ("In this dance a harbour step means rock R back, recover L, close R to L.", "LF harbour step", "R", "mirrored"),
    ("Quay turn: step R fwd, pivot 1/2 L, step R fwd", "Quay turn", "L", "a name and a colon, several steps"),
]


@pytest.mark.parametrize(("text", "words", "weight", "why"), NAMES)
def test_name(text: str, words: str, weight: str, why: str) -> None:
    found = danced(item(words, "1-2&"), weight, gloss(text))
    assert found is not None, why
    free = "R" if weight == "L" else "L"
    assert [event[1] for event in found[0]] == [free, weight, free], why


def test_what_is_known_for_a_key_needs_no_head() -> None:
    keys = [tokens_of("nx beside the other, bh behind", 1)]
    assert said(gloss_of([], keys)) == {"nx": "beside the other", "bh": "behind"}
    assert said(gloss_of([tokens_of("two, three, four", 2)], keys)) == said(gloss_of([], keys))


def test_single_letters_of_a_key() -> None:
    found = danced(item("R F, L S, R T", "1-3"), "L", gloss("Legend: F - forward, S - side, T - touch"))
    assert found is not None
    assert told(found[0], named=True) == "step:R/R step:L/L touch:R/L"


def test_a_name_that_explains_itself_ends() -> None:
    own = gloss("a quay step means quay step R, step L")
    assert danced(item("quay step, step R", "1-2"), "L", own) is None
