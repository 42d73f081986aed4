"""Where a dance ends, told by the steps danced last: "it ends with the half turn (count 6 of section 3)".

Words at the start of an ending's steps that tell no foot, and that name steps of the dance or a place in brackets, say
how far the last wall is danced; what comes after them are the steps of the ending.
"""

from dataclasses import replace

from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.makers import section_in
from trainer.sheet.prose.order.grammar.places import Found, Spec
from trainer.sheet.prose.order.statements.bodies import Body, body_of
from trainer.sheet.prose.order.statements.statement import Statement

_FEET = {"right", "left", "r", "l", "rf", "lf", "both"}
_NAMED = 14
"""Words and marks that name steps and their place."""


def place_what_is_reached(ledger: Ledger, sentence: Sentence, statement: Statement, part: str) -> None:
    """Let the first words of an ending's steps be its place where they name how far the dance is danced."""
    if statement.place is not None or not statement.bodies or (statement.walls and statement.walls.at == "end"):
        return
    body = statement.bodies[0]
    end = _end_of_clause(sentence, body)
    spec = _told(sentence, body.first, end) or _named(ledger, sentence, body, end, part)
    if spec is None:
        return
    rest = body_of(sentence, end, body.last) if end < body.last else None
    statement.place, statement.only = spec, True
    statement.bodies = [*([rest] if rest is not None else []), *statement.bodies[1:]]


def _end_of_clause(sentence: Sentence, body: Body) -> int:
    """Where the first clause of steps ends, brackets being of it."""
    depth = 0
    for at in range(body.first, body.last):
        letter = sentence.letters[at]
        depth += (letter == "(") - (letter == ")")
        if not depth and letter in ",;:>" and not (letter == "," and _joins(sentence, at)):
            return at
    return body.last


def _joins(sentence: Sentence, at: int) -> bool:
    """Whether a comma only joins the names of steps: "do the vines, the walks and the heels"."""
    return [token.low for token in sentence.tokens[sentence.lexemes[at].last :][:1]] == ["the"]


def _told(sentence: Sentence, first: int, last: int) -> Spec | None:
    """The place that words tell in so many words: "the heels in section 3 (count 20)"."""
    specs = [
        atom.spec
        for atom in sentence.atoms
        if first < atom.first and atom.last <= last and atom.kind == "place" and atom.spec is not None
    ]
    if not specs or specs[-1].first or last - first > _NAMED or _foot(sentence, first, last):
        return None
    if specs[-1].count is None or (specs[-1].block and specs[-1].count == _PHRASE):
        # "With the half turn of section 3".
        place = next(atom.first for atom in sentence.atoms if atom.spec is specs[-1])
        return section_in(specs[-1], title=_words(sentence, first, place), before=False)
    counted = replace(specs[-1], on=False, at=False)
    section = next((one for one in specs if one.section is not None or one.named or one.block), None)
    if section is None or section is specs[-1] or (counted.count or 0) > _PHRASE:
        return counted
    number = section.block or section.section
    return replace(section, section=number, block=0, count=counted.count, count_span=counted.span)


_PHRASE = 8


def _words(sentence: Sentence, first: int, last: int) -> tuple[str, ...]:
    tokens = sentence.tokens[sentence.lexemes[first].first : sentence.lexemes[last - 1].last]
    return tuple(token.low for token in tokens if token.kind == "word" and token.low != "the")


def _named(ledger: Ledger, sentence: Sentence, body: Body, end: int, part: str) -> Spec | None:
    """The steps of the dance that words name: "you only do the vines, and then ..."."""
    letters = sentence.letters
    first = sentence.lexemes[body.first].first
    tokens = sentence.tokens[first : sentence.lexemes[end - 1].last]
    near = {token.low for token in sentence.tokens[max(first - 2, 0) : first + 1]}
    led = letters[max(body.first - 2, 0) : body.first]
    if not near & {"the", "your", "our", "both"} or not set(led) & set("DI") or _foot(sentence, body.first, end):
        return None
    if any(token.kind == "number" for token in tokens):
        return None
    joint = max((at for at, token in enumerate(tokens) if token.low in ("and", "&")), default=-1)
    named = tuple(token.low for token in tokens[joint + 1 :] if token.kind == "word" and token.low != "the")
    spec = Spec(sentence.span(body.first, end), title=named)
    return spec if isinstance(ledger.find(spec, part), Found) else None


def _foot(sentence: Sentence, first: int, last: int) -> bool:
    """Whether words tell a foot, and so are steps."""
    tokens = sentence.tokens[sentence.lexemes[first].first : sentence.lexemes[last - 1].last]
    return any(token.low in _FEET for token in tokens)


def ends_here(acts: list[Atom]) -> bool:
    """Whether what is done is to end the dance."""
    return any(act.act in "XQ" for act in acts)
