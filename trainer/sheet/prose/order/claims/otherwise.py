"""The counts of a wall that are danced otherwise, where they are told by their steps or by the place of the new ones.

"Stomp right and stomp left instead of the claps" changes the counts of the claps; "on 4 of the first eight step left
instead" changes that count. Of steps that are danced more than once those at the place told of are meant.
"""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.claims.claims import Claim, Key
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.places import Found, Ruler, Spec
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement

_NAMING = {"foot", "it", "them", "usual", "second", "first", "last", "next", "following", "of", "s", "steps", "step"}
"""Words beside steps that are not danced which do not tell them from others."""
_PLACING = {"section", "sections", "count", "counts", "eight", "figure", "set", "wall", "on", "in", "at", "of", "beat"}
"""Words that say where those steps stand."""


def changes_steps(sentence: Sentence, told: Statement) -> bool:
    """Whether steps are told that are danced for others, on counts that no phrase names, and no extra."""
    placed = told.place is not None and told.place.at and bool(set("bN") & set(sentence.letters))
    extra = any(act.act in "TG" for act in told.acts)
    placed = placed or (told.leave == "R" and any(_is_on_the_last(told.place, body) for body in told.bodies))
    return bool(told.bodies) and told.change is None and not extra and (bool(told.replaced) or placed)


def _is_on_the_last(place: Spec | None, body: Body) -> bool:
    """Whether steps are told on the very count that is danced last: "up to count 4 of S2 ... step left side on 4"."""
    said = numbers_of(body)
    led = [token.low for token in body.tokens[-2:-1]] in (["on"], ["count"], ["for"])
    return place is not None and place.count is not None and said == [place.count] and led and not place.before


def danced_otherwise(ledger: Ledger, claim: Claim, place: Spec | None, bodies: Sequence[Body], part: str) -> bool:
    """Make a claim one of changed counts where its sentence tells which steps are not danced, or on which count.

    `bodies` are the steps told, those that are not danced among them.
    """
    new = [body for body in bodies if not body.replaced]
    body = next((one for one in new if numbers_of(one)), new[0] if new else None)
    if body is None:
        return False
    ruler = ledger.ruler(part)
    left = [one for one in bodies if one.replaced]
    runs = [run for one in left for run in _counted(ruler, one) or _runs(ruler, one) or _runs_of_each(ruler, one)]
    found = _by_numbers(ruler, claim, place, numbers_of(body), runs) or _by_steps(ruler, claim, place, runs)
    if found is not None and place is not None and place.count is not None and found.first < claim.after == found.after:
        # "Do not touch on count 8 of section 1": the one count of a line of four.
        found = Found(claim.after, first=_first_of(place, claim.after))
    if found is None and place is not None and (place.at or place.first or _is_on_the_last(place, body)):
        found = Found(claim.after, first=_first_of(place, claim.after))
    if found is None or not 0 < found.first <= found.after <= ruler.length:
        return False
    inline = Inline("change", "", found.after - found.first + 1, body.tokens, found.first, found.after, part)
    claim.change, claim.first, claim.after = ledger.extras.add(inline, 0), found.first, found.after
    claim.at_end = False
    return True


def _first_of(place: Spec, after: int) -> int:
    """The first of the counts of a place, which may be called as in its section: "5 and 6 of the last eight"."""
    return after - (place.count - place.first) if place.first and place.count else after


def says_for_what(ledger: Ledger, sentence: Sentence, told: Statement, claim: Claim, key: Key) -> bool:
    """Make a claim one of changed counts where steps are told for others; whether it is known for which."""
    if not changes_steps(sentence, told) or danced_otherwise(
        ledger, claim, told.place, [*told.bodies, *told.replaced], key[0]
    ):
        return True
    if told.replaced and claim.at_end and not told.leave:
        ledger.unread.append(claim.span)
        return False
    return True


def placed_by_steps(ledger: Ledger, sentence: Sentence, told: Statement, unit: int, part: str) -> Claim | None:
    """Return a claim of steps whose place only those tell that they are danced for: "instead of the claps stomp"."""
    if told.place is not None or not told.replaced or not changes_steps(sentence, told):
        return None
    claim = Claim(told.token.span, unit, ledger.ruler(part).length)
    return claim if danced_otherwise(ledger, claim, None, [*told.bodies, *told.replaced], part) else None


def may_change(claim: Claim) -> bool:
    """Whether a claim only says where the wall is left, and steps told after it may change what leads there."""
    return claim.leave == "restart" and not (claim.change or claim.inserts or claim.at_end)


def left_before(ruler: Ruler, told: Statement) -> Found | None:
    """Return where a wall is left whose last steps are not danced: "leave out the claps and start again"."""
    if told.leave not in ("R", "n") or told.bodies:
        return None
    runs = [run for body in told.replaced for run in _runs(ruler, body) + _runs_of_each(ruler, body)]
    last = [first for first, end in runs if end == ruler.length]
    return Found(min(last)) if last else None


def _runs_of_each(ruler: Ruler, body: Body) -> list[tuple[int, int]]:
    """Return the runs of steps of several names, as one where they follow each other: "the stomps and claps"."""
    runs: list[tuple[int, int]] = []
    each = [ruler.danced([token.low]) for token in body.tokens if token.low in STEP_WORDS]
    for first, last in sorted(run for found in each for run in found):
        if runs and first <= runs[-1][1]:
            runs[-1] = (runs[-1][0], max(last, runs[-1][1]))
        else:
            runs.append((first, last))
    return runs if each and all(each) else []


def numbers_of(body: Body) -> list[int]:
    """Return the counts that steps are told with, where they rise."""
    said = [int(token.text) for token in body.tokens if token.kind == "number" and len(token.text) < 4]
    return said if said == sorted(set(said)) else []


def _counted(ruler: Ruler, body: Body) -> list[tuple[int, int]]:
    """Return the counts that stand beside steps which are not danced: "the stomps and claps (counts 29-32)"."""
    said = numbers_of(body)
    told = any(token.low in ("counts", "count") for token in body.tokens)
    return [(said[0] - 1, said[-1])] if told and said and said[-1] <= ruler.length else []


def _runs(ruler: Ruler, body: Body) -> list[tuple[int, int]]:
    words = [token for token in body.tokens if token.kind in ("word", "fraction") and token.low not in _NAMING]
    return ruler.danced(token.low for token in words if token.low not in _PLACING)


def _by_numbers(
    ruler: Ruler, claim: Claim, place: Spec | None, said: Sequence[int], runs: Sequence[tuple[int, int]]
) -> Found | None:
    """Return the counts that the new steps are told with, in the section told of or that of the steps not danced."""
    if not said:
        return None
    starts = [0, *ruler.ends]
    if place is not None and claim.after in ruler.ends and not place.count:
        inside = starts[ruler.ends.index(claim.after)]
        return Found(said[-1] + inside, first=said[0] + inside) if said[-1] + inside <= claim.after else None
    meant = [
        (base + said[0], base + said[-1])
        for base in starts
        if any(base + said[0] <= last and first < base + said[-1] for first, last in runs)
    ]
    return Found(meant[0][1], first=meant[0][0]) if len(set(meant)) == 1 else None


def _by_steps(ruler: Ruler, claim: Claim, place: Spec | None, runs: Sequence[tuple[int, int]]) -> Found | None:
    """Return the counts of the steps that are not danced: the only ones called so, or those at the place."""
    whole = place is not None and place.count is None and not place.before and claim.after in ruler.ends
    if whole:
        # "Leave out the kick in section 2".
        begins = [0, *ruler.ends][ruler.ends.index(claim.after)]
        runs = [run for run in runs if begins <= run[0] and run[1] <= claim.after]
    elif place is not None:
        runs = [run for run in runs if run[0] < claim.after <= run[1]] or [run for run in runs if run[0] == claim.after]
        # A touch that ends a section, and one that begins the next, are two.
        runs = [
            (first, claim.after if claim.after in ruler.ends and last > claim.after else last) for first, last in runs
        ]
    return Found(runs[0][1], first=runs[0][0] + 1) if len(runs) == 1 else None
