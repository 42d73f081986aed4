"""A wall of which the steps are named that are danced, or left out, and no count: where it is left, and begun anew."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import CLOSING
from trainer.sheet.prose.lexis.vocabulary import FILLERS
from trainer.sheet.prose.order.claims.claims import Key
from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.fitting import fit_of
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.named_steps import ends_of, names_in, starts_of
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Found, Ruler, Spec
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement


def place_by_names(ledger: Ledger, context: Context, sentence: Sentence, told: Statement) -> None:
    """Let "wall 3: vines, walks, restart", "leave out the claps and start again" tell a place by the dance's steps."""
    walls = told.walls or context.walls
    if walls is None or walls.at == "end" or not _may_name(context, told):
        return
    keys, _ = ledger.passes(walls)
    if not keys:
        return
    ruler, fit = ledger.ruler(keys[0][0]), fit_of(ledger, sentence, told, keys[0])
    steps = [*told.replaced, *told.bodies]
    names = [name for body in steps for name in names_in(ruler, body.tokens)]
    if not all(names_in(ruler, body.tokens) for body in steps):
        return
    if all(body.replaced or _is_left_out(sentence, body) for body in steps):
        after = fit.best(starts_of(ruler, names)) if told.leave in ("R", "n") else None
    else:
        after = fit.best(_ends(sentence, ruler, steps))
    if after is None:
        return
    told.place, told.only = Spec(steps[0].tokens[0].span, count=after), True
    told.bodies, told.replaced, told.loose = [], [], []
    told.acts = [act for act in told.acts if not _closes(sentence, act)]


def _ends(sentence: Sentence, ruler: Ruler, steps: Sequence[Body]) -> list[int]:
    """Return after how many counts the steps danced may be over, where those begin that are left out, if any are."""
    left = [body for body in steps if body.replaced or _is_left_out(sentence, body)]
    ends = ends_of(ruler, [name for body in steps if body not in left for name in names_in(ruler, body.tokens)])
    begins = starts_of(ruler, [name for body in left for name in names_in(ruler, body.tokens)])
    return [end for end in ends if end in begins] if left else ends


def after_steps_named(ledger: Ledger, sentence: Sentence, told: Statement, key: Key) -> Found | None:
    """Return the place after steps by names that the dance has not as one: "once you have done the vines and walks"."""
    title = told.title
    if title is None or title.before or title.block:
        return None
    names = _names_of(ledger.ruler(key[0]), sentence, title)
    places = ends_of(ledger.ruler(key[0]), names, anywhere=True)
    fit = fit_of(ledger, sentence, told, key)
    after = fit.best(places)
    if after is None or (len(names) == 1 and after not in fit.counts):
        # One of several touches: which is not told.
        return None
    return Found(after)


def when_turned(ledger: Ledger, sentence: Sentence, told: Statement, key: Key) -> Found | None:
    """Return the place at which one has come to face as is told: "restart on wall 4 when you have turned to 12:00"."""
    faces = (atom for atom in sentence.atoms if atom.kind == "face" or atom.nth is not None)
    face = next((atom for atom in faces if not atom.starts), None)
    if face is None or told.place is not None or told.title is not None or told.inserts:
        return None
    if key in ledger.walls and any(claim.leave for claim in ledger.walls[key].claims):
        # "Wall 3 restarts to 3:00" only says more of a wall whose end is told.
        return None
    once = any(token.low == "once" for token in sentence.tokens)
    if not once and not re.search("[zAU][^,.;:n]*$", sentence.letters[: face.last]):
        return None
    after = fit_of(ledger, sentence, told, key).reached()
    return Found(after) if after is not None else None


def _names_of(ruler: Ruler, sentence: Sentence, title: Spec) -> list[tuple[str, ...]]:
    """Return the names of the steps of a title, each by itself."""
    atom = next((one for one in sentence.atoms if one.spec is title), None)
    if atom is None:
        return [(word,) for word in title.title if word not in FILLERS]
    tokens = sentence.tokens[sentence.lexemes[atom.first].first : sentence.lexemes[atom.last - 1].last]
    first = next((at for at, token in enumerate(tokens) if token.low in title.title), len(tokens))
    return names_in(ruler, tokens[first:])


def for_those_not_danced(context: Context, told: Statement) -> bool:
    """Whether a sentence after one on steps that are not danced tells what is done for them.

    "In wall 2 there are no claps. Do two stomps instead", "wall 3: no jazz box, no stomps. Restart instead."
    """
    if not context.replaced or context.walls is None:
        return False
    return not told.inserts if told.bodies else bool(told.leave)


def _may_name(context: Context, told: Statement) -> bool:
    """Whether a statement may name steps to tell how far a wall goes."""
    placed = told.place or told.title or told.change or told.changes or told.again or told.goes_on
    extra = (
        told.inserts or context.owner is not None or any(act.act in "TGX" for act in (*context.heads, *context.acts))
    )
    return bool(told.bodies or told.replaced) and not placed and not extra


def _is_left_out(sentence: Sentence, body: Body) -> bool:
    """Whether steps stand behind a word of leaving out."""
    return sentence.letters[: body.first].rstrip("n").endswith("K")


def _closes(sentence: Sentence, act: Atom) -> bool:
    """Whether "and that is it" closes what is danced of a wall."""
    return act.act == "Q" and act.last > act.first and sentence.lexemes[act.first].text == CLOSING
