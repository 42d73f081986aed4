"""Places told twice in one breath: "after count 24 (end of S3)", "after 24 counts, the end of section 3"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement

_AGAIN = re.compile(r"[(=/-]+[AEU]?|I?,\(?[AEU]|IU")
"""What stands between the counts and the section, up to the word that says that the section is over."""


def counts_in_brackets(sentence: Sentence, now: Statement, parts: Sequence[Atom | Body], at: int) -> bool:
    """Whether counts only say again where a place is: "after the third section (24 counts)"."""
    part = parts[at]
    if not isinstance(part, Atom) or part.spec is None or part.spec.count is None or part.spec.section is not None:
        return False
    if part.kind != "place" and not (part.kind == "loose" and part.act):
        return False
    before = _before(parts, at)
    if sentence.letters[part.first] in "AU" and 0 < part.spec.count < _SECTION and (now.place and now.place.section):
        # "In the middle of eight no. 3 (after 4 counts)" counts within the section.
        return False
    # "(4 counts)" may be the length of what is put in; "(count 24)" is a place.
    placed = isinstance(before, Atom) and before.kind in ("place", "title")
    placed = placed and (not now.inserts or sentence.letters[part.first] == "c")
    return placed and before is not None and sentence.letters[before.last : part.first] in ("(", "(?")


def names_the_step(sentence: Sentence, now: Statement, parts: Sequence[Atom | Body], at: int) -> bool:
    """Whether words after a place only name the step reached: "up to count 6 (the half pivot)", "on 22, the pivot"."""
    part, before = parts[at], _before(parts, at)
    letters = sentence.letters
    if not isinstance(part, Body) or not isinstance(before, Atom) or before.kind != "place":
        return False
    others = any(token.kind == "number" for token in part.tokens) or set("bVNH") & set(letters[part.first : part.last])
    if others or len(part.tokens) >= _FEW:
        return False
    first = part.first + (letters[part.first] in "(,")
    closed = letters[first - 1] == "(" and _is_closed(letters, part)
    later = any(isinstance(one, Body) and not one.replaced for one in parts[at + 1 :])
    lead = sentence.tokens[max(sentence.lexemes[first].first - 1, 0)].low
    named = lead in ("the", "that", "your", "our") and not any(one.low in _FEET for one in part.tokens)
    counted = before.spec is not None and before.spec.count is not None
    if closed:
        return before.last == first - 1 and (later or not now.inserts or (named and counted))
    ends = any(act.act in "QX" for act in now.acts)
    return ends and named and counted and letters[before.last - 1 : first].rstrip("h").endswith(",")


def _is_closed(letters: str, part: Atom | Body) -> bool:
    """Whether the bracket in which steps begin ends behind them: "after count 20 (heels) - restart"."""
    inside, after = letters[part.first : part.last], letters[part.last : part.last + 1]
    return after == ")" if ")" not in inside else not inside[inside.index(")") + 1 :].strip("-,;&>")


_SECTION = 8
"""Counts of a section."""
_FEW = 7
"""Tokens of words that name a step."""


def _before(parts: Sequence[Atom | Body], at: int) -> Atom | Body | None:
    """What stands before a phrase, but for a mere "only"."""
    return next((one for one in reversed(parts[:at]) if getattr(one, "kind", "") != "only"), None)


def counts_told_before(sentence: Sentence, now: Statement, parts: Sequence[Atom | Body], at: int) -> Atom | None:
    """Return the counts after which a section that is named now was said to be over; None where it is told anew.

    So it is of a count of a section, too: "19 counts of it, up to and including count 3 of the third eight".
    """
    part, place = parts[at], now.place
    if not isinstance(part, Atom) or part.kind != "place" or part.spec is None or place is None or now.bodies:
        return None
    section, before = part.spec, _before(parts, at)
    named = bool(section.section or section.named) and not section.before
    counted = place.count is not None and not (place.section or place.named or place.first or place.before)
    if not named or not counted or not isinstance(before, Atom) or before.spec is not place:
        return None
    between = sentence.letters[before.last : part.first + 1]
    if between[-1] not in "AEU":
        between = between[:-1]
    return before if _AGAIN.fullmatch(between) else None


_FEET = {"r", "l", "rf", "lf", "right", "left"}


def only_name_steps(sentence: Sentence, bodies: Sequence[Body]) -> bool:
    """Whether words name what is danced as ever, and tell no foot: "we do the vines, we do the walks"."""
    led = all(sentence.letters[body.first - 1 : body.first] == "D" for body in bodies)
    return led and not any({token.low for token in body.tokens} & _FEET for body in bodies)
