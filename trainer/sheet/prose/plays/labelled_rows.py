"""Rows of a play that say to what of the song each part is danced: "verse one .... A", "chorus, two times = B B".

What stands before the sign only names the music: the row tells the parts behind it. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby, pairwise

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS
from trainer.sheet.prose.plays.paragraphs import Sentence, speaks_of_steps
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_FEWEST = 4
"""Rows of such a play."""
_ROWS = 2
"""Rows that are numbered, at least."""
_ROUNDS = {"round", "act", "verse", "line", "row", "go", "time", "part", "stanza", "block"}
_SUFFIXES = {"st", "nd", "rd", "th", "time", "round", "verse", "go"}
_DOTS = 3
_LABEL = 8
"""Tokens of what stands before the sign at most."""
_LAST = {"last", "final", "end", "ending", "closing", "finish", "very"}


def unlabelled(group: Sequence[Sentence], parts: Sequence[str]) -> list[Sentence]:
    """Return the sentences of a paragraph, the rows among them without what only names the music, or their place."""
    group = _without_places(group, parts)
    found = {at: end for at, one in enumerate(group) if one.alone and (end := _behind_label(one.tokens, parts))}
    told = [token.text for at, end in found.items() for token in group[at].tokens[end:] if token.text in parts]
    # "VERSE = A", "CHORUS = B" only names the parts; a play has one of them again and again.
    if len(found) < _FEWEST or len(told) <= 2 * len(set(told)):
        return group
    rows = [replace(one, tokens=one.tokens[found.get(at, 0) :]) for at, one in enumerate(group)]
    last = max(found) + 1
    if last < len(rows) and (steps := _closing_steps(rows[last].tokens)):
        rows[last] = replace(rows[last], tokens=steps)
    return rows


def _without_places(group: Sequence[Sentence], parts: Sequence[str]) -> list[Sentence]:
    """Return the sentences, rows without the places that number them: "1st A B C" over "2nd A B C C"."""
    places = {at: place for at, one in enumerate(group) if one.alone and (place := _place(one.tokens, parts))}
    if len(places) < _ROWS or [number for number, _ in places.values()] != list(range(1, len(places) + 1)):
        return list(group)
    return [replace(one, tokens=one.tokens[places[at][1] :]) if at in places else one for at, one in enumerate(group)]


def _place(tokens: Sequence[Token], parts: Sequence[str]) -> tuple[int, int] | None:
    """Return the place that opens a row of two items or more, and the index of its first part."""
    at = int(tokens[0].low in _ROUNDS)
    if at >= len(tokens):
        return None
    low = tokens[at].low
    number = ORDINALS.get(low) or NUMBERS.get(low) or (int(low) if low.isdecimal() and len(low) == 1 else 0)
    end = at + 1
    ordinal = low in ORDINALS or bool(at)
    while end < len(tokens) and (tokens[end].low in _SUFFIXES or tokens[end].text in (")", BREAK)):
        ordinal = ordinal or tokens[end].low in _SUFFIXES
        end += 1
    items = sum(token.text in parts for token in tokens[end:])
    opens = end < len(tokens) and tokens[end].text in parts
    return (number, end) if number and ordinal and opens and items > 1 else None


def _sign_end(tokens: Sequence[Token]) -> tuple[int, int]:
    """Where a row's sign begins, and the index after it: "=", a wide gap, dots; 0, 0 of other lines."""
    at = 0
    for dotted, run in groupby(tokens, key=lambda token: token.text == "."):
        length = len(list(run))
        if dotted and length >= _DOTS and at:
            return at, at + length
        at += length
    at = next((at for at, token in enumerate(tokens) if token.text in ("=", BREAK) and at), 0)
    return (at, at + 1) if at else (0, 0)


def _behind_label(tokens: Sequence[Token], parts: Sequence[str]) -> int:
    """Return the index of the part behind a row's label and sign; 0 of other lines."""
    begins, ends = _sign_end(tokens)
    label = tokens[:begins]
    named = any(token.kind == "word" and token.text not in parts for token in label)
    plain = not any(token.text in parts for token in label)
    led = named and plain and begins <= _LABEL
    return ends if led and ends < len(tokens) and tokens[ends].text in parts else 0


def _closing_steps(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the row below the last part as an ending: "very last note .... stomp R"."""
    begins, ends = _sign_end(tokens)
    said = {token.low for token in tokens[:begins]}
    if not said & _LAST or ends >= len(tokens) or not speaks_of_steps(tokens[ends]):
        return ()
    name = replace(tokens[0], kind="word", text="Ending", low="ending", value=None)
    return (name, replace(name, kind="mark", text=":", low=":", glued=True), *tokens[ends:])


_WIDE_LABEL = 8
_SHORT_LABEL = 4
"""Tokens of a label with its colon: of one that is numbered, and of any."""
_LAST_PLACE = 99


def goes_on_labelled(sentence: Sentence, told: Sequence[Sentence]) -> bool:
    """Whether a line of the play is labelled as one above it is: by the same word, or by a place behind its place.

    "ACT ONE: A, B" over "ACT TWO: A, A", "First half of the song: A, A, B" over "Second half: A, B, B".
    """
    word, place = _first_word(sentence), _place_in_label(sentence)
    above = [(_first_word(one), _place_in_label(one)) for one in told]
    return any((word and word == other) or 0 < before < place for other, before in above)


def _first_word(sentence: Sentence) -> str:
    named = sentence.tokens[0].kind == "word" and len(sentence.tokens[0].text) > 1
    return sentence.tokens[0].low if named and _label(sentence, _SHORT_LABEL) else ""


def _label(sentence: Sentence, most: int) -> Sequence[Token]:
    """The words of a line before its colon, where it stands among the first few tokens."""
    colon = next((at for at, token in enumerate(sentence.tokens[:most]) if token.text == ":"), 0)
    return sentence.tokens[:colon]


def _place_in_label(sentence: Sentence) -> int:
    """The place that a label tells, from 1 on: "Second half of the song:", "To finish:"; 0 where it tells none."""
    label = _label(sentence, _WIDE_LABEL)
    if any(token.low in _LAST for token in label):
        return _LAST_PLACE
    numbers = [ORDINALS.get(token.low) or NUMBERS.get(token.low) or 0 for token in label]
    return next((int(number) for number in numbers if number), 0)


def told_apart(group: Sequence[Sentence], parts: Sequence[str]) -> list[Sentence]:
    """Return the sentences, those that say what several names mean parted: "A = 32 counts, A- = 16 of them, B = 16"."""
    done: list[Sentence] = []
    for one in (part for given in group for part in _explained_apart(given, parts)):
        heads = [at for at in range(len(one.tokens)) if _means(one.tokens, at, parts)]
        cuts = [at for at in heads[1:] if one.tokens[at - 1].text in (",", ";", ".", "|", "/")]
        if not heads or heads[0] or len(cuts) + 1 < len(heads) or len(heads) < _MEANINGS:
            done.append(one)
            continue
        for first, last in pairwise([0, *cuts, len(one.tokens)]):
            done.append(replace(one, tokens=one.tokens[first:last], alone=one.alone and not first))
    return done


_MEANINGS = 2
_DESCRIBES = {"the", "little", "small", "short", "lower", "case", "a", "part", "marked"}
_GIVES = {"=", "is", "means", "stands", "being", ":"}
_LISTED = 4


_STARS = {"star", "asterisk"}


def _starred(one: Sentence, at: int, parts: Sequence[str]) -> list[Sentence]:
    """Return a sentence that tells at its end what its star means, as two: "A, B, A*, B; the star means 16 counts"."""
    tokens = one.tokens
    named = [t for t, mark in pairwise(tokens[:at]) if t.text in parts and mark.text == "*" and mark.glued]
    said = [token.low for token in tokens[at : at + 3]]
    if len(said) < len("the") or said[0] != "the" or said[1] not in _STARS or said[2] not in _GIVES or not named:
        return []
    star = replace(tokens[at], kind="mark", text="*", low="*", glued=True)
    sign = replace(tokens[at], kind="mark", text="=", low="=")
    lead = tokens[: at - 1] if tokens[at - 1].text in (",", ";", "-") else tokens[:at]
    told = (replace(named[0], line=tokens[at].line), star, sign, *tokens[at + 3 :])
    return [replace(one, tokens=lead), replace(one, tokens=told, alone=False)]


def _letters(tokens: Sequence[Token], parts: Sequence[str]) -> int:
    """How many parts some tokens name, letters written together among them."""
    return sum(
        1 if token.text in parts else len(token.text)
        for token in tokens
        if {*token.text} <= {*parts} or token.text in parts
    )


def _explained_apart(one: Sentence, parts: Sequence[str]) -> list[Sentence]:
    """Return a sentence that lists a play and explains a marked part of it as two: "A, a, B, where a is half of A"."""
    for at, token in enumerate(one.tokens):
        if token.low not in ("where", "(", "the") or _letters(one.tokens[:at], parts) < _LISTED:
            continue
        first = at + 1
        if starred := _starred(one, at, parts):
            return starred
        while first < len(one.tokens) and one.tokens[first].low in _DESCRIBES - {"a"}:
            first += 1
        name, rest = one.tokens[first : first + 1], one.tokens[first + 1 :]
        marked = bool(rest) and rest[0].text in ("'", "*", "-", "^", "~") and rest[0].glued
        small = bool(name) and name[0].text.islower() and name[0].text.upper() in parts
        means = len(rest) > marked and rest[marked].low in _GIVES
        if name and means and (small or (marked and name[0].text in parts)):
            told = list(one.tokens[first:])
            if token.text == "(" and ")" in [other.text for other in told]:
                told.pop(next(on for on in range(len(told) - 1, -1, -1) if told[on].text == ")"))
            lead = one.tokens[:at]
            lead = lead[:-1] if lead[-1].text in (",", ";") else lead
            told[1 + marked] = replace(told[1 + marked], kind="mark", text="=", low="=")
            return [replace(one, tokens=lead), replace(one, tokens=tuple(told), alone=False)]
    return [one]


def _means(tokens: Sequence[Token], at: int, parts: Sequence[str]) -> bool:
    """Whether a part, perhaps with a mark, stands before an equals sign."""
    after = at + 1 + (tokens[at + 1 : at + 2] != () and tokens[at + 1].text in ("-", "*", "'"))
    return tokens[at].text in parts and after < len(tokens) and tokens[after].text == "="
