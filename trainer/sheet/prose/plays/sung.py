"""Other names of the parts, taken from the song, where the play is told by them alone: "A (verse)", "verse, chorus"."""

from collections.abc import Iterator, Mapping, Sequence

from trainer.sheet.prose.plays.paragraphs import paragraphs, speaks_of_steps
from trainer.sheet.prose.plays.symbols import Symbol
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

SONG_NAMES = {
    "verse", "chorus", "refrain", "couplet", "strophe", "stanza", "middle", "hook", "solo", "instrumental", "stanzas",
    "verses", "choruses", "refrains", "couplets", "strophes", "hooks", "solos", "pre-chorus", "burden", "melody",
}  # fmt: skip
_LINKS = {
    "=", ":", "(", ")", "-", ">", "|", '"', "is", "are", "the", "a", "an", "each", "every", "to", "we", "you", "dance",
    "danced", "dances", "with", "for", "on", "goes", "go", "means", "stands", "in", "during", "our", "part", "parts",
    "all", "of", "belongs", "called", "also", "call", "it", "or", "as", "by", "when", "comes", "one", "song", "music",
    "always", "this", "that", "uses", "gets", "do", "does", "sings", "sing", "sung", "he", "she", "they", "time", "so",
    "then", "has", "have", "there", "two", "three", "four", "named", "dancing", "plays", "be", "will",
}  # fmt: skip
_ENDS = {",", ";", "/", ".", "and", "&", "while"}
_FEWEST = 3
"""Names of the song in the sentence that tells the play by them."""


def sung_names(lines: Sequence[Line], parts: Sequence[str]) -> Mapping[str, int]:
    """Return the song's names of parts in small letters, singular and plural; none where no play is told by them."""
    sentences = [sentence for group in paragraphs(lines, parts) for sentence in group]
    found: dict[str, set[int]] = {}
    for sentence in sentences:
        for clause in _clauses(sentence.tokens):
            for word, part in _named_in(clause, parts):
                found.setdefault(word, set()).add(part)
    names = {word: next(iter(places)) for word, places in found.items() if len(places) == 1}
    names = {form: part for word, part in names.items() for form in forms_of(word)}
    initials = {word[0] for word in names}
    if len(initials) == len(set(names.values())) and not {one.upper() for one in initials} & {*parts, "T"}:
        # "verse = A, chorus = B: V C V C C".
        names |= {word[0]: part for word, part in names.items()}
    groups = paragraphs(lines, parts)
    told = any(_tells_by_names(_behind_colon(sentence.tokens), names, parts) for sentence in sentences)
    told = told or any(
        _tells_by_names([one for each in group for one in each.tokens], names, parts) for group in groups
    )
    return names if told and len(set(names.values())) > 1 else {}


def _clauses(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    clause: list[Token] = []
    for token in tokens:
        if token.low in _ENDS:
            yield clause
            clause = []
        else:
            clause.append(token)
    yield clause


def _named_in(clause: Sequence[Token], parts: Sequence[str]) -> Iterator[tuple[str, int]]:
    """Yield the names that a clause gives to the one part that it names, nothing but linking words around."""
    letters = [token for at, token in enumerate(clause) if token.text in parts and not _is_article(clause, at)]
    equals = any(token.text == "=" or token.low in ("called", "call", "named") for token in clause)
    names = [token for token in clause if token.low in SONG_NAMES or (equals and _is_own(token, parts))]
    articles = [token for at, token in enumerate(clause) if token.text in parts and _is_article(clause, at)]
    others = [one for one in clause if not any(one is known for known in (*letters, *names, *articles))]
    if beside := list(_in_brackets(clause, parts)):
        # "A phrased dance with a verse (A, 32 counts)".
        yield from beside
    elif len(letters) == len(names) == 1 and _goes_with(clause, names[0], letters[0]):
        # "When the gentleman sings his verse we dance A."
        yield names[0].low, parts.index(letters[0].text)
    elif len(letters) == 1 and names and len(names) < _FEWEST and all(token.low in _LINKS for token in others):
        yield from ((name.low, parts.index(letters[0].text)) for name in names)


def own_forms(parts: Sequence[str]) -> Mapping[str, int]:
    """Return plurals and initials of parts that are called as those of a song are: "two choruses", "up to V3"."""
    sung = {part.lower(): place for place, part in enumerate(parts) if part.lower() in SONG_NAMES}
    names = {form: place for word, place in sung.items() for form in forms_of(word)}
    initials = {word[0]: place for word, place in sung.items()}
    plain = len(initials) == len(sung) and not {one.upper() for one in initials} & {*parts, "T"}
    return names | (initials if plain else {})


def _in_brackets(clause: Sequence[Token], parts: Sequence[str]) -> Iterator[tuple[str, int]]:
    """Yield the names with their part's letter in the bracket behind them, "a verse (A": both alone in it."""
    for name, opens, letter in zip(clause, clause[1:], clause[2:], strict=False):
        if name.low in SONG_NAMES and opens.text in ("(", "/") and letter.text in parts:
            yield name.low, parts.index(letter.text)


_DANCED_TO = {"we", "you", "dance", "do", "is", "=", "it's", "goes", "with", ":", "(", "part", "danced", "means"}


def _goes_with(clause: Sequence[Token], name: Token, letter: Token) -> bool:
    """Whether a part follows what is sung to it at once: "join in the chorus we dance B", "verse A"."""
    first, last = (next(at for at, one in enumerate(clause) if one is wanted) for wanted in (name, letter))
    return first < last and all(token.low in _DANCED_TO for token in clause[first + 1 : last])


def _is_article(clause: Sequence[Token], at: int) -> bool:
    return clause[at].text == "A" and at + 1 < len(clause) and clause[at + 1].low in SONG_NAMES


def _is_own(token: Token, parts: Sequence[str]) -> bool:
    """Whether a word may be a name that only this sheet uses."""
    letter = len(token.text) == 1 and token.text.isupper() and token.text != "I"
    word = token.kind == "word" and len(token.text) > 3 and token.low not in _LINKS and not speaks_of_steps(token)
    return token.text not in parts and (letter or word)


def forms_of(word: str) -> tuple[str, ...]:
    """Return the singular and plural of a name."""
    if len(word) == 1:
        return (word,)
    if word.endswith(("ruses", "sses")):
        return (word, word[:-2])
    if word.endswith("us"):
        return (word, word + "es")
    return (word, word[:-1]) if word.endswith("s") else (word, word + "s")


def _behind_colon(tokens: Sequence[Token]) -> Sequence[Token]:
    return tokens[max((at for at, token in enumerate(tokens) if token.text == ":"), default=-1) + 1 :]


def _tells_by_names(tokens: Sequence[Token], names: Mapping[str, int], parts: Sequence[str]) -> bool:
    """Whether a sentence, or a paragraph, names parts of the song in a row, and no part by its letter."""
    letters = [
        token
        for at, token in enumerate(tokens)
        # "Only A1 and A2" names sections.
        if token.text in parts
        and not _is_article(tokens, at)
        and not (tokens[at + 1 : at + 2] and tokens[at + 1].glued)
    ]
    return not letters and sum(_is_name(token, names) for token in tokens) >= _FEWEST


def _is_name(token: Token, names: Mapping[str, int]) -> bool:
    return token.low in names and (len(token.text) > 1 or token.text.isupper() or token.text != "a")


def only_gives_names(given: Sequence[Symbol]) -> bool:
    """Whether a sentence only says which letter is which part of the song: each of both, and no part twice."""
    named = [(one.part, len(one.token.text) == 1) for one in given if one.part >= 0]
    letters = [part for part, letter in named if letter]
    others = [part for part, letter in named if not letter]
    whole = not any(one.text in ("half", "counts", "section", "sections") for one in given)
    return whole and bool(others) and len(set(letters)) == len(letters) and set(letters) == set(others)


def only_in_general(given: Sequence[Symbol]) -> bool:
    """Whether a sentence only speaks of verses and choruses in general: "it is made of verses and refrains"."""
    named = [one for one in given if one.part >= 0]
    plural = all(len(one.token.text) > 1 and one.token.low.endswith("s") and one.token.low != "chorus" for one in named)
    return bool(named) and plural and not any(one.text.isdecimal() or one.text == "both" for one in given)


def behind_names(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Return what tells the play behind a colon, where all before it only says which letter is which part."""
    colon = max((at for at, one in enumerate(given) if one.text == ":"), default=-1)
    told = sum(one.part >= 0 for one in given[colon + 1 :]) >= _FEWEST
    return tuple(given[colon + 1 :]) if colon > 0 and told and only_gives_names(given[:colon]) else tuple(given)
