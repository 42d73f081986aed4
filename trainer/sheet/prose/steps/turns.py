"""Notes of weight and phrases of turning: they come out of the words before feet are sought.

A turn may be said in any order: "¼ turn left", "turn a quarter left", "half pivot to the right", "a turn of quarter
to left", "over the left shoulder". Where no side is said, the turn may go either way.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.sheet.prose.steps.standing import past_standing, unstood
from trainer.sheet.prose.steps.turned_onto import turned_onto
from trainer.terms import Foot, Move

TurnWord = Literal["turn", "pivot", "unwind", "spiral", "circle", "square", ""]


class Turning(NamedTuple):
    """A phrase of turning."""

    amount: Fraction | None
    """Of a whole turn, not signed; None: not said."""
    side: Foot | None
    """None: not said."""
    word: TurnWord
    before: Foot | None = None
    """A side just before the phrase, which may be the turn's or the acting foot: "right half turn"."""

    def joined(self, other: "Turning") -> "Turning":
        """Return the turn of which both phrases tell a part: "½ Monterey turn right"."""
        return Turning(self.amount or other.amount, self.side or other.side, other.word or self.word)

    @property
    def turns(self) -> tuple[Fraction, ...]:
        """The signed turns that it may mean, the likeliest first."""
        if self.word == "square":
            return (Fraction(1, 8), Fraction(-1, 8), Fraction(0))
        if self.amount is not None:
            sizes = [self.amount]
        elif self.word == "circle":
            sizes = [Fraction(1), Fraction(1, 2)]
        elif self.word == "spiral":
            sizes = [Fraction(1), Fraction(3, 4), Fraction(1, 2)]
        elif self.word in ("pivot", "unwind"):
            sizes = [Fraction(1, 2), Fraction(1, 4), Fraction(3, 4), Fraction(1)]
        else:
            sizes = [Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(1, 8), Fraction(1)]
        signs = {Foot.RIGHT: (1,), Foot.LEFT: (-1,)}.get(self.side or Foot.NONE, (1, -1))
        return tuple(size * sign for size in sizes for sign in signs)


_SHOULDER = ("over", "across", "by", "towards", "toward")
_FILL = {
    "a", "an", "the", "your", "of", "to", "making", "make", "makes", "do", "doing", "by", "you", "round", "around",
    "on", "into", "towards", "toward", "in", "reverse", "way", "degrees", "degree", "deg", "another", "further", "more",
}  # fmt: skip


_SWINGS = {
    "swing",
    "swings",
    "swinging",
    "whip",
    "whipping",
    "swirl",
    "swirling",
    "swivel",
    "swivelling",
    "go",
    "going",
}
"""Verbs of a whole body that turns: "swing half a turn to the right"."""
_ALONG = ("forward", "back", "to the back", "to the front")
"""Ways that may stand before the shoulder that a turn goes over."""


def with_turnings(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with every phrase of turning as one lexeme."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        if lexes[at].kind in ("amount", "turn") or _whole_and_part(lexes, at):
            turning, end = _turning_at(lexes, at, done[-1] if done else None)
            if turning is not None and any(is_task(lex, "no") for lex in done[-2:]):
                # "Jazz box without any turn".
                done[-2:] = [lex._replace(kind="glue") if is_task(lex, "no") else lex for lex in done[-2:]]
                at = end
                continue
            if turning is not None:
                ing = any(
                    lex.ing or lex.low in ("making", "doing")
                    for lex in lexes[max(at - 2, 0) : end]
                    if lex.kind in ("turn", "glue")
                )
                led = any(is_task(lex, "with") for lex in lexes[max(at - 2, 0) : at])
                while done and (
                    done[-1].low in ("making", "make", "makes", "a", "an", "do", "doing", "of", "in", "by")
                    or is_task(done[-1], "with", "of")
                    or (turning.amount is not None and (turning.word or turning.side) and done[-1].low in _SWINGS)
                ):
                    done.pop()
                unstood(done)
                typo = any(lex.typo for lex in lexes[at:end])
                done.append(Lex("turning", turning, "turn", lexes[at].span, ing or led, typo=typo))
                at = end
                carried, at = turned_onto(lexes, at, turning)
                if carried is not None:
                    done.append(carried)
                continue
            done.append(lexes[at]._replace(kind="glue"))
            at += 1
            continue
        done.append(lexes[at])
        at += 1
    return done


def _whole_and_part(lexes: Sequence[Lex], at: int) -> bool:
    """Whether "1 ¼" begins here."""
    return (
        lexes[at].kind == "number"
        and lexes[at].value == 1
        and lexes[at].low == "1"
        and at + 2 < len(lexes)
        and lexes[at + 1].kind == "amount"
        and lexes[at + 1].value < 1
        and lexes[at + 2].kind in ("turn", "side")
    )


def _turning_at(lexes: Sequence[Lex], at: int, before: Lex | None) -> tuple[Turning | None, int]:
    amount: Fraction | None = None
    words: list[TurnWord] = []
    side: Foot | None = None
    end = look = at
    while look < len(lexes):
        lex = lexes[look]
        if _whole_and_part(lexes, look) and amount is None:
            amount = lex.value + lexes[look + 1].value
            look += 1
        elif lex.kind == "amount" and amount is None:
            amount = lex.value
        elif (
            lex.kind == "turn"
            and len(words) < 2
            and not (words and amount is not None and side is not None and lex.ing)
        ):
            words.append(lex.value)
        elif lex.kind == "task" and lex.value in ("clockwise", "anticlockwise") and side is None:
            side = Foot.RIGHT if lex.value == "clockwise" else Foot.LEFT
        elif lex.kind == "side" and side is None and _sides(lexes, look, end):
            side = lex.value
            look = _past_shoulder(lexes, look)
        elif amount is None and _amount_follows(lexes, look, told=bool(words)):
            # "Keep turning right with a half turn", and "pivot > ½ onto R" with an arrow of turns.
            look += 1
            continue
        elif lex.low in _FILL or is_task(lex, "to", "of") or (lex.low in _SHOULDER and _shoulder_follows(lexes, look)):
            look += 1
            continue
        elif lex.kind == "way" and lex.low in _ALONG and _shoulder_follows(lexes, look):
            # "Full turn forward over the left shoulder".
            look += 1
            continue
        elif words and amount is not None and amount >= 1 and _way_and_side(lexes, look):
            # "Full turn forward left".
            look += 1
            continue
        elif lex.kind == "side" and _past_shoulder(lexes, look) > look:
            # "½ turn left over the left shoulder" says it twice.
            look = _past_shoulder(lexes, look)
        else:
            break
        look += 1
        end = look
    pushed = before is not None and before.value is Move.PUSH
    end = past_standing(lexes, end, far=pushed or (amount is not None and amount >= Fraction(1, 2)))
    return _made(lexes, at, end, amount, words, side, before), end


def _way_and_side(lexes: Sequence[Lex], look: int) -> bool:
    """Whether a way and the turn's side stand here, and no foot that steps there: a verb or the end follows."""
    if lexes[look].low not in ("forward", "back") or look + 1 >= len(lexes) or lexes[look + 1].kind != "side":
        return False
    after = lexes[look + 2] if look + 2 < len(lexes) else None
    further = lexes[look + 3] if look + 3 < len(lexes) else None
    if after is None or after.ing or after.kind in ("open", "close", "facing"):
        return True
    return after.kind == "break" and (further is None or further.kind not in ("side", "foot", "run"))


def _made(
    lexes: Sequence[Lex],
    at: int,
    end: int,
    amount: Fraction | None,
    words: Sequence[TurnWord],
    side: Foot | None,
    before: Lex | None,
) -> Turning | None:
    word: TurnWord = next((word for word in words if word != "turn"), words[0] if words else "")
    if not words and side is None and not _bare_amount(lexes, at, end, before):
        return None
    if word == "turn" and amount is None and lexes[at].low.startswith(("roll", "rotat")):
        return None
    if (
        amount is None
        and word == "turn"
        and side is None
        and not _faces(lexes, end)
        and not lexes[at].low.startswith("turn")
    ):
        return None
    maybe = before.value if side is None and before is not None and before.kind == "side" and words else None
    return Turning(amount, side, word, maybe)


_DANCED_BY_HALF = ("box", "basic", "chair", "lindy", "rumba", "k step", "v step")
"""Ends of names of which half, or the whole, is danced rather than turned: "half a rumba box"."""
_OF_A_WHOLE = {"diamond", "diamonds", "box", "basic"}


def _bare_amount(lexes: Sequence[Lex], at: int, end: int, before: Lex | None) -> bool:
    """Whether an amount with no turn word and no side turns: it does beside a figure, and wherever it is a fraction."""
    near = [lex for lex in (before, lexes[end] if end < len(lexes) else None) if lex is not None]
    if end < len(lexes) and lexes[end].low == "on":
        return True
    after = lexes[end : end + 3]
    if after and after[0].kind == "move" and after[0].ing and after[0].value is Move.STEP:
        # "And another half stepping forward".
        return True
    if after and is_task(after[0], "with") and any(one.kind in ("side", "foot") for one in after[1:]):
        # "A quarter with the left forward".
        return True
    if after and is_task(after[0], "each"):
        # "Two paddle turns, an eighth each".
        return True
    if _ends_a_figure(lexes, at, end) or _is_a_clause(lexes, at, end):
        return True
    if end < len(lexes) and lexes[end].low in _OF_A_WHOLE:
        # "¼ diamond" tells how much of one is danced.
        return False
    if lexes[at].low[:1].isdecimal() or lexes[at].low[:1] in "¼½¾⅛⅜⅝⅞":
        return True
    half = any(lex.value == Fraction(1, 2) or lex.value >= 1 for lex in lexes[at:end] if lex.kind == "amount")
    return any(lex.kind == "figure" and not (half and lex.value.endswith(_DANCED_BY_HALF)) for lex in near)


def _is_a_clause(lexes: Sequence[Lex], at: int, end: int) -> bool:
    """Whether an amount stands by itself in a row of steps, or before the way of one: "side, behind, quarter forward".

    A half may be that of a figure.
    """
    opens = at > 0 and lexes[at - 1].kind in ("break", "way", "prep", "side") and lexes[at].low.endswith("quarter")
    after = lexes[end] if end < len(lexes) else None
    return opens and (after is None or after.kind in ("break", "way", "close"))


def _ends_a_figure(lexes: Sequence[Lex], at: int, end: int) -> bool:
    """Whether an amount is what a figure is danced with: "vine left with quarter and scuff", "jazz box with a half"."""
    led = at - 1 - (at > 1 and lexes[at - 1].low in ("a", "the"))
    after = lexes[end] if end < len(lexes) else None
    closed = after is None or after.kind in ("break", "open", "close", "facing") or is_task(after, "and")
    return closed and led > 0 and is_task(lexes[led], "with") and any(lex.kind == "figure" for lex in lexes[:led])


def _faces(lexes: Sequence[Lex], end: int) -> bool:
    return any(lex.kind == "facing" for lex in lexes[end : end + 4])


def _sides(lexes: Sequence[Lex], look: int, end: int) -> bool:
    """Whether right or left at `look` is the turn's side: not "onto left", not "left foot"."""
    between = lexes[end:look]
    if any(lex.low in ("on", "onto", "on to", "into", "in") for lex in between):
        return False
    after = lexes[look + 1] if look + 1 < len(lexes) else None
    return not (after is not None and after.kind == "part" and after.value != "arm")


def _past_shoulder(lexes: Sequence[Lex], look: int) -> int:
    after = look + 1
    return after if after < len(lexes) and lexes[after].low in ("shoulder", "shoulders", "shldr") else look


def _amount_follows(lexes: Sequence[Lex], look: int, *, told: bool) -> bool:
    """Whether "with", or an arrow after a word of turning, leads to the amount of the same turn."""
    if lexes[look].value == ">":
        return told and [lex.kind for lex in lexes[look + 1 : look + 2]] == ["amount"]
    rest = [lex for lex in lexes[look + 1 : look + 4] if lex.low not in ("a", "an", "the")]
    return is_task(lexes[look], "with") and len(rest) > 1 and rest[0].kind == "amount" and rest[1].kind == "turn"


def _shoulder_follows(lexes: Sequence[Lex], look: int) -> bool:
    if any(lex.low in ("shoulder", "shoulders", "shldr") for lex in lexes[look + 1 : look + 5]):
        return True
    # "Full turn forward over R (L, R)": the shoulder is not named.
    over = look + (lexes[look].kind == "way")
    sided = over + 1 < len(lexes) and lexes[over].low == "over" and lexes[over + 1].kind == "side"
    after = lexes[over + 2] if over + 2 < len(lexes) else None
    return sided and (after is None or after.ing or after.kind in ("break", "open", "close", "facing"))
