"""Numbers that stand by themselves in a statement: a place, a length or a facing."""

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.statement import Statement, may_place

_HOURS = {3, 6, 9, 12}


def settle_loose(sentence: Sentence, statement: Statement, heads: Sequence[Atom]) -> None:
    """Decide whether a bare number is a place, a length or a facing."""
    leaves = bool(statement.leave) or any(act.act == "R" for act in heads)
    inserts = [act for act in statement.inserts if act.act != "H"]
    at_end = statement.walls is not None and statement.walls.at == "end"
    for atom in sorted(statement.loose, key=lambda one: one.act != "c"):
        count = atom.spec.count if atom.spec is not None else None
        if count is None or _tells_no_place(sentence, statement, atom, count):
            continue
        counted = atom.act == "c"
        if not counted and count in _HOURS and _closes_at(sentence, atom):
            statement.faces.append((Fraction(count % 12, 12), False))
            statement.brings = True
            continue
        if counted and sentence.letters[: atom.first].endswith("L") and not statement.acts:
            # "The last 8 counts are slower in wall 3" tells no place.
            continue
        if counted and _ends_a_section(sentence, statement, count):
            statement.place = atom.spec
            continue
        holds = [act for act in statement.acts if act.act == "H" and act.counts is None]
        if counted and holds and (statement.place is not None or at_end):
            statement.acts = [replace(act, counts=count) if act is holds[0] else act for act in statement.acts]
            continue
        then = bool(inserts) and ">" in sentence.letters[atom.last : inserts[-1].first]
        places = then and statement.place is None and not at_end and statement.walls is not None
        # "Wall 9 is the last: 16 counts, and then step right".
        last = [act for act in inserts if act.act == "X" and act.first == act.last]
        places |= bool(last) and statement.place is None and not at_end
        # "ENDING, wall 8: 8 counts, then stomp right" too.
        leads = re.match(",?>", sentence.letters[atom.last :]) is not None and bool(statement.bodies)
        places |= bool(inserts) and inserts[-1].act == "X" and leads and statement.place is None and not at_end
        # "16 counts, then the ending" says how much is danced before it.
        long = counted and bool(inserts) and inserts[-1].counts is None and not places
        if long and (at_end or statement.place or not leaves):
            told = replace(inserts[-1], counts=count)
            statement.acts = [told if act is inserts[-1] else act for act in statement.acts]
        elif statement.place is None and not at_end and may_place(sentence, statement, atom):
            statement.place = atom.spec
            statement.only |= not statement.acts
        elif (
            count in _HOURS
            and not counted
            and not _numbers_its_line(sentence, atom)
            and not _in_bars(sentence, atom)
            and sentence.letters[atom.last : atom.last + 2] not in ("?c", "mc")
            and all(begins for _, begins in statement.faces)
        ):
            statement.faces.append((Fraction(count % 12, 12), False))


def _closes_at(sentence: Sentence, atom: Atom) -> bool:
    """Whether a number is the hour at which a wall ends: "wall 7 is the last one and closes at 12"."""
    at = sentence.lexemes[atom.first].first
    led = [token.low for token in sentence.tokens[max(at - 2, 0) : at + 1] if token.kind == "word"]
    return led[-1:] == ["at"] and led[-2:-1] in (["closes"], ["ends"], ["finishes"], ["end"], ["finish"], ["close"])


def _tells_no_place(sentence: Sentence, statement: Statement, atom: Atom, count: int) -> bool:
    """Whether a number restates a place or a length, counts steps or things, or only heads its line."""
    if _restates_a_place(sentence, atom) or _counts_steps(sentence, atom) or _of_things(sentence, atom):
        return True
    if re.match("S[wWtTGRX]", sentence.letters[atom.last :]):
        # "There are two short walls, the third and the sixth."
        return True
    heads = atom.first == 0 and sentence.letters[1:2] == ":" and sentence.tokens[0].kind == "word"
    if heads and "w" in sentence.letters:
        # "Two: wall 2 and wall 5."
        return True
    if count == 1 and sentence.letters[atom.last : atom.last + 1] == "?":
        # "One small alteration for the fifth wall only".
        return True
    # "A tag of two bars (six counts) follows wall 3".
    return atom.act == "c" and any(act.counts == count for act in statement.inserts)


def _of_things(sentence: Sentence, atom: Atom) -> bool:
    """Whether a number in words counts things that are no steps: "the drummer plays two thumps the third time"."""
    if sentence.letters[atom.last : atom.last + 1] != "?" or atom.act == "c":
        return False
    thing = sentence.words(atom.last, atom.last + 1).lower()
    in_words = sentence.tokens[sentence.lexemes[atom.last - 1].first].kind == "word"
    return in_words and thing.endswith("s") and not thing.endswith("ss") and thing not in _PARTS


_PARTS = {"bars", "beats", "eights", "halves", "sections", "measures", "quarters", "phrases", "lines", "sixes", "times"}


def _ends_a_section(sentence: Sentence, statement: Statement, count: int) -> bool:
    """Whether the place is the end of a section by its bare number, and so is a number of counts before it.

    "12 counts, to the end of 2, then restart" leaves after 12.
    """
    place = statement.place
    if place is None or place.section is not None or place.count is None or not place.count < count:
        return False
    before = [one.low for one in sentence.tokens if (one.line, one.column) < (place.span.line, place.span.column)]
    return before[-2:] == ["end", "of"]


def _restates_a_place(sentence: Sentence, atom: Atom) -> bool:
    """Whether a number in brackets tells the place before it once more: "the first 2 lines (16c)"."""
    opens = sentence.letters[atom.first - 1 : atom.first] == "("
    return opens and any(one.kind == "place" and one.last == atom.first - 1 for one in sentence.atoms)


def _counts_steps(sentence: Sentence, atom: Atom) -> bool:
    """Whether a number stands in brackets before steps, whose count it is: "[1 2]  stomp right, hold"."""
    before, after = sentence.letters[: atom.first], sentence.letters[atom.last :]
    inside = re.search(r"\([n\-&,]*$", before)
    return bool(inside) and bool(re.match(r"[n\-&,]*\):?[mH]", after))


def _numbers_its_line(sentence: Sentence, atom: Atom) -> bool:
    """Whether a number opens its line, as of a list: "3) At the end of wall 6 ..."."""
    return atom.first == 0 and sentence.letters[atom.last : atom.last + 1] in (")", ".", ":", "-")


def _in_bars(sentence: Sentence, atom: Atom) -> bool:
    """Whether a number was told in bars, and so is no hour."""
    return any(one.text in ("bar", "bars") for one in sentence.lexemes[atom.first : atom.last])
