"""What a statement means by what was told before it: its facing, its place, the wall that it is said of."""

from dataclasses import replace

from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Found, Spec
from trainer.sheet.prose.order.statements.statement import Statement, first_named, only_leads_on


def face_in_its_part(context: Context, statement: Statement) -> None:
    """Let "leave it after sixteen, when you are at 12 o'clock" face so in the wall told of, and name none."""
    walls, told = statement.walls, context.walls
    if walls is None or walls.nth is None or not walls.vague or told is None:
        return
    at, seen = statement.place.span if statement.place is not None else None, walls.span
    reached = at is not None and seen is not None and (at.line, at.column) < (seen.line, seen.column)
    open_still = bool(told.walls) and told.nth is None and statement.place is not None and not context.claims
    if told.part or open_still or (reached and bool(told.walls) and told.nth is None):
        statement.faces.append((walls.nth, False))
        statement.walls = None


def place_by_its_steps(ledger: Ledger, context: Context, statement: Statement) -> None:
    """Let "it comes right after the left stomp" be a place for what the sentences after it tell."""
    place, walls = statement.place, statement.walls or context.walls
    wide = place is None or (place.section is not None and place.count is None and not place.before)
    if statement.title is None or walls is None or not wide or statement.acts or statement.bodies or statement.only:
        return
    if statement.counted is not None and statement.counted.spec is not None:
        statement.place, statement.title, statement.counted = statement.counted.spec, None, None
        return
    found = ledger.find(statement.title, walls.part)
    if isinstance(found, Found):
        statement.place, statement.title = Spec(statement.title.span, count=found.after), None


def lead_on(ledger: Ledger, context: Context, sentence: Sentence, statement: Statement) -> None:
    """Let "Then section 4." go on where the claims before it left the dance, and be no place of its own."""
    if not context.claims or statement.place is None or not only_leads_on(sentence, statement):
        return
    part = context.walls.part if context.walls is not None else ""
    first = first_named(sentence, statement.place)
    found = ledger.find(replace(first, before=True), part)
    if isinstance(found, Found) and all(claim.after == found.after for claim in context.claims[-1]):
        statement.place, statement.goes_on = None, True


def face_there(statement: Statement, context: Context) -> None:
    """Let "You are facing 6 o'clock at that point." tell the facing of what was told before."""
    bare = not (statement.acts or statement.bodies or statement.changes)
    if statement.place is not None and statement.place.here and statement.faces and bare and context.claims:
        statement.place = None


def leave_the_wall_before(statement: Statement) -> None:
    """Let "leave out the fourth eight and start wall 5" tell of the wall before that one."""
    leads = [act.number for act in statement.acts if act.act == "R" and act.number > 1]
    if statement.walls is None and leads and (statement.skips or (statement.place is not None and statement.only)):
        statement.walls = Atom("walls", 0, 0, walls=(leads[0] - 1,), span=statement.token.span)


_BOTH = {"both", "they", "each", "these", "those", "all"}


def mean_all_of_them(context: Context, sentence: Sentence, statement: Statement) -> None:
    """Let "Wall 2 is a short one. So is wall 6. Both stop after 16 counts." speak of both."""
    numbers = tuple(number for one in context.bare for number in one.walls)
    if statement.walls is None and len(context.bare) > 1 and {token.low for token in sentence.tokens[:2]} & _BOTH:
        context.walls = replace(context.bare[-1], walls=numbers)


def leave_the_odd_one(context: Context, sentence: Sentence, statement: Statement) -> None:
    """Let a wall that is not danced whole be left where it stops: "all but the fourth. It stops after 24"."""
    walls = statement.walls or context.walls
    if walls is None or walls.part or walls.every or statement.bodies or statement.inserts:
        return
    context.short |= "S" in sentence.letters or walls.but
    whole = statement.place is not None and statement.place.share == 1
    if not (context.short or (len(walls.walls) > 1 and not whole)):
        # "Walls 6 and 7 in full, then the music stops" ends the dance.
        return
    statement.only |= context.short and not context.claims and statement.place is not None and not statement.acts
    statement.acts = [replace(act, act="R", ends=True) if act.act == "Q" else act for act in statement.acts]


def keep_open_place(ledger: Ledger, context: Context, statement: Statement) -> None:
    """Let steps named after a place only tell what was danced there: "between the eights. After the touch step R"."""
    if statement.title is None or statement.place is not None or not statement.bodies or not context.claims:
        return
    open_still = context.place is not None and context.walls is not None and not statement.acts
    claims = context.claims[-1]
    bare = all(not (one.inserts or one.change or one.at_end) and one.leave == "continue" for one in claims)
    if not open_still or not bare or context.walls is None:
        return
    found = ledger.find(statement.title, context.walls.part)
    if not isinstance(found, Found) or any(one.after == found.after for one in claims):
        statement.place, statement.title = context.place, None
        ledger.forget(context.claims.pop())
