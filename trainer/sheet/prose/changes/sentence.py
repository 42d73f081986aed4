"""What a sentence of a telling says: its phrases are taken out one by one, and what is left are steps.

Nothing is decided here of where in the wall a change lies, or of how many counts it takes.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from trainer.sheet.prose.changes import cues
from trainer.sheet.prose.changes.otherwise import Otherwise
from trainer.sheet.prose.changes.told_steps import VERBAL, comma, only_steps, only_turns, tells_steps
from trainer.sheet.prose.changes.wording import Words, faced_in, numbers_in, words_of
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_REFERENCE = 9
"""So many words do not name a step."""


@dataclass(slots=True)
class _Sentence:
    """What is found in a sentence, step by step; the text shrinks to what is not understood yet."""

    words: Words
    text: str
    now: Otherwise
    found: list[Otherwise] = field(default_factory=list)

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Find a phrase, and blank it out."""
        match = pattern.search(self.text)
        if match is not None:
            self.blank(match.start(), match.end())
        return match

    def blank(self, first: int, last: int) -> None:
        self.text = self.text[:first] + "~" * (last - first) + self.text[last:]

    def tokens(self, first: int, last: int) -> tuple[Token, ...]:
        """Return the tokens of a stretch that are not blanked out, without marks at its ends."""
        found = [
            token
            for token, start in zip(self.words.tokens, self.words.starts, strict=True)
            if first <= start < last and self.text[start] != "~"
        ]
        while found and (
            found[0].text in ",.:;)-&=/" or found[0].low in ("and", "then", "but", "so", "just", "only", "instead")
        ):
            found.pop(0)
        while found and (found[-1].text in ",.:;(-&=/" or found[-1].low in ("and", "then", "but", "so", "instead")):
            found.pop()
        return tuple(found)


def of_sentence(
    tokens: Sequence[Token], waiting: Otherwise, done: list[Otherwise]
) -> tuple[list[Otherwise], Otherwise]:
    """Return what a sentence says, and what waits for the next to be told."""
    words = words_of(tokens)
    if cues.ELSEWHERE.search(words.text):
        return [], waiting
    told = _Sentence(words, words.text, waiting)
    onward = _ends(told)
    _tail(told)
    _place(told)
    carried = Otherwise(section=told.now.section, rows=told.now.rows, carried=True)
    if told.now.likewise or told.now.again:
        return [replace(told.now, line=tokens[0].line)], carried
    _bodies(told)
    if told.now.holds and told.now.instead and not told.found:
        # "Hold for 4 counts instead of the vine left."
        held = replace(tokens[0], kind="word", text="hold", low="hold", value=None)
        told.now = replace(told.now, length=told.now.holds, holds=0)
        _take_steps(told, (held,))
    now = replace(told.now, line=tokens[0].line)
    if told.found:
        told.found[-1] = _with_end(told.found[-1], now)
        return told.found, Otherwise()
    if onward and not (now.instead or now.drops or now.unturned):
        now = replace(now, counts=None, after=(), upto=0, edge="")
    if done and (now.leaves or not now.placed) and not (now.drops or now.unturned):
        done[-1] = _with_end(done[-1], now)
        return [], carried
    return ([now], carried) if now.drops and (now.placed or now.section) else ([], now)


def _ends(told: _Sentence) -> bool:
    """Take what is said of how the wall goes on, and what says nothing of steps; whether it goes on as ever."""
    leaves = told.take(cues.LEAVE) is not None
    while told.take(cues.AS_EVER):
        pass
    onward = told.take(cues.ONWARD) is not None
    told.take(cues.NEXT)
    while told.take(cues.ASIDE) or told.take(cues.WHY):
        pass
    told.now = replace(
        told.now,
        leaves=told.now.leaves or leaves,
        ends=told.now.ends or cues.ENDS.search(told.words.text) is not None,
        likewise=told.take(cues.LIKEWISE) is not None,
        again=told.take(cues.AGAIN) is not None,
    )
    if told.now.leaves:
        faces = told.now.faces if told.now.faces is not None else faced_in(told.words)
        told.now = replace(told.now, faces=faces)
    return onward


def _with_end(one: Otherwise, end: Otherwise) -> Otherwise:
    """Return a change with what is said of what follows it."""
    return replace(
        one,
        leaves=one.leaves or end.leaves,
        holds=one.holds or end.holds,
        tag=one.tag or end.tag,
        length=one.length or end.length,
        ends=one.ends or end.ends,
        faces=one.faces if one.faces is not None else end.faces,
    )


def _tail(told: _Sentence) -> None:
    """Take what follows the change: a tag with its steps, counts that are held."""
    match = cues.TAG.search(told.text)
    if match is not None:
        tokens = told.tokens(match.start("turn") if match["turn"] else match.end(), len(told.text))
        told.now = replace(told.now, tag=_spelled(tokens))
        told.blank(match.start(), len(told.text))
    held = told.take(cues.HOLD)
    if held is not None:
        told.now = replace(told.now, holds=int(held["n"] or held["m"] or held["longer"]))


def _spelled(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the steps of a tag; those that are spelled out in brackets take over the turn told before them."""
    first = next((at for at, token in enumerate(tokens) if token.text == "("), None)
    last = next((at for at, token in enumerate(tokens) if token.text == ")"), len(tokens))
    if first is None or not tells_steps(tokens[first + 1 : last]):
        return tokens
    turn = tuple(
        token for token in tokens[:first] if token.kind == "fraction" or token.low in ("l", "r", "left", "right")
    )
    inside = tokens[first + 1 : last]
    return inside if any(token.kind == "fraction" for token in inside) else (*inside, *turn)


def _place(told: _Sentence) -> None:
    """Take what is said of the place: the section, its counts, its first or last ones."""
    edge = told.take(cues.EDGE)
    if edge is not None:
        many = int(edge["n"] or edge["m"] or (1 if edge["one"] else 0))
        told.now = replace(told.now, edge="first" if edge["edge"] == "1 th" else "last", many=many)
    nth = told.take(cues.TH_COUNT)
    section = told.take(cues.SECTION)
    if section is not None:
        groups = {name: value for name, value in section.groupdict().items() if value}
        name, value = next(iter(groups.items()))
        number = -1 if name == "last" else int(value) if value.isdigit() else "abcdefgh".index(value) + 1
        past = cues.PAST.search(words_before := told.words.text[: section.start()]) is not None
        past |= told.words.text[section.end() :].startswith("only ")
        past = past and "instead" not in words_before
        told.now = replace(
            told.now,
            section=number,
            past=past,
            carried=False,
            rows=bool(re.search(r"\b(?:lines?|rows?)\b", section[0])),
        )
        negated = cues.NOT.search(told.text)
        if negated is not None and re.fullmatch(r"(?:this time|here|at all|\W|~| )*", told.text[negated.end() :]):
            told.now = replace(told.now, drops=True)
    upto = told.take(cues.UPTO)
    if upto is not None and (upto["whole"] or upto["aside"]):
        told.now = replace(told.now, upto=int(upto["whole"] or upto["aside"]))
    elif upto is not None and upto["how"] == "from":
        told.now = replace(told.now, counts=(int(upto["n"]), 0))
    elif upto is not None:
        told.now = replace(told.now, upto=int(upto["n"]))
    counts = told.take(cues.COUNTS) if upto is None else None
    if counts is not None:
        numbers = numbers_in(counts[0])
        last = 0 if counts["g"] else numbers[-1]
        told.now = replace(told.now, counts=(numbers[0], last))
    elif nth is not None:
        told.now = replace(told.now, counts=(int(nth["n"]), int(nth["n"])))
    length = told.take(cues.ONLY)
    if length is not None:
        told.now = replace(told.now, length=int(length["n"] or length["m"]))


def _bodies(told: _Sentence) -> None:
    """Take the steps, those danced and those not."""
    if (still := told.take(cues.STILL)) is not None:
        token = told.words.tokens[told.words.place(still.start())]
        _take_steps(told, (replace(token, kind="word", text="hold", low="hold", value=None),))
        return
    after = cues.AFTER.search(told.text)
    if after is not None:
        reference = told.tokens(after.start("what"), after.end("what"))
        if any(token.low in STEP_WORDS for token in reference):
            told.now = replace(told.now, after=reference)
        if after["on"]:
            told.now = replace(told.now, upto=numbers_in(after["on"])[-1])
        told.blank(after.start(), after.end())
    replaced = cues.REPLACE.search(told.text)
    if replaced is not None:
        told.now = _with_instead(told.now, told.tokens(replaced.start("what"), replaced.end("what")))
        told.blank(0, replaced.end())
    for kind, first, last in _stretches(told.text):
        _stretch(told, kind, first, last)


def _stretches(text: str) -> Iterator[tuple[str, int, int]]:
    """Yield the stretches of a sentence, each with what leads to it."""
    found = sorted(
        [
            *(("instead", one.start(), one.end()) for one in cues.INSTEAD.finditer(text)),
            *(("drop", one.start(), one.end()) for one in cues.DROP.finditer(text)),
            *(("dropped", one.start(), one.end()) for one in cues.DROPPED.finditer(text)),
            *(
                ("isnt" if one[0].startswith(("is ", "are ")) else "not", one.start(), one.end())
                for one in cues.NOT.finditer(text)
            ),
            *(("" if one[0] == ": " else "becomes", one.start(), one.end()) for one in cues.BECOMES.finditer(text)),
        ],
        key=lambda one: (one[1], -one[2]),
    )
    at, kind = 0, ""
    for cue, first, last in found:
        if first < at:
            continue
        follows = {"becomes": "<becomes", "dropped": "<dropped", "isnt": "<not"}.get(cue, "")
        if first > at or follows:
            yield kind + follows, at, first
        at, kind = last, {"dropped": "", "isnt": "not"}.get(cue, cue)
    yield kind, at, len(text)


def _stretch(told: _Sentence, kind: str, first: int, last: int) -> None:
    """Take one stretch of a sentence."""
    lead, _, follows = kind.partition("<")
    tokens = told.tokens(first, last)
    if follows == "dropped":
        told.now = replace(_with_instead(told.now, tokens), drops=True)
    elif follows:
        named = tells_steps(tokens) and len(tokens) < _REFERENCE
        if named and not (follows == "becomes" and {token.low for token in tokens} & VERBAL):
            told.now = _with_instead(told.now, tokens)
    elif lead in ("instead", "not", "drop"):
        _not_danced(told, lead, first, last)
    elif tells_steps(tokens):
        _take_steps(told, tokens)


def _not_danced(told: _Sentence, lead: str, first: int, last: int) -> None:
    """Take steps that are not danced, and those behind them that are."""
    verb = cues.LISTED if lead == "drop" else cues.VERB
    match = None if told.found and lead == "instead" else verb.search(told.text, first + 1, last)
    end = match.start() if match is not None else last
    reference = told.tokens(first, end)
    turns = only_turns(reference)
    before = bool(told.found) and lead != "drop" and not told.now.instead
    now = told.found[-1] if before else told.now
    numbers = [int(token.text) for token in reference if token.kind == "number"]
    if numbers and now.counts is None and not turns:
        now = replace(now, counts=(numbers[0], numbers[-1]))
    if not (turns and now.steps):
        now = _with_instead(now, reference)
    now = replace(
        now,
        drops=now.drops or (lead == "drop" and not turns),
        unturned=now.unturned or (turns and lead != "instead" and not now.steps),
    )
    if before:
        told.found[-1] = now
    else:
        told.now = now
    if lead == "drop" and told.text[end : end + 1] == "(":
        # "We drop the third eight (the heels)."
        end = max(told.text.find(")", end, last) + 1, end)
    rest = told.tokens(end, last)
    if tells_steps(rest):
        _take_steps(told, rest)


def _take_steps(told: _Sentence, tokens: tuple[Token, ...]) -> None:
    """Take steps that are danced, as a change of their own or with those before them."""
    tokens = only_steps(tokens)
    if not tokens:
        return
    now = replace(told.now, steps=tokens, drops=False, unturned=False, line=tokens[0].line)
    if told.found and not now.placed:
        last = told.found[-1]
        told.found[-1] = replace(last, steps=(*last.steps, *comma(last.steps[-1]), *tokens))
    else:
        told.found.append(now)
    told.now = Otherwise(
        section=told.now.section,
        rows=told.now.rows,
        past=told.now.past,
        ends=told.now.ends,
        leaves=told.now.leaves,
        faces=told.now.faces,
        holds=told.now.holds,
        tag=told.now.tag,
    )


def _with_instead(now: Otherwise, tokens: tuple[Token, ...]) -> Otherwise:
    """Return a change with steps that are not danced, where words name some."""
    return replace(now, instead=(*now.instead, tokens)) if tells_steps(tokens) else now
