"""One paragraph of a sheet as a play: its definitions first, then what is left, in lists or as a story."""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.plays.bodies import body_in
from trainer.sheet.prose.plays.changes import Change, change_in
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.definitions import Below, Definition, Form, definition_of, form_of
from trainer.sheet.prose.plays.going_on import goes_on, goes_on_with
from trainer.sheet.prose.plays.labelled_rows import goes_on_labelled, told_apart, unlabelled
from trainer.sheet.prose.plays.paragraphs import Sentence
from trainer.sheet.prose.plays.repeats import HEADED, SUM, is_label
from trainer.sheet.prose.plays.sentence import SentenceReader
from trainer.sheet.prose.plays.shapes import (
    behind_sum,
    only_calls_parts,
    only_items,
    sums_up,
    tells_lengths,
    unnumbered,
    with_noun,
)
from trainer.sheet.prose.plays.standing import only_waits, tells_pause, with_holds
from trainer.sheet.prose.plays.steps_within import AS_CHANGE, opens_steps, steps_within
from trainer.sheet.prose.plays.story_account import Account
from trainer.sheet.prose.plays.story_names import behind_naming, without_doubles
from trainer.sheet.prose.plays.story_words import plainer
from trainer.sheet.prose.plays.sung import behind_names, only_gives_names, only_in_general
from trainer.sheet.prose.plays.symbols import Extra, Named, Symbol, symbols, text_of
from trainer.sheet.prose.plays.together import clauses, pair_again, rounds_told, times_of_it, with_pairs
from trainer.sheet.prose.plays.told_beside import (
    Bodies,
    give_bodies,
    length_told,
    only_names_parts,
    put_in_column,
    takes_counts,
    tells_labels,
    without_bracketed,
    without_labels,
    without_lost_bracket,
)
from trainer.sheet.prose.plays.told_items import Play, Told
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_CLOSES = re.compile(
    r"\b(?:last|final) @|\bend\b|\bto (?:finish|end|close)\b|\bfinally\b|\bat the close\b|\$ending|"
    r"\b(?:you|we|all|they|everybody|everyone|just|then|and) (?:finish|end|close)(?:es|s)?"
    r"(?: (?:it|off|up|the dance))* by\b|"
    r"\bafter (?:those|these|that|this|it)\b|"
    r"\bafter the (?:last|#\d+) @"
)
_AT_LAST = re.compile(r"(?:last|final) @|\bto (?:finish|end)\b|after the (?:last|#\d+) @")
_PAIR = 2
_LIST = 3
"""Items of a plain list."""
_GOES_ON = {"it", "that", "this", "here", "leave", "stop", "only", "dance", "just", "there", "cut"}


_ASKED = {
    "then", "after", "next", "start", "starts", "begin", "begins", "end", "ends", "finish", "finishes", "first",
    "last", "on", "comes", "come", "follows", "order", "now", "else",
}  # fmt: skip
"""What a question about the play is about."""


def _asks_on(sentence: Sentence) -> bool:
    """Whether a question asks how the play goes on: the answer tells more of it."""
    return sentence.tokens[-1].text == "?" and any(token.low in _ASKED for token in sentence.tokens)


_OF_A_ROW = {"x", ",", "(", "+", "up", "until", "only", "but", "then", "and", "with", "-", "twice", "as", "once", "to"}
_MOST = 16


def _opens_a_row(given: Sequence[Symbol]) -> bool:
    """Whether a line opens with an item as a row of a list does, whatever it says of it: "A up to the end of A2"."""
    named = bool(given) and (given[0].part >= 0 or given[0].extra is not None)
    return named and len(given) <= _MOST and (len(given) == 1 or given[1].text in _OF_A_ROW)


class Paragraph:
    """Reads one paragraph: its definitions first, then what is left as a play."""

    def __init__(self, group: Sequence[Sentence], lines: Sequence[Line], named: Named) -> None:
        self.definitions: list[Definition] = []
        self.forms: list[Form] = []
        self.pauses: list[tuple[Token, ...]] = []
        """Its sentences that only say how long nobody dances."""
        self.changes: list[Change] = []
        """What single passes of a part dance otherwise."""
        self.beside: list[tuple[int, Sentence]] = []
        """Its sentences that define nothing, by their places in it."""
        self.accounts: list[Account] = []
        """What each of its sentences did to the play."""
        self._group = told_apart(unlabelled(group, named.parts), named.parts)
        self._lines = lines
        self._named = named
        self._play = Play()
        self._defined: list[tuple[int, Extra, Sentence]] = []
        """The extras that it defines, each with the number of items before it."""
        self._told: list[Sentence] = []
        """Its sentences that told items."""
        self._last_told = 0
        """How many items the latest of its sentences told that told some."""
        self._column = True
        """All that was read so far stood in lines of a list."""

    def read(self) -> Play:
        """Return the play that the paragraph tells."""
        skip, noun = -1, None
        for at, given in enumerate(self._group):
            if at <= skip:
                continue
            sentence = replace(given, tokens=tuple(unnumbered(given.tokens, self._named)))
            if not sentence.tokens:
                continue
            sentence = replace(sentence, tokens=with_noun(sentence.tokens, noun))
            self._group[at] = sentence
            if sentence.tokens[-1].text == "?":
                spoken = (one.token for one in symbols(sentence.tokens, self._named) if one.extra is not None)
                noun = next(spoken, noun)
            if self._named.pause and tells_pause(sentence, self._named):
                self.pauses.append(given.tokens)
                continue
            more = self._group[at + 1 :]
            defined = definition_of(sentence, more, self.below_from(at), self._named)
            if defined is not None:
                self.definitions.append(defined)
                self._defined.append((len(self._play.items), defined.extra, sentence))
                skip = at + defined.taken
                continue
            if form := form_of(sentence, self._named):
                self.forms.append(form)
                continue
            if (changed := change_in(sentence, more, self._play, self._named)) is not None:
                self.changes.append(changed[0])
                skip = at + changed[1]
                continue
            self.beside.append((at, sentence))
            if at and _asks_on(self._group[at - 1]):
                # The answer to a question goes on with the play.
                self._play.listed = False
            self._sentence(sentence)
        if self._column and len(self._play.items) >= _LIST:
            put_in_column(self._play, self._defined)
        return self._play

    @property
    def play(self) -> Play:
        """The play that the paragraph tells."""
        return self._play

    @property
    def sentences(self) -> Sequence[Sentence]:
        """Its sentences."""
        return self._group

    def remarks(self, play: Play) -> None:
        """Read the sentences as remarks beside a play that another paragraph tells."""
        self._play, before = play, len(play.left)
        for sentence in self._group:
            changed = any(one.tokens[: len(sentence.tokens) - 1] == sentence.tokens[:-1] for one in self.changes)
            if sentence.tokens in play.used or changed:
                continue
            given = symbols(sentence.tokens, self._named)
            at, _ = self._steps(given)
            text = text_of(given).text
            # What names its extra is told by that line as it stands.
            named = any(one.extra is not None for one in given)
            amid = not _AT_LAST.search(text) or self._amid(text)
            if at == len(given) or named or amid or form_of(sentence, self._named):
                continue
            if definition_of(sentence, (), lambda _: None, self._named) is None:
                self._remark(sentence, given)
        del play.left[before:]

    def below_from(self, at: int) -> Below:
        """Return what gives the lines below a sentence of the paragraph and below those after it."""
        return lambda more: self.below(at + more)

    def below(self, at: int) -> Line | None:
        """Return the line below a sentence of the paragraph."""
        if at >= len(self._group):
            return None
        place = self._group[at].place
        last = self._group[at].tokens[-1].line
        for line in self._lines[place + 1 : place + 4]:
            if line.number > last:
                return line if line.number <= last + 2 else None
        return None

    def _sentence(self, sentence: Sentence) -> None:
        given = symbols(sentence.tokens, self._named)
        if sentence.alone and self._is_labelled(sentence):
            # "ACT THREE: A as far as the end of A2, then B" under "ACT ONE: A, B".
            given = given[[one.text for one in given].index(":") + 1 :]
        naming = behind_naming(sentence.tokens, self._named)
        given = tuple(one for one in given if one.after > naming)
        if not any(one.token.kind == "word" for one in given):
            return
        given = tuple(behind_sum(given))
        if sums_up(given, [symbols(one.tokens, self._named) for one in self._group if one is not sentence]):
            return
        before, cuts = tuple(self._play.items), [item.cut for item in self._play.items]
        if not SUM.match(text_of(given).text):
            self._tell(sentence, given)
        known = {id(item) for item in before}
        kept = [id(item) for item in self._play.items if id(item) in known]
        changed = [item.cut for item in before] != cuts or kept != [id(item) for item in before]
        text = text_of(plainer(without_doubles(given)))
        self.accounts.append(Account(sentence.tokens, text, before, tuple(self._play.items), changed))

    def _tell(self, sentence: Sentence, given: Sequence[Symbol]) -> None:
        """Read a sentence as one of lists."""
        if (
            only_names_parts(given)
            or only_calls_parts(given, self._named)
            or (self._named.sung and (only_gives_names(given) or only_in_general(given)))
        ):
            return
        if self._play.items and pair_again(given) and self._again_both():
            self._play.lines.add(sentence.place)
            return
        if self._last_told and (times := times_of_it(given)):
            self._play.repeat(len(self._play.items) - self._last_told, times)
            self._play.lines.add(sentence.place)
            return
        given = with_holds(with_pairs(without_labels(behind_names(given), self._named)), self._named)
        given, bracketed = without_bracketed(given, opens_steps)
        if self._tells_no_play(sentence, given):
            return
        text = text_of(given)
        listed = self._lists(given)
        if listed and not self._play.listed and not goes_on(text.text) and self._begins_anew(given):
            self._play = Play()
        apart = not (self._column and sentence.alone)
        if self._play.listed and apart and goes_on_with(text.text, self._play, self._told, self._named):
            self._play.listed = False
        plain = not sentence.alone and only_items(given)
        if self._play.listed and not (listed or plain or (sentence.alone and self._in_column(sentence))):
            self._remark(sentence, given)
            return
        at, first = self._steps(given)
        before = len(self._play.items)
        noise = self._clauses(given[:at])
        self._take_steps(given, at, first, before, bracketed)
        self._take_rounds(sentence, text.text, before)
        self._judge(sentence, text.text, given, noise, len(self._play.items) - before)

    def _take_steps(self, given: Sequence[Symbol], at: int, first: int, before: int, bracketed: Bodies) -> None:
        """Give the steps that a sentence tells, from `at` on or in brackets, to its items, those from `before` on."""
        items = self._play.items[before:]
        give_bodies(self._play.items, bracketed)
        if at < len(given):
            self._take_body(body_in([one.token for one in given[first:]]), items, given[:at])

    def _take_rounds(self, sentence: Sentence, text: str, before: int) -> None:
        """Dance what a sentence told, the items from `before` on, as often as it says or the one before it."""
        if len(self._play.items) - before > 1 and (times := rounds_told(text, self._before(sentence))):
            self._play.repeat(before, times)

    def _tells_no_play(self, sentence: Sentence, given: Sequence[Symbol]) -> bool:
        """Take a sentence that tells lengths and labels, and none of the order."""
        if takes_counts(self._play, given, self._named):
            self._play.lines.add(sentence.place)
            return True
        return tells_lengths(given, self._named) or tells_labels(given) or only_waits(given, self._play)

    def _before(self, sentence: Sentence) -> str:
        """The words of the sentence before one, as symbols."""
        at = next((at for at, one in enumerate(self._group) if one is sentence), 0)
        return text_of(symbols(self._group[at - 1].tokens, self._named)).text if at else ""

    def _clauses(self, given: Sequence[Symbol]) -> int:
        """Read the clauses of a sentence; return how many words in them mean nothing to the play."""
        noise, told = 0, self._last_told
        for clause in clauses(given):
            if pair_again(clause) and self._again_both():
                told = _PAIR
                continue
            if told and (times := times_of_it(clause)):
                self._play.repeat(len(self._play.items) - told, times)
                continue
            before = len(self._play.items)
            reader = SentenceReader(text_of(clause), self._play, self._named)
            reader.read()
            noise += reader.noise
            told = len(self._play.items) - before or told
        return noise

    def _again_both(self) -> bool:
        """Dance the two parts once more that were told last, one after the other; return whether there are two."""
        parts = [at for at, item in enumerate(self._play.items) if item.part >= 0][-_PAIR:]
        pair = [self._play.items[at].again() for at in parts]
        if len(pair) < _PAIR or parts[1] != parts[0] + 1 or pair[0].part == pair[1].part:
            return False
        self._play.items += pair
        return True

    def _judge(self, sentence: Sentence, text: str, given: Sequence[Symbol], noise: int, told: int) -> None:
        """Keep what kind of sentence it was, and what is left of it."""
        play = self._play
        if told:
            self._last_told = told
            self._column &= self._in_column(sentence)
            self._told.append(sentence)
            play.lines.add(sentence.place)
            play.noise += noise
            first = next((at for at, one in enumerate(given) if one.part >= 0 or one.extra), 0)
            play.labelled |= is_label(text_of(given[:first]).text)
            play.listed |= self._lists(given)
            led = [one.text for one in given[max(first - 2, 0) : first] if one.text != "|"]
            play.closed |= play.listed and led[-1:] in ([":"], ["="]) and not HEADED.match(text)
            return
        words = text.split()
        last = play.items[-1] if play.items else None
        if not play.listed and last is not None and last.part >= 0 and last.cut is None and words[0] in _GOES_ON:
            last.cut = cut_in(text, last.part, self._named)
        if play.items:
            play.left.append(sentence.tokens)

    def _lists(self, given: Sequence[Symbol]) -> bool:
        """Whether a sentence is a plain list of parts and extras."""
        fresh = Play()
        first = next((at for at, one in enumerate(given) if one.part >= 0 or one.extra), len(given))
        at, _ = self._steps(given)
        reader = SentenceReader(text_of(given[:at]), fresh, self._named)
        reader.read()
        head = text_of(given[:first]).text
        opens = first <= 1 or given[first - 1].text in (":", "(", ".", "-", "|") or is_label(head)
        pure = reader.noise <= len(fresh.items) / 2 and not reader.mentions
        return opens and pure and len(fresh.items) >= _LIST

    def _begins_anew(self, given: Sequence[Symbol]) -> bool:
        """Whether a list tells all that is danced: what named parts before it was no play."""
        items = sum(one.part >= 0 or one.extra is not None for one in given)
        first = next(at for at, one in enumerate(given) if one.part >= 0 or one.extra)
        colon = first > 0 and given[first - 1].text == ":"
        labelled = colon and is_label(text_of(given[:first]).text) and not self._play.labelled
        return labelled or (not self._column and (colon or items >= max(2 * len(self._play.items), _LIST + 1)))

    def _in_column(self, sentence: Sentence) -> bool:
        """Whether a line is one of a list of lines: nothing but an item or two, like the line before."""
        given = symbols(sentence.tokens, self._named)
        items = sum(one.part >= 0 or one.extra is not None for one in given)
        if items and sentence.alone and self._is_labelled(sentence):
            return True
        if items and sentence.alone and self._column and self._told and _opens_a_row(given):
            return True
        return (
            bool(items)
            and len(given) <= 4 * items + 4
            and sentence.alone
            and len(self._group) > 1
            and not (sum(one.token.kind == "word" and one.part < 0 and one.extra is None for one in given) > 3)
        )

    def _is_labelled(self, sentence: Sentence) -> bool:
        """Whether a line is labelled by the word that labels one above it which tells items."""
        return goes_on_labelled(sentence, self._told)

    def _remark(self, sentence: Sentence, given: Sequence[Symbol]) -> None:
        """Take a sentence that stands beside a list: it may tell the steps of an ending."""
        at, first = self._steps(given)
        text = text_of(given).text
        if any(one.extra is not None and one.extra.kind != "ending" for one in given[:at]):
            self._play.left.append(sentence.tokens)
            return
        closes = _CLOSES.search(text) and not AS_CHANGE.search(text)
        if at < len(given) and closes and not self._amid(text):
            spoken = [one.extra for one in given[:at] if one.extra is not None]
            if not spoken and any(item.extra is not None and item.extra.kind == "ending" for item in self._play.items):
                self._play.left.append(sentence.tokens)
                return
            self._take_body(body_in([one.token for one in given[first:]]), [], given[:at])
            self._play.used.append(sentence.tokens)
            return
        self._play.left.append(sentence.tokens)

    def _amid(self, text: str) -> bool:
        """Whether words place something behind a pass of a part after which the play goes on: "after the first B"."""
        behind = re.search(r"\b(?:after|behind) the #(\d+) @(\d+)", text)
        parts = [item.part for item in self._play.items if item.part >= 0]
        if behind is None or int(behind[2]) not in parts:
            return False
        return int(behind[1]) < parts.count(int(behind[2])) or parts[-1] != int(behind[2])

    def _steps(self, given: Sequence[Symbol]) -> tuple[int, int]:
        """Where in a sentence of the play steps are told, and where they begin; its length twice: nowhere."""
        return steps_within(given, self._play.items, self._named)

    def _take_body(self, body: tuple[Token, ...], items: Sequence[Told], lead: Sequence[Symbol]) -> None:
        """Give steps told in a sentence to the extra that it names, or to one without a name."""
        if not body or not self._play.items:
            return
        body = without_lost_bracket(body)
        if {token.low for token in body if token.kind == "word"} <= {"home", "and"}:
            # "Then B, B, and home."
            return
        named = [item for item in items if item.extra is not None]
        if named:
            for item in self._play.items:
                if item.extra == named[-1].extra:
                    item.body, item.counts = body, length_told(lead)
            return
        spoken = [one.extra for one in lead if one.extra is not None]
        match = next((item for item in reversed(self._play.items) if item.extra in spoken and spoken), None)
        if match is None:
            match = Told(body[0], extra=Extra("ending", own=("body", str(len(self._play.items)))))
            self._play.items.append(match)
        match.body = body
