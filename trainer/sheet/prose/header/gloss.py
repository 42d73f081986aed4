"""The sheet's own vocabulary: short forms and names that the teacher explains.

"fwd = forward, bk = back", "key: RF/LF right/left foot, tch touch", "basic R always means step R to the side, rock L
behind, recover R". A name that is explained for one foot serves for the other in the mirror. What explains itself
with words that are no words of the trade ("walls = 4") is no vocabulary.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.steps.lexicon import lexemes
from trainer.sheet.prose.words import Token

Words = tuple[Token, ...]

_MOST_ENTRIES = 400
_LONGEST_NAME = 4
_LONGEST_HEAD = 8
"""Tokens before the colon of a key's head."""
_LONGEST_MEANING = 60
"""Tokens."""


@dataclass(frozen=True)
class Gloss:
    """Short forms and names with the words that they stand for."""

    entries: tuple[tuple[tuple[str, ...], Words], ...] = ()
    short: Mapping[tuple[str, ...], Words] = field(default_factory=dict, compare=False)
    """The same, for looking up."""
    used: frozenset[str] | None = None
    """Words that the sheet uses more than once, and so means; None: not known."""


_KEYS = {
    "key", "keys", "abbreviation", "abbreviations", "abbrev", "abbrevs", "abbr", "legend", "shorthand", "short",
    "glossary", "terms", "symbols", "meaning", "meanings", "explanation",
}  # fmt: skip
_MEANS = ("means", "mean", "meaning", "stands", "stand", "=")
_OPENING = {
    "a",
    "an",
    "the",
    "in",
    "this",
    "dance",
    "by",
    "i",
    "my",
    "where",
    "note",
    "here",
    "when",
    "say",
    "writes",
    "write",
    '"',
    "'",
    ":",
}
_PLAIN = {"always", "just", "simply", "here", "that", "for", "short", "you", '"', "'"}
_NOT_NAMES = {
    "tune", "music", "song", "track", "wall", "walls", "count", "counts", "level", "intro", "start", "starts",
    "tempo", "time", "by", "choreo", "choreographer", "choreography", "title", "name", "part", "parts", "section",
    "tag", "tags", "restart", "restarts", "bridge", "ending", "order", "sequence", "option", "weight", "facing",
    "clock", "direction", "bpm", "date", "dance", "note", "notes", "type", "step", "steps", "phrasing",
}  # fmt: skip
_SAYING = {"foot", "side", "run", "part", "move", "way", "prep", "figure", "amount", "turn"}
_FEET = {"r": ("r", "right", "rf"), "l": ("l", "left", "lf")}
_FOOT_OF = {word: foot for foot, words in _FEET.items() for word in words}
_MIRROR = {"r": "l", "l": "r", "right": "left", "left": "right", "rf": "lf", "lf": "rf", "rs": "ls", "ls": "rs"}


def gloss_of(lines: Sequence[Sequence[Token]], keys: Sequence[Sequence[Token]] = ()) -> Gloss:
    """Return the vocabulary that the lines of a sheet explain; of `keys` it is known that they explain short forms."""
    found: dict[tuple[str, ...], Words] = {}
    in_key = goes_on = False
    for place, line in enumerate((*keys, *lines)):
        signs = any(token.text == "=" for token in line)
        tokens = [token for token in line if token.text != "|" or signs]
        head = _key_head(tokens)
        keyed = 0 < head < len(tokens)
        # A key may run on over the next lines, as long as they are pairs too.
        in_key = (
            keyed
            or place < len(keys)
            or (in_key and place != len(keys) and (goes_on or any(token.text == "," for token in tokens)))
        )
        goes_on = bool(tokens) and tokens[-1].text == ","
        for name, meaning in _pairs(_past_head(tokens[head - 1 :]) if keyed else tokens, keyed=in_key):
            for key, words in _entries(name, meaning, keyed=in_key):
                if len(found) < _MOST_ENTRIES:
                    found.setdefault(key, words)
    return Gloss(tuple(found.items()), found)


def _key_head(tokens: Sequence[Token]) -> int:
    """How many tokens head a key: "Key", "my short ones:", "What I write for short:"; 0: none."""
    if tokens and tokens[0].low in _KEYS:
        return 1
    colon = next((at for at, token in enumerate(tokens[:_LONGEST_HEAD]) if token.text == ":"), 0)
    return colon if any(token.low in _KEYS for token in tokens[:colon]) else 0


def _past_head(tokens: Sequence[Token]) -> list[Token]:
    at = 1
    while at < len(tokens) and (tokens[at].text in ":.-=" or tokens[at].low in ("of", "to", "used", "terms", "forms")):
        at += 1
    return list(tokens[at:])


def _pairs(tokens: Sequence[Token], *, keyed: bool) -> Iterator[tuple[Words, Words]]:
    """Yield names with their meanings."""
    for sentence in _split(tokens, (".", ";", "|")):
        signs = [at for at, token in enumerate(sentence) if token.text == "=" or token.low in _MEANS]
        if signs:
            yield from _at_signs(sentence, signs)
        elif keyed:
            for piece in _split(sentence, (",",)):
                yield from _side_by_side(piece)
        else:
            yield from _at_colon(sentence)


def _split(tokens: Sequence[Token], marks: tuple[str, ...]) -> list[list[Token]]:
    pieces: list[list[Token]] = [[]]
    depth = 0
    for token in tokens:
        depth += (token.text in "([") - (token.text in ")]") if len(token.text) == 1 else 0
        if token.text in marks and depth <= 0:
            pieces.append([])
        else:
            pieces[-1].append(token)
    return [piece for piece in pieces if piece]


def _at_signs(sentence: Sequence[Token], signs: Sequence[int]) -> Iterator[tuple[Words, Words]]:
    """Yield the pairs of "a = b, c = d" and of "a means b"."""
    name = _name(sentence[: signs[0]])
    for place, sign in enumerate(signs):
        end = signs[place + 1] if place + 1 < len(signs) else len(sentence)
        rest = list(sentence[sign + 1 : end])
        following: Words = ()
        if end < len(sentence):
            rest, following = _with_next_name(rest)
        while rest and rest[0].low in _PLAIN | {":"}:
            rest = rest[1:]
        yield name, _meant(name, rest)
        name = _name(following)


def _with_next_name(rest: Sequence[Token]) -> tuple[list[Token], Words]:
    """Part a meaning from the name after it; without commas that is the word before its sign: "tch = touch / fwd ="."""
    comma = max((at for at, token in enumerate(rest) if token.text == ","), default=None)
    if comma is not None:
        return list(rest[:comma]), tuple(rest[comma + 1 :])
    meaning = list(rest[:-1])
    while meaning and meaning[-1].kind in ("mark", "amp"):
        meaning.pop()
    return meaning, tuple(rest[-1:])


def _meant(name: Words, rest: Sequence[Token]) -> Words:
    """Return a meaning without the forms after it that the teacher only lists: "Rt = right ft, fwd, bk, tog = ..."."""
    # "Lt = left foot; turns are said before their step".
    rest = rest[: next((at for at, token in enumerate(rest) if token.text == ";"), len(rest))]
    while rest and rest[-1].text == ",":
        rest = rest[:-1]
    rest = _only_feet(rest) or rest
    if len(name) != 1 or not rest:
        return tuple(rest)
    first, *more = _split(rest, (",", "/")) or [list(rest)]
    if more and _names_a_foot(tuple(first)):
        return tuple(first)
    if _is_made_of(name[0].low, first[0].low):
        while more and all(token.low in _USUAL_FORMS or token.kind == "amp" for token in more[-1]):
            more.pop()
        return tuple(token for token in rest if token.column <= [*first, *(more[-1] if more else ())][-1].column)
    return tuple(rest)


def _only_feet(rest: Sequence[Token]) -> Sequence[Token]:
    """Return what names feet before forms that the teacher only lists, none elsewhere: "R/L foot fwd bk"."""
    end = next((at for at, token in enumerate(rest) if token.low in _USUAL_FORMS), len(rest))
    listed = all(token.low in _USUAL_FORMS or token.kind == "amp" for token in rest[end:])
    feet = tuple(token for token in rest[:end] if token.text != "/")
    return rest[:end] if listed and feet and _names_a_foot(feet) and rest[end - 1].text != "/" else ()


def _is_made_of(name: str, word: str) -> bool:
    letters = iter(word)
    return len(name) < len(word) and name[:1] == word[:1] and all(letter in letters for letter in name)


_USUAL_FORMS = {
    "fwd", "fw", "bk", "bwd", "tog", "tg", "tch", "pt", "stp", "rec", "diag", "beh", "bhd", "xs", "x", "ft", "wt", "ct",
    "cts", "and", "etc", "sd",
}  # fmt: skip
"""Short forms that nobody needs to explain."""


def _at_colon(sentence: Sequence[Token]) -> Iterator[tuple[Words, Words]]:
    at = next((at for at, token in enumerate(sentence) if token.text == ":"), 0)
    meaning = sentence[at + 1 :]
    known = not any(lex.kind == "unknown" for lex in lexemes(sentence[:at]))
    # A figure's name before its steps is no explanation: the steps are danced there.
    if 0 < at <= _LONGEST_NAME and not known and any(token.text == "," for token in meaning):
        yield _name(sentence[:at]), tuple(meaning)


def _side_by_side(piece: Sequence[Token]) -> Iterator[tuple[Words, Words]]:
    """Yield the pair of "tch touch", "RF/LF right/left foot", "fwd - forward", "w/ with"."""
    at = next((at for at, token in enumerate(piece) if token.text in ("-", ":", ">") and at), 0)
    if at:
        yield tuple(piece[:at]), tuple(piece[at + 1 :])
        return
    if len(piece) > 1 and piece[1].text in ("(", "["):
        # "Touch (tc)" is short for what stands before it, and was written out.
        return
    if len(piece) > 2 and piece[1].text == "/" and not piece[2].glued:
        yield (piece[0],), tuple(piece[2:])
        return
    names = 1
    while names + 1 < len(piece) and piece[names].text == "/" and piece[names + 1].glued:
        names += 2
    yield tuple(piece[:names]), tuple(piece[names:])


def _name(tokens: Sequence[Token]) -> Words:
    name = list(tokens)
    while name and (name[0].low in _OPENING or name[0].kind == "mark"):
        name = name[1:]
    while name and (name[-1].low in _PLAIN or name[-1].kind == "mark"):
        name = name[:-1]
    return tuple(name)


def _entries(name: Words, meaning: Words, *, keyed: bool) -> Iterator[tuple[tuple[str, ...], Words]]:
    """Yield what a pair puts into the vocabulary: each of several names, and the mirror of a name with a foot."""
    names = _split(name, (",", "/"))
    meanings = _split(meaning, (",", "/"))
    if 1 < len(names) == len(meanings):
        tail = meanings[-1][1:]
        for one, said in zip(names, meanings, strict=True):
            whole = said if said is meanings[-1] or len(said) > 1 else [*said, *tail]
            yield from _entry(tuple(one), tuple(whole), keyed=keyed)
        return
    yield from _entry(name, meaning, keyed=keyed)


_TAKES_WEIGHT = {
    "the", "that", "foot", "takes", "take", "taking", "with", "weight", "it", "you", "on", "onto", "your", "full", "a",
    "is", "gets", "has", "moving", "put", "puts", "transfer", "transferred", "changes", "change", "of", "to", "there",
    "bears", "carries", "always", "down", "then", "ends", "and", "as", "well", "also", "moves", "in",
}  # fmt: skip


def _only_takes_weight(meaning: Words) -> bool:
    """Whether a meaning says nothing but that a foot takes the weight."""
    lows = {token.low for token in meaning if token.kind == "word"}
    return "weight" in lows and lows <= _TAKES_WEIGHT


def _entry(name: Words, meaning: Words, *, keyed: bool) -> Iterator[tuple[tuple[str, ...], Words]]:
    words = tuple("and" if token.kind == "amp" else token.low for token in name)
    sound = 0 < len(words) <= _LONGEST_NAME and all(token.kind in ("word", "amp") for token in name)
    if not sound or not 0 < len(meaning) <= _LONGEST_MEANING or words[0] in _NOT_NAMES:
        return
    if _only_takes_weight(meaning) and any(lex.kind in ("move", "way", "figure") for lex in lexemes(name)):
        # "Close means that the foot takes the weight": so it does anyhow, whichever foot it is.
        return
    if tuple(token.low for token in meaning) == words or not _says(lexemes(meaning), keyed=keyed):
        return
    sides = {_FOOT_OF[token.low] for token in meaning if token.low in _FOOT_OF}
    if words in (("r",), ("l",)) and (_FOOT_OF.get(meaning[0].low) == words[0] or sides == {words[0]}):
        # "R = right foot (or to the right)", "l = turn left" is what the trade says anyhow.
        return
    feet = [_FOOT_OF[word] for word in words if word in _FOOT_OF]
    rest = tuple(word for word in words if word not in _FOOT_OF)
    if len(words) == 1 or not rest or len(feet) > 1:
        yield words, meaning
        sided = any(token.low in _MIRROR for token in meaning) and not _names_a_foot(meaning)
        if len(words) == 1 and sided and words[0] not in _FOOT_OF:
            yield from _with_feet(words, meaning, _first_foot(meaning))
        return
    if feet:
        yield from _with_feet(rest, meaning, feet[0])
        yield rest, meaning
        return
    yield words, meaning
    if any(token.low in _MIRROR for token in meaning):
        yield from _with_feet(words, meaning, _first_foot(meaning))


def _names_a_foot(meaning: Words) -> bool:
    """Whether a meaning is a foot or a side and no more: the side before "Lt = left foot" is that of a turn."""
    return all(token.low in _FOOT_OF or token.low in ("foot", "feet", "the", "side", "leg") for token in meaning)


def _with_feet(rest: tuple[str, ...], meaning: Words, own: str) -> Iterator[tuple[tuple[str, ...], Words]]:
    mirror = tuple(replace(token, low=_MIRROR.get(token.low, token.low), text=_mirrored(token)) for token in meaning)
    for foot, said in _FEET.items():
        words = meaning if foot == own else mirror
        for one in said:
            yield (*rest, one), words
            yield (one, *rest), words


def _mirrored(token: Token) -> str:
    return _MIRROR.get(token.low, token.text)


def _first_foot(meaning: Words) -> str:
    return next((_FOOT_OF[token.low] for token in meaning if token.low in _FOOT_OF), "r")


def _says(lexes: Sequence[Lex], *, keyed: bool) -> bool:
    """Whether a meaning is told in words of the trade."""
    if any(lex.kind == "unknown" for lex in lexes):
        return False
    saying = sum(lex.kind in _SAYING for lex in lexes)
    return saying > 0 or (keyed and any(lex.kind == "task" for lex in lexes))
