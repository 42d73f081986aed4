"""Tags and bridges that are counts of the dance danced once more: "tag: repeat counts 1-6", "do section 1 again".

Such counts are no place: what says so is a word such as repeat or again, or that the place was told before them.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement

_REPEATS = {"repeat", "repeats", "repeating", "repeated", "redo"}
_ONCE_MORE = re.compile(
    r"^(?:(?:come|comes|are|is|be|danced|done|taken|repeated|steps) )*(?:once|one|1)? ?"
    r"(?:again|over again|once more|once again|more time|extra time|another time|additional time|over|more)\b|"
    r"^repeated\b|^(?:for )?(?:a|an|one|1|another) (?:second|further|extra|more|additional)? ?time\b"
)
_MORE = {"extra", "additional", "another", "add", "adds", "adding", "plus", "append", "on"}
"""Before counts or a section at the end of a wall: they are danced there."""
_OPENS = re.compile(r"(?:^|[^>])[:=\-,.(]$")
"""What stands before counts that the extra is said to be: "tag: counts 1-4"."""


def is_again(sentence: Sentence, now: Statement, lead: Sequence[Atom], part: Atom) -> bool:
    """Return whether counts or a section are told as the steps of an extra, and not as its place."""
    spec = part.spec
    if spec is None or part.kind not in ("place", "loose") or now.again is not None:
        return False
    if any(not _in_brackets(sentence, body) for body in now.bodies) or spec.share is not None or spec.from_end:
        return False
    first = sentence.lexemes[part.first].first
    opened = sentence.letters[part.first] in "DI" or first == 0
    before = [token.low for token in sentence.tokens[max(first - 2, 0) : first + opened]]
    after = " ".join(token.low for token in sentence.tokens[sentence.lexemes[part.last - 1].last :][:4])
    told = bool(_REPEATS & set(before)) or bool(_ONCE_MORE.match(after))
    told |= _at_a_done_wall(sentence, now, part) or (bool(now.walls) and bool(_MORE & set(before)))
    named = any(act.act in "TG" for act in [*now.acts, *lead])
    # "There is a tag after wall 3. Simply repeat counts 1 to 4."
    named |= now.walls is None and told and not set("RQXmH") & set(_after_repeat(sentence))
    at_end = now.walls is not None and now.walls.at == "end"
    run = re.search("on-?c", sentence.letters[part.first : part.last])
    whole = bool(spec.first or spec.block or run or ((spec.section or spec.named) and spec.count is None))
    if not whole or spec.before or not (named or (at_end and told)):
        return False
    leading = sentence.letters[: part.first]
    danced = sentence.letters[part.first] == "D" and not leading.endswith(">")
    # "Tag after wall 3: counts 1-4"; within a wall its place has to be told before.
    placed = at_end or (now.place is not None and bool(spec.first))
    beyond = sentence.letters[part.last :]
    # "1-4: sway right, left" counts the steps after it; what ends the dance is no tag.
    other = set("QX") & set(beyond) or re.match(r"[:\-,=]*[mH]", beyond)
    return told or (placed and not other and (danced or bool(_OPENS.search(leading))))


def _at_a_done_wall(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether a section is told where its wall is over, and is no place: "after wall 4: section 1 on its own"."""
    named = part.spec is not None and bool(part.spec.section or part.spec.named)
    done = named and now.walls is not None and now.walls.at == "end" and now.place is None
    done = done and now.walls is not None and now.walls.last <= part.first
    return done and not set("AEUBZOR") & set(sentence.letters[max(part.first - 1, 0) : part.first + 1])


def _after_repeat(sentence: Sentence) -> str:
    """The letters of a sentence that opens with a word such as repeat, without it."""
    opens = re.match(r"[?,>]*m", sentence.letters)
    repeats = opens and sentence.words(opens.end() - 1, opens.end()).lower() in _REPEATS
    return sentence.letters[opens.end() :] if opens and repeats else "m"


def _in_brackets(sentence: Sentence, body: Body) -> bool:
    return sentence.letters[max(body.first - 1, 0)] == "(" or sentence.letters[body.first] == "("


def only_explains(sentence: Sentence, now: Statement, body: Body) -> bool:
    """Return whether words say in brackets what the counts danced again are: "counts 1-6 (the two basics)"."""
    return now.again is not None and _in_brackets(sentence, body)


def is_twice(sentence: Sentence, walls: Atom | None) -> bool:
    """Whether the extra is danced two times at these walls of several: "once after wall 2, twice after wall 6"."""
    if walls is None or len(walls.walls) != 1:
        return False
    before, after = sentence.letters[: walls.first], sentence.letters[walls.last :]
    told = re.search("[,&;:(>?TG]k,?$", before) and ("w" in before or re.search("[?k]", after))
    # "Wall 4 gets the same tag twice".
    return bool(told or re.match(r"[,(]?k(?![AEBI])|[?>]{0,2}[TG]k(?=[.,;]|$)", after))
