"""Bars, sections and counts of one wall that are danced otherwise, told with the counts that they are.

"In wall 2 bar 14 is different: ...", "replace bar 14 by ...", "bar 14 of wall 2: ...", "up to count 12, but on 12 ..."
become "instead of counts 40-42: ...". A bar has three counts in a waltz, else four. Common practice, no source.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, STEP_WORDS
from trainer.sheet.prose.order.grammar.instead import instead_of
from trainer.sheet.prose.order.grammar.places import Ruler
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.words import Token

_N = r"(?:\d{1,2}|[a-z]+)"
_PLACE = (
    r"(?<!of )(?<!in )(?<!on )(?<!from )(?:the )?(?<!of the )(?<!in the )"
    r"(?:(?P<bar>bars?|measures?) (?P<b1>\d{1,2})(?: (?:-|to|and|&) (?P<b2>\d{1,2}))?|"
    r"(?P<sec>section|figure|set|block|phrase) (?P<s>\d)|"
    r"counts? (?P<c1>\d{1,2})(?: (?:-|to|and|&) (?P<c2>\d{1,2}))?|"
    rf"(?:last|final) (?P<many>{_N}) (?:counts|beats))"
)
_WALL = r"(?:(?:of|in|on|for) (?:the )?(?:walls? \d+(?: (?:and|,|&) \d+)*|\w+ wall)(?: only)?(?: \([^)]*\))?)"
_OTHER = r"(?:different|changed|not the same|danced differently|otherwise|danced otherwise|another one|special)"
_WHY = r"(?: ?,? (?:because|since|as) [^:]+)?"
_NEW = r" ?[:,\-] ?(?P<new>.+)"
_FORMS = tuple(
    re.compile(form)
    for form in (
        rf"\b{_PLACE} (?P<when>{_WALL} )?(?:is|are) {_OTHER}(?P<late> {_WALL})?{_WHY}{_NEW}",
        rf"\b(?:we |you )?(?:dance|do) {_PLACE} (?:differently|otherwise|another way|in another way){_WHY}{_NEW}",
        rf"\b{_PLACE} (?:changes? (?:to|into)|becomes?|turns? into|(?:is|are) replaced (?:by|with)) ?:? ?"
        r"(?P<new>.+)",
        rf"\b(?:replace|change|swap|exchange) {_PLACE} (?:by|with|to|into|for) ?:? ?(?P<new>.+)",
        rf"^\W*{_PLACE} (?P<when>{_WALL}) ?:(?P<new> .+)",
        rf"\b(?:do|dance) {_PLACE} as (?P<new>.+)",
        r"\bbut (?:then )?on (?:count )?(?P<c1>\d{1,2})(?P<new> .+)",
    )
)
_BAR = re.compile(
    r"\bwalls? \d+(?: (?:and|,|&) \d+)*(?: \([^)]*\))? ?[,:\-] ?(?:bars?|measures?) (?P<b1>\d{1,2}) ?:(?P<new> .+)"
)
_TAKES_WEIGHT = re.compile(r" ?,? (?:and )?(?:takes?|taking|with) (?:the |your )?weight(?: on it| there)?\b")
_FROM_THERE = re.compile(r" ?[,;:]? ?\b(?:then|and) (?:go|carry|continue|going)\b.*$")
_OF_FORM = ("bar", "b1", "b2", "sec", "s", "c1", "c2", "many", "when", "late")


def with_places_counted(tokens: Sequence[Token], known: Known, ruler: Ruler) -> tuple[Token, ...]:
    """Return a sentence that changes a place of a wall with "instead of counts ..." for it; others as they are."""
    words = " ".join(token.low for token in tokens)
    if "wall" not in words and not any(token.low == "w" for token in tokens):
        return tuple(tokens)
    for form in (*_FORMS, _BAR):
        match = form.search(words)
        run = _counts({name: match.groupdict().get(name) for name in _OF_FORM}, known, ruler) if match else None
        if match is None or run is None or not _tells_steps(match["new"]):
            continue
        start = words[: match.start("b1") if form is _BAR else match.start()].count(" ")
        start -= form is _BAR
        split = words[: match.start("new") + (match["new"][:1] == " ")].count(" ")
        when = [match.span(name) for name in ("when", "late") if match.groupdict().get(name)]
        moved = [token for span in when for token in tokens[_index(words, span[0]) : _index(words, span[1] - 1) + 1]]
        return (*tokens[:start], *moved, *instead_of(tokens[start], *run), *_plain(tokens[split:]))
    return tuple(tokens)


def _index(words: str, at: int) -> int:
    return words[:at].count(" ") + (words[at : at + 1] == " ")


def _counts(said: dict[str, str | None], known: Known, ruler: Ruler) -> tuple[int, int] | None:
    """Return the first and the last count of a place; None where the dance has no such."""
    bar = 3 if known.phrase == 6 else 4
    starts = [0, *ruler.ends]
    found = None
    if said["b1"]:
        found = (int(said["b1"]) - 1) * bar + 1, int(said["b2"] or said["b1"]) * bar
    elif said["s"] and int(said["s"]) <= len(ruler.ends):
        found = starts[int(said["s"]) - 1] + 1, starts[int(said["s"])]
    elif said["c1"]:
        found = int(said["c1"]), int(said["c2"] or said["c1"])
    elif said["many"]:
        many = int(NUMBERS.get(said["many"], said["many"])) if said["many"] in NUMBERS or said["many"].isdigit() else 0
        found = ruler.length - many + 1, ruler.length
    return found if found and 0 < found[0] <= found[1] <= ruler.length else None


def _tells_steps(words: str) -> bool:
    return any(word in STEP_WORDS or word in ("hold", "wait", "clap") for word in words.split()[:12])


def _plain(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the words of the new steps without what says that they take weight, or that one goes on."""
    done = list(tokens)
    for pattern in (_TAKES_WEIGHT, _FROM_THERE):
        words = " ".join(token.low for token in done)
        if match := pattern.search(words):
            first = len(words[: match.start()].split())
            done = [*done[:first], *done[first + len(match[0].split()) :]]
    while done and done[0].low in (":", ",", "-", "the"):
        done.pop(0)
    return tuple(done)
