"""Steps that a sentence names only to say that others are danced for them: "instead of the claps", "replace X by Y"."""

import re

from trainer.sheet.prose.order.grammar.atoms import Sentence

_VERBS = {
    "step", "touch", "stomp", "kick", "rock", "cross", "walk", "point", "sway", "stamp", "clap", "tap", "scuff",
    "brush", "drag", "slide", "turn", "close", "shuffle", "hitch", "flick", "hop", "jump", "stand", "hold",
}  # fmt: skip
"""Verbs that tell what is danced where no comma parts it from what is not."""
_LEADS = re.compile(r"[:,>]?[D?]?[:,]?n?")
"""What stands between the counts that are changed and the steps that are danced on them."""
_NOT_DANCED = re.compile("(?:N[D?]?|K)(?P<steps>[n?]?m+(?:(?:,?[&/]|,)[n?]?m+)*)")
"""A word of not, or of leaving out, and the steps after it."""
_LEFT_OUT = re.compile(r"(?:[EIj]{1,2}(?:s[nx]|on|o-?s|q|wn|ow))?K")
"""What stands behind steps that are left out, with where: "the claps at the end of section 4 are left out"."""
_BY = {"by", "with", "for", "to", "into"}
"""Words between what is replaced and what it is replaced by."""


def end_of_replaced(sentence: Sentence, first: int, last: int) -> int:
    """Return where steps end that are not danced, of those from one index to another; 0 where they are danced."""
    letters = sentence.letters
    before = letters[:first]
    counted = any(
        one.kind == "change" and one.spec and one.last <= first and _LEADS.fullmatch(letters, one.last, first)
        for one in sentence.atoms
    )
    if counted:
        # "Instead of 16 touch right", "instead of 7 8 take 7 step right" tell what is danced.
        return 0
    if re.search("V[nIoD?]*$", before):
        return next((at for at in range(first + 1, last) if _ends(sentence, at)), last)
    if re.search("M[nIo?]*$", before):
        by = (at for at in range(first + 1, last) if letters[at] in "IU")
        return next((at for at in by if sentence.words(at, at + 1).lower() in _BY), 0)
    if _LEFT_OUT.match(letters, last) and re.fullmatch(r"n?[m&,]+(?:\(c?n(?:[-&,U]n)*\))?", letters[first:last]):
        # "The two claps are left out".
        return last
    becomes = letters[last : last + 1] == "b" and sentence.words(last, last + 1).lower() != "instead"
    return last if becomes else 0


def _ends(sentence: Sentence, at: int) -> bool:
    """Whether what is danced begins: after a comma, or with a verb, "instead of clapping step right forward"."""
    letters = sentence.letters
    if letters[at] in ",(:;D>":
        return True
    told = sentence.words(at, at + 1).lower()
    done = "D" in re.split("[,(:;]", letters[at:])[0] or bool(re.search("m.*V", re.sub(r"\([^)]*\)", "", letters[:at])))
    return letters[at - 1 : at + 1] == "mm" and told in _VERBS and not done


def negated(sentence: Sentence) -> list[tuple[int, int]]:
    """Return where steps stand that are said not to be danced: "there are no claps", "do not kick on 4"."""
    found = []
    for match in _NOT_DANCED.finditer(sentence.letters):
        # "Leave out the stomps and claps" names things; "without a kick and step left" tells what is danced.
        first, last = match.span("steps")
        joined = sentence.letters.rfind("&", first, last)
        if joined > 0 and not _names_things(sentence, last - 1):
            last = joined - (sentence.letters[joined - 1] == ",")
        found.append((first, last))
    return found


def _names_things(sentence: Sentence, at: int) -> bool:
    return sentence.words(at, at + 1).lower().endswith("s")
