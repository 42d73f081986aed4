"""Where the steps of an extra stand inside a sentence of the order: "tag after wall 2: stomp R, stomp L, then restart".

The steps begin with the first word that speaks of steps and belongs to no phrase of the order, and end before the next
phrase that names walls, another extra, a restart or going on.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.body_leads import names_an_extra, names_what_follows
from trainer.sheet.prose.order.statements.body_starts import start_of, told_number
from trainer.sheet.prose.order.statements.purposes import says_what_for
from trainer.sheet.prose.order.statements.replaced import end_of_replaced, negated
from trainer.sheet.prose.order.statements.stances import end_of_stance
from trainer.sheet.prose.order.statements.step_words import steps_of
from trainer.sheet.prose.order.statements.usual import dances_as_usual
from trainer.sheet.prose.words import Token

_WEAK = {
    "out", "over", "back", "left", "right", "home", "full", "slow", "head", "close", "box", "down", "up", "break",
    "cut", "drop", "feet", "run", "runs", "in", "steps",
}  # fmt: skip
"""Words of steps that may be other words too: one alone is no step."""
_NOTED = {"weight", "wt", "turn", "turning", "stepping", "transferring", "moving", "travelling"}
"""What a step may do without."""
_POSE_WORDS = {
    "strike",
    "pose",
    "a",
    "big",
    "final",
    "your",
    "any",
    "own",
    "nice",
    "the",
    "and",
    "hold",
    "it",
    "there",
    "with",
    "if",
    "you",
    "can",
    "like",
}
_BOW_WORDS = _POSE_WORDS | {"take", "bow", "curtsy", "smile", "wave", "to", "audience"}


_FREE = {"right", "left", "your", "the", "foot", "free", "with", "is", "r", "l", "rf", "lf", "so", "off"}
_SAME_FOOT = {"right", "left", "same", "foot", "the", "your", "other"}
_WALLS = {"wall", "walls"}
_ROOM = {
    "side", "sides", "front", "back", "home", "left", "right", "new", "other", "two", "both", "the", "our", "your",
    "and", "opposite", "on", "facing", "around", "all",
}  # fmt: skip
"""Words of walls of the room, some of which are words of steps too."""
_WEIGHT = {"weight", "wt", "on", "onto", "stays", "should", "be"}
_TAKES = {"take", "takes", "taking", "carry", "have", "get", "with", "are"}
_OF_ALL = {
    "weight",
    "wt",
    "the",
    "both",
    "all",
    "each",
    "of",
    "these",
    "those",
    "full",
    "your",
    "and",
    ",",
    "real",
    "on",
}
_GOES_ON = ">[,DJ]*(?:s[nx]|os|q|cn)|D(?:cn|n-n)"
"""What else is danced after steps: "..., then section 3", "..., dance 17-32"."""


@dataclass(frozen=True, slots=True)
class Body:
    """Steps told inside a sentence."""

    first: int
    """Index of its first lexeme."""
    last: int
    tokens: tuple[Token, ...]
    counts: int | None
    """Its length where it is said in brackets."""
    replaced: bool = False
    """Its steps are those that are not danced: "instead of the claps"."""

    @property
    def texts(self) -> set[str]:
        """Its words and marks."""
        return {token.text for token in self.tokens}

    @property
    def counted(self) -> bool:
        """Whether it has a number."""
        return any(token.kind == "number" for token in self.tokens)

    @property
    def holds(self) -> bool:
        """Whether it says no more than to hold."""
        return {token.low for token in self.tokens if token.kind == "word"} <= {"hold", "pause", "and", "then", "just"}

    @property
    def poses(self) -> bool:
        """Whether it only asks for a pose, on no count."""
        return {token.low for token in self.tokens if token.kind == "word"} <= _POSE_WORDS

    @property
    def bows(self) -> bool:
        """Whether it is no more than what one does when the dance is over: "and take a bow"."""
        return {token.low for token in self.tokens if token.kind == "word"} <= _BOW_WORDS


_ON_PAPER = {"page", "overleaf", "sheet"}
"""Words of where something is told, which is no step."""


def bodies_of(sentence: Sentence) -> list[Body]:
    """Return the runs of steps in a sentence, in order."""
    found = []
    at = 0
    while (first := start_of(sentence, at)) is not None:
        last, replaced = _end(sentence, first), False
        if cut := end_of_replaced(sentence, first, last):
            last, replaced = cut, True
        if stands := end_of_stance(sentence, first, last):
            at = stands
            continue
        body = body_of(sentence, first, last)
        if body is not None and replaced:
            body = replace(body, replaced=True)
        if body is not None:
            found.append(body)
        at = last
    if len(found) > 1 and names_what_follows(sentence, found[0].first, found[0].last, found[1].first):
        del found[0]
    found = [one for one in found if not dances_as_usual(sentence, one.first, one.last, found[-1].first)]
    left_out = negated(sentence)
    found = [one for one in found if not any(a < one.first and _last_word(sentence, one) < b for a, b in left_out)]
    for first, last in left_out:
        inside = any(one.first < last and first < one.last for one in found)
        body = body_of(sentence, first, last) if not inside and not _is_a_note(sentence, first - 1) else None
        found += [replace(body, replaced=True)] if body is not None else []
    return found


def _last_word(sentence: Sentence, body: Body) -> int:
    """The index of the last lexeme of steps that is no mark and no joint."""
    return max(at for at in range(body.first, body.last) if at == body.first or sentence.letters[at] not in ",&;/>")


def outside(sentence: Sentence, bodies: Sequence[Body]) -> list[Atom]:
    """Return the atoms that do not stand inside the steps; "on 7 touch R" begins them with their count."""
    opening = {body.first for body in bodies if body.tokens[0].kind == "number"}
    return [
        atom
        for atom in sentence.atoms
        if not any(body.first <= atom.first < body.last for body in bodies)
        and not (atom.kind == "loose" and atom.last - 1 in opening)
    ]


def _end(sentence: Sentence, first: int) -> int:
    strong = [atom.first for atom in sentence.atoms if atom.first > first and _is_strong(sentence, atom)]
    # "..., then section 3" and "touch L instead of stepping" tell what else is, or would have been, danced.
    others = [at for at in range(first + 1, len(sentence.letters)) if _breaks(sentence, at)]
    return min([*strong, *others, len(sentence.letters)])


def _is_a_note(sentence: Sentence, at: int) -> bool:
    """Whether a word of not tells how a step is done: "drag the left without weight", "no turn"."""
    after = sentence.tokens[sentence.lexemes[at].last :][:3]
    return any(token.low in _NOTED for token in after)


def _breaks(sentence: Sentence, at: int) -> bool:
    """Whether steps end here: with another way, with the dance itself, or with a wait for the music, on no count."""
    ends = sentence.letters[at] in "Vb" or (sentence.letters[at] == "N" and not _is_a_note(sentence, at))
    passive = sentence.letters[at] == "K" and re.match("K(?:$|[.,;:>&])", sentence.letters[at:])
    if ends or passive or re.match(_GOES_ON, sentence.letters[at:]) or says_what_for(sentence, at):
        return True
    told = any(atom.first <= at < atom.last for atom in sentence.atoms) or _is_a_step(sentence, at)
    return sentence.letters[at] == "H" and not told and sentence.words(at, at + 1).lower() in ("wait", "waits")


def _is_a_step(sentence: Sentence, at: int) -> bool:
    """Whether a wait has its own count, or is one of steps parted by commas: "sway left (1), wait (2)"."""
    counted = re.match(r"H\(n\)|Hn(?=[,.;]|$)|Hn?c(?=[,.;]|$)|H(?=,&?m)", sentence.letters[at:])
    listed = re.search(r"m(?P<waits>(?:,&?H)+)[.)]?$", sentence.letters)
    return counted is not None or (listed is not None and at > listed.start("waits"))


def _is_strong(sentence: Sentence, atom: Atom) -> bool:
    letters = sentence.letters[atom.first : atom.last]
    if atom.kind == "walls":
        return True
    if atom.kind == "act" and atom.act == "X":
        # "... make half a turn to finish at the front" belongs to the steps of the ending.
        return not any(one.act == "X" and one.first < atom.first for one in sentence.atoms)
    if atom.kind == "act":
        return atom.act in "RTGXn" or (atom.act == "Q" and letters == "Q")
    if atom.kind == "place":
        return bool(re.match("A|E[^c]|B|Z", letters))
    return atom.kind == "onward" or (atom.kind == "change" and atom.spec is not None)


def _is_plural(word: str) -> bool:
    """Whether a word is one of several steps: "stomps"."""
    return word.endswith("s") and word.removesuffix("s") in STEP_WORDS


def body_of(sentence: Sentence, first: int, last: int) -> Body | None:
    """Return the steps from one lexeme to another; None where the words are none."""
    tokens = sentence.tokens[sentence.lexemes[first].first : sentence.lexemes[last - 1].last]
    steps, counts = steps_of(tokens)
    if names_an_extra(sentence, first, last):
        return None
    counts = counts or told_number(sentence, first)
    speaking = [at for at in range(first, last) if sentence.letters[at] in "mH"]
    weak = [at for at in speaking if sentence.words(at, at + 1).lower() in _WEAK]
    if speaking == weak and len(weak) < 2:
        return None
    start = sentence.lexemes[first].first
    led = [token.low for token in sentence.tokens[max(0, start - 2) : start]]
    if led[-1:] == ["see"] or led in (["see", "the"], ["see", "at"], ["see", "note"]):
        # "(fifth wall: stop here, see the foot of the page)".
        return None
    lows = {token.low for token in steps}
    if lows & _ON_PAPER:
        # "The bridge after count 16 (foot of the page)".
        return None
    if lows & _WALLS and lows <= _ROOM | _WALLS:
        # "From there we are on the side walls".
        return None
    if "free" in lows and lows <= _FREE:
        # "... at three o'clock, right foot free" tells where one stands.
        return None
    if lows & _WEIGHT and lows <= _WEIGHT | _FREE:
        # "(that is count 22, weight on left)".
        return None
    if lows & {"weight", "wt"} and lows & _TAKES and all(low in _OF_ALL or _is_plural(low) for low in lows - _TAKES):
        # "Both stomps take the weight."
        return None
    if led[-1:] != [] and led[-1] in ("on", "with", "on the", "the", "your") and lows <= _SAME_FOOT and "foot" in lows:
        # "Then the dance begins again on the left foot."
        return None
    if sentence.letters[first : last + 1] == "m:" and not any(atom.first < first for atom in sentence.atoms):
        # "Teaching point: on wall 4 ..." names no step.
        return None
    return Body(first, last, steps, counts) if steps else None
