"""A wall of which the steps are named that are danced, or left out, and no count: where it is left, and begun anew."""

from trainer.sheet.prose.lexis.lexeme import CLOSING
from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.fitting import fit_of
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.named_steps import ends_of, names_in, starts_of
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Spec
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
    elif any(body.replaced for body in steps):
        return
    else:
        after = fit.best(ends_of(ruler, names))
    if after is None:
        return
    told.place, told.only = Spec(steps[0].tokens[0].span, count=after), True
    told.bodies, told.replaced, told.loose = [], [], []
    told.acts = [act for act in told.acts if not _closes(sentence, act)]


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
