"""Walls in which a turn of the dance is not made: "wall 6: no ¼ turn in section 6", "on wall 4 leave out the turn".

The counts that turn are danced as they stand, without their turn: a change made of the dance's own counts. Which they
are is told by the section, the counts or the steps that are named, and by how far the turn goes. Steps that are danced
instead are a change of their own, and no matter of this. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.lexis.stems import stems
from trainer.sheet.prose.lexis.vocabulary import FILLERS
from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Found, Spec
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.words import Token

_SIZES = {"quarter": Fraction(1, 4), "half": Fraction(1, 2), "eighth": Fraction(1, 8), "full": Fraction(1)}
_SIZE = (
    r"(?:(?:an?|the|its|your|that|this|any|final|last|closing|quarter|half|full|eighth|\S*[¼½¾⅛]|\d/\d|right|left|r|"
    r"l) )*"
)
_NO_TURN = re.compile(
    r"\b(?:no|without|(?:leave|leaves|leaving|left|miss|cut) out|omit(?:s|ting)?|skip(?:s|ping)?|drop(?:s|ping)?|"
    rf"forget|lose|(?:do|does|will|must)(?: not|n't) (?:make|do|take|dance|add)|don't (?:make|do|take|dance|add)|"
    rf"not make|not do|never make|instead of) {_SIZE}turn(?:s|ing)?\b|"
    rf"leav(?:e|es|ing) {_SIZE}turns? out\b|"
    r"\b(?:do not|does not|don't|doesn't|not|never|without) (?:turn|turning)\b|"
    rf"\bthe {_SIZE}turn (?:of|in|on|from) .{{1,40}}(?:is|gets) (?:left out|omitted|not made|dropped|skipped)"
)
_OTHERWISE = set("TGXQRVbMS")
"""Letters of extras, stops, new starts and of what is danced for something else."""
_HAS_NONE = re.compile(r"(?:^|[:,;] |\bthe )((?:\w+ ){1,4})(?:has|have|is(?: danced| done)?|goes|comes|with) $")
"""What has no turn: "the jazz box has no turn"."""
_STEPS = re.compile(r"\b(?:in|on|of|for|from|during|with|into|at) (?:(?:the|that|your|this|its|last|final) )*")


def told_unturned(ledger: Ledger, sentence: Sentence, before: Atom | None, unit: int) -> bool:
    """Let the walls of a sentence be danced without a turn, if it says so; `before` are the walls told of before it."""
    text = " ".join(token.low for token in sentence.tokens)
    said = _NO_TURN.search(text)
    if said is None or _OTHERWISE & set(sentence.letters):
        return False
    walls = next((atom for atom in sentence.atoms if atom.kind == "walls"), before)
    if walls is None or not walls.walls or walls.at == "end" or walls.part:
        return False
    size = _size(sentence.tokens, said.group().split())
    span = _place(ledger, sentence, text[: said.start()], text[said.end() :])
    counts = _turning(ledger, *span, size) if span is not None else None
    if counts is None:
        return False
    first, last = counts
    head = sentence.tokens[next(at for at, token in enumerate(sentence.tokens) if token.low.startswith("turn"))]
    inline = Inline("change", "", last - first + 1, (head,), first, last, again=(first, last), unturned=True)
    name = ledger.extras.add(inline, 0)
    for number in walls.walls:
        wall = ledger.wall(("", number), head.span, unit)
        wall.claims.append(Claim(head.span, unit, last, change=name, first=first))
        faced = [one for one in sentence.atoms if one.kind == "face" and walls.last - 1 <= one.first <= walls.last + 1]
        if faced and walls in sentence.atoms and wall.starts is None:
            wall.starts = faced[0].facing
    return True


def _size(tokens: Sequence[Token], said: Sequence[str]) -> Fraction | None:
    """Return how far the turn goes that is not made; None where it is not said."""
    told = {token.low: token.value for token in tokens if token.kind == "fraction"}
    return next((size for word in said if (size := told.get(word) or _SIZES.get(word)) is not None), None)


def _place(ledger: Ledger, sentence: Sentence, before: str, behind: str) -> tuple[int, int] | None:
    """Return the counts danced before and after the place where the turn is not made; None where it is not found."""
    specs = [atom.spec for atom in sentence.atoms if atom.kind in ("place", "title", "loose") and atom.spec is not None]
    for spec in sorted(specs, key=lambda one: one.section is None):
        if found := _counts(ledger, spec):
            return found
    if subject := _HAS_NONE.search(before):
        words = subject[1].split()
    else:
        named = _STEPS.match(behind.strip())
        words = re.split(r"[.,;:(]| so | and ", behind.strip()[named.end() :])[0].split() if named else []
    wanted = stems(word for word in words if word.isalpha() and word not in FILLERS)
    ruler = ledger.ruler("")
    runs = [(first, last) for first, last, step in ruler.steps if wanted and wanted <= step]
    heads = [at for at, head in enumerate(ruler.heads) if wanted and wanted <= stems(head)]
    if runs:
        return runs[-1] if len(runs) == 1 or "last" in behind.split() else None
    if len(heads) == 1:
        return [0, *ruler.ends][heads[0]], ruler.ends[heads[0]]
    return None if wanted else (0, ruler.length)


def _counts(ledger: Ledger, spec: Spec) -> tuple[int, int] | None:
    found = ledger.find(replace(spec, before=False), "")
    if not isinstance(found, Found):
        return None
    if spec.count is not None:
        return ((found.first or found.after) - 1, found.after)
    opens = ledger.find(replace(spec, before=True), "") if spec.section is not None or spec.named else None
    return (opens.after, found.after) if isinstance(opens, Found) else None


def _turning(ledger: Ledger, before: int, after: int, size: Fraction | None) -> tuple[int, int] | None:
    """Return the first and last of the counts there that turn so far; None where none do."""
    turned, anded = ledger.known.turned.get("", ()), ledger.known.turned_on.get("", ())
    if after >= len(turned):
        return None
    steps = {count: turned[count] - turned[count - 1] for count in range(before + 1, after + 1)}
    turning = [count for count, turn in steps.items() if turn]
    alike = [count for count in turning if size is not None and abs(steps[count]) == size]
    if size is not None and not alike and abs(sum(steps[count] for count in turning)) != size:
        return None
    chosen = alike or turning
    if not chosen or (len(chosen) > 1 and after - before > ledger.known.phrase):
        return None
    first = chosen[0]
    halves = first > 1 and first - 1 > before and first - 1 < len(anded) and anded[first - 1] != turned[first - 1]
    return first - halves, chosen[-1]
