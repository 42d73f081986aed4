"""Three steps that roll round to a side, told by the verb alone: "roll to the left in three steps", "roll right R L R".

They are a rolling vine. "Turn" and "spin" are it only where three steps are told; "roll" is it with its side.
"""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task

_ROLLS = ("roll", "rolling", "rolls")
_TURNS = (*_ROLLS, "turn", "turns", "turning", "spin", "spins", "spinning", "rotate", "rotating")
_ALONG = {"to", "the", "towards", "toward", "out", "over", "your", "off"}
_OF_STEPS = {"in", "over", "with", "on", "using"}
_SIDES = ("side", "foot")


def with_rolls(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with the name of a rolling vine for the verb of one."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        end = _rolled(lexes, at) if lexes[at].kind == "turn" and lexes[at].low in _TURNS else 0
        if not end:
            done.append(lexes[at])
            at += 1
            continue
        side = next(lex for lex in lexes[at:end] if lex.kind in _SIDES)
        done += [Lex("figure", "rolling vine", "rolling vine", lexes[at].span), side]
        at = _past_steps(lexes, end)
    return done


def _rolled(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after the side that a roll goes to; 0 where the words tell another turn or of the body."""
    look = at + 1
    while look < len(lexes) and lexes[look].low in _ALONG:
        look += 1
    if look >= len(lexes) or lexes[look].kind not in _SIDES or (at and lexes[at - 1].kind in ("amount", "part")):
        return 0
    end = look + 1
    after = lexes[end] if end < len(lexes) else None
    if after is not None and after.kind in ("part", "amount", "turn", "figure"):
        return 0
    told = _past_steps(lexes, end) > end
    return end if told or (lexes[at].low in _ROLLS and (after is None or _leads_on(after))) else 0


def _leads_on(lex: Lex) -> bool:
    return lex.kind in ("break", "open", "side", "foot", "run") or is_task(lex, "with", "and", "then")


def _past_steps(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after "in three steps", or `at` where the words do not stand there."""
    if at + 2 >= len(lexes) or lexes[at].low not in _OF_STEPS or lexes[at + 1].value != 3:
        return at
    steps = lexes[at + 2].low in ("step", "steps") or is_task(lexes[at + 2], "count")
    return at + 3 if steps else at
