"""The names that a sheet gives to its extras and parts beside those of the trade: "Mabel's bit", "VERSE = A"."""

from collections.abc import Iterator, Mapping, Sequence

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, SONG_PARTS
from trainer.sheet.prose.plays.paragraphs import is_below_a_name, speaks_of_steps
from trainer.sheet.prose.plays.symbols import BEFORE_NAMES, Named, symbols
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_DEFINERS = {":", "=", "(", "-"}
_SAYS = {"is", "stands", "means", "consists", "are", "lasts", "has", "goes"}
_ARTICLES = {"the", "a", "an", "our", "and", "what"}
_NO_NAMES = {
    "order", "sequence", "restart", "note", "notes", "part", "section", "change", "phrasing", "counts", "count",
    "walls", "wall", "start", "starts", "begin", "wait", "no", "tag", "bridge", "ending", "intro", "short", "half",
    "phrased", "end", "finish", "finale", "outro", "coda", "tags", "it", "this", "that", "there", "you", "we",
    "everything", "music", "song", "dance", "when", "what", "where", "who", "why", "how", "which", "then", "now",
    "here", "so", "she", "he", "they", "i", "first", "next", "last", "after", "once", "finally", "lastly", "second",
    "third", "fourth", "fifth", "again", "another", "afterwards", "opener", "prelude", "overture", "prologue",
}  # fmt: skip
_PLAYERS = {
    "fiddle", "fiddles", "guitar", "guitars", "piano", "banjo", "drums", "harmonica", "accordion", "sax", "band",
    "flute", "trumpet", "violin", "mandolin", "singer", "choir",
}  # fmt: skip
_AROUND = {",", "-", "+", ">", "then", "the", "and", "&", '"', "|", "by", "plus", "/", "a", "our", ")"}
_LENGTH = 3
"""Tokens of a length behind a name: ", four counts"."""
_LONGEST = 3
"""Words of a name."""
_INITIALS_OF = ("R", "L", "T")
"""Letters that stand for feet and for a tag."""
_BRACKETED = 4
"""Tokens of a length in brackets."""


def own_names(lines: Sequence[Line], named: Named) -> tuple[tuple[str, ...], ...]:
    """Return the words of extras that are defined under a name of their own and stand in a play."""
    found: list[tuple[str, ...]] = []
    for place, line in enumerate(lines):
        below = lines[place + 1] if place + 1 < len(lines) else None
        for first in _openings(line.tokens):
            name = _name_at(line.tokens, first, below, named)
            if name and name not in found and any(_is_played(one, name, named) for one in lines):
                found.append(name)
        if ("break",) not in found and _tells_a_break(line.tokens):
            found.append(("break",))
    return tuple(sorted(found, key=len, reverse=True))


def _openings(tokens: Sequence[Token]) -> Iterator[int]:
    yield 0
    yield from (at + 1 for at, token in enumerate(tokens[:-1]) if token.text in (".", "!", "?"))


def _name_at(tokens: Sequence[Token], first: int, below: Line | None, named: Named) -> tuple[str, ...]:
    while first < len(tokens) and (tokens[first].text in ('"', "*", "-") or tokens[first].low in _ARTICLES):
        first += 1
    words: list[Token] = []
    at = first
    while at < len(tokens) and tokens[at].kind == "word" and tokens[at].low not in _SAYS and len(words) <= _LONGEST:
        words.append(tokens[at])
        at += 1
    if at < len(tokens) and tokens[at].text == '"':
        at += 1
    last = tokens[at] if at < len(tokens) else None
    defined = last is not None and (last.text in _DEFINERS or last.low in _SAYS or _tells_length(tokens[at:]))
    if last is not None and last.text == "-" and last.glued and at + 1 < len(tokens) and tokens[at + 1].glued:
        # "SECOND-HAND UMBRELLA" is one word.
        return ()
    heads = last is None and below is not None and is_below_a_name(below)
    heard = len(words) == 1 and words[0].low in _PLAYERS and last is not None and last.text == ":"
    if heard and any(one.text.capitalize() in named.parts for one in tokens[at:]):
        # "Fiddle: Middle once" says what is heard then, and what is danced to it.
        return ()
    small = [one.text for one in words] == ["t"] and defined
    if not words or len(words) > _LONGEST or not (defined or heads) or not (words[0].text[0].isupper() or small):
        return ()
    name = tuple(one.low for one in words)
    if _only_measured(tokens[at:]) and below is not None and is_below_a_name(below):
        # "Sways (4 counts)" over "Sway R (1), L (2) ...".
        heads, last = True, None
    plain = all(one.low not in _NO_NAMES and {one.text, one.text.capitalize()}.isdisjoint(named.parts) for one in words)
    steps = (
        all(speaks_of_steps(one) for one in words) and len(words[0].text) > 1 and last is not None and last.text != ":"
    )
    return name if (plain or words[0].low == "t" or is_pause(name)) and (not steps or is_pause(name)) else ()


def _tells_length(rest: Sequence[Token]) -> bool:
    """Whether no more than a length stands behind a name, and a comma: "THE RUMBLE, four counts"."""
    words = [token.low for token in rest]
    number = len(words) > _LENGTH - 1 and (words[1] in NUMBERS or words[1].isdecimal())
    return number and words[0] == "," and words[2].startswith(("count", "beat", "ct")) and len(words) <= _LENGTH + 1


def _only_measured(tokens: Sequence[Token]) -> bool:
    """Whether words are no more than a length in brackets: "(4 counts)"."""
    lows = [token.low for token in tokens]
    return len(lows) == _BRACKETED and lows[0] in "([" and lows[1].isdecimal() and lows[2] in ("counts", "beats")


def _tells_a_break(tokens: Sequence[Token]) -> bool:
    """Whether the steps of a break stand in brackets behind it: "then the break (8 counts: sway R, L, ...)"."""
    at = next((at for at, token in enumerate(tokens[:-1]) if token.low == "break" and tokens[at + 1].text == "("), -1)
    end = next((end for end in range(at, len(tokens)) if tokens[end].text == ")"), at)
    return at >= 0 and sum(map(speaks_of_steps, tokens[at + 1 : end])) > 1


def is_pause(name: Sequence[str]) -> bool:
    """Whether an extra is named by what is done in it, nothing: "the Pause"."""
    return len(name) == 1 and name[0] in ("wait", "pause", "hold", "break", "rest", "silence", "breath", "freeze")


def _is_played(line: Line, name: tuple[str, ...], named: Named) -> bool:
    """Whether a name stands among parts in a line, or with them in a word: "AABTABB"."""
    given = symbols(line.tokens, named)
    parts = sum(one.part >= 0 for one in given)
    if name == ("t",) and any(
        one.extra is not None and len(one.token.text) > 2 and one.token.low != "tag" for one in given
    ):
        return True
    tokens = line.tokens
    for at in range(len(tokens) - len(name) + 1):
        led = at > 0 and tokens[at - 1].low in BEFORE_NAMES
        written = tokens[at].text[0].isupper() or name == ("t",) or led
        if tuple(one.low for one in tokens[at : at + len(name)]) != name or not written:
            continue
        before = tokens[at - 1].low if at else ""
        after = tokens[at + len(name)] if at + len(name) < len(tokens) else None
        if (after is not None and after.text in (":", "=")) or (at and tokens[at - 1].text == ":" and parts < 2):
            continue
        lettered = bool(at) and set(tokens[at - 1].text) <= set(named.parts)
        if parts and (before in _AROUND or lettered) and at:
            return True
        if not at and len(tokens) <= len(name) + 1 and not parts:
            return False
    return False


def aliases_of(lines: Sequence[Line], parts: Sequence[str]) -> Mapping[str, int]:
    """Return other names that a sheet gives to its parts: "VERSE = A, CHORUS = B", "B is the chorus"."""
    found: dict[str, int] = {}
    for line in lines:
        tokens = line.tokens
        for at in range(1, len(tokens) - 1):
            if tokens[at].text != "=" and (tokens[at].low not in ("means", "is") or _is_one_of_several(tokens, at - 1)):
                continue
            before, after = tokens[at - 1], tokens[at + 1]
            if (
                after.low in ("the", "part", "our") and at + 2 < len(tokens) and tokens[at].text != "="
            ) or after.low == "part":
                after = tokens[at + 2] if at + 2 < len(tokens) else after
            for name, letter in ((before, after), (after, before)):
                word = name.kind == "word" and len(name.text) > 3 and not speaks_of_steps(name)
                # "V V C V C where V = A and C = B".
                initial = tokens[at].text == "=" and name.text.isupper() and name.text not in (*parts, *_INITIALS_OF)
                word = word or (len(name.text) == 1 and initial and not name.glued)
                if (
                    letter.text in parts and word and (tokens[at].text == "=" or name.low in SONG_PARTS)
                ) and name.low not in _NO_ALIASES:
                    found[name.low] = parts.index(letter.text)
    return found


_NO_ALIASES = {
    "short", "half", "without", "first", "only", "dance", "part", "order", "sequence", "phrasing", "play", "routine",
    "structure", "pattern",
}  # fmt: skip
"""What no part is called: "Sequence = A, B" tells the play."""


def _is_one_of_several(tokens: Sequence[Token], at: int) -> bool:
    """Whether words before a name tell one of several: "the second verse is A again" says what is danced then."""
    return any(token.low in _OF_SEVERAL or token.low in ORDINALS for token in tokens[max(at - 2, 0) : at])


_OF_SEVERAL = {"next", "last", "final", "other", "another", "this", "that", "following", "st", "nd", "rd", "th"}
