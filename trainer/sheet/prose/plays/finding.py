"""The play of a sheet among its paragraphs: the one that tells the longest order of its parts and extras."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from trainer.sheet.prose.plays.changes import Change, changed_passes
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.definitions import Definition, Form
from trainer.sheet.prose.plays.paragraphs import Sentence, paragraphs, speaks_of_steps
from trainer.sheet.prose.plays.placing import placed
from trainer.sheet.prose.plays.shapes import glued
from trainer.sheet.prose.plays.steps_within import steps_within
from trainer.sheet.prose.plays.story_account import Account
from trainer.sheet.prose.plays.story_names import behind_naming
from trainer.sheet.prose.plays.story_stanzas import STANZA
from trainer.sheet.prose.plays.story_tale import StoryParagraph
from trainer.sheet.prose.plays.story_words import told_once
from trainer.sheet.prose.plays.sung import SONG_NAMES
from trainer.sheet.prose.plays.symbols import Named, Symbol, symbols, text_of
from trainer.sheet.prose.plays.tale import Paragraph
from trainer.sheet.prose.plays.told_items import Play, Told, worth
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token


@dataclass(slots=True)
class Found:
    """The play and what is defined around it."""

    play: Play
    definitions: list[Definition] = field(default_factory=list)
    forms: list[Form] = field(default_factory=list)
    pauses: list[tuple[Token, ...]] = field(default_factory=list)
    """Sentences that only say how long nobody dances."""
    accounts: list[Account] = field(default_factory=list)
    """What each sentence did to the play, where it is told as a story."""
    story: bool = False
    """It was read as a story, and not as lists are."""
    changes: list[tuple[Change, int]] = field(default_factory=list)
    """What single passes dance otherwise, each with the number of its pass."""
    sentences: list[Sentence] = field(default_factory=list)
    """All of them, for what is said of a marked part elsewhere."""


def found_in(lines: Sequence[Line], named: Named) -> Found:
    """Return the play that some lines tell, its marked parts cut as the sheet says elsewhere."""
    best = Found(Play())
    definitions: list[Definition] = []
    forms: list[Form] = []
    pauses: list[tuple[Token, ...]] = []
    everything: list[Sentence] = []
    groups: list[Paragraph] = []
    for group in paragraphs(lines, named.parts):
        reader = _read(group, lines, named)
        play = reader.play
        definitions += reader.definitions
        forms += reader.forms
        pauses += reader.pauses
        everything += group
        groups.append(reader)
        if worth(play) > worth(best.play):
            best = Found(
                play,
                accounts=list(reader.accounts) if _is_prose(group) else [],
                story=isinstance(reader, StoryParagraph),
            )
    best.definitions, best.forms, best.pauses, best.sentences = definitions, forms, pauses, everything
    if best.accounts:
        _drop_finishes(best)
    _settle_marks(best, named)
    own = next((group.changes for group in groups if group.play is best.play), [])
    changes = [one for group in groups for one in group.changes]
    best.changes = list(changed_passes(changes, best.play, own))
    if best.play.items:
        _place_extras(best, groups, named)
    if best.play.listed:
        _take_endings(best, groups)
    _stop_in_the_last(best, named)
    return best


def _drop_finishes(found: Found) -> None:
    """Take a word for the finish out of a play told in sentences, where no steps are told of it: "Finish."."""
    defined = any(one.extra.kind == "ending" for one in found.definitions)
    items = found.play.items
    told = any(item.body for item in items if item.extra is not None and item.extra.kind == "ending")
    if not defined and not told:
        items[:] = [item for item in items if not (item.extra is not None and item.token.low in _FINISHES)]


_FINISHES = {"finish", "finale", "end", "curtain", "close"}


def _read(group: Sequence[Sentence], lines: Sequence[Line], named: Named) -> Paragraph:
    """Read a paragraph: as a story where it is told in sentences and holds no list, else as lists are read."""
    if _is_prose(group) and not _labels(group, named) and not _holds_a_list(group, named):
        told: Paragraph = StoryParagraph(group, lines, named)
        if len(told.read().parts) > 1:
            return told
    reader = Paragraph(group, lines, named)
    reader.read()
    return reader


_SENTENCES = 2


def _is_prose(group: Sequence[Sentence]) -> bool:
    """Whether a paragraph is told in sentences."""
    closed = sum(one.tokens[-1].text in (".", "!", "?", '"') for one in group)
    return closed >= _SENTENCES and 2 * closed >= len(group)


def _holds_a_list(group: Sequence[Sentence], named: Named) -> bool:
    """Whether one of some sentences is a plain list, and none that goes on with what those before it told."""
    told = False
    for sentence in group:
        given = symbols(sentence.tokens, named)
        if _lists_only(sentence, named) and not (told and _tells_on(given)):
            return True
        told |= sum(one.part >= 0 for one in given) > 0 and sentence.tokens[-1].text != ":"
    return False


def _tells_on(given: Sequence[Symbol]) -> bool:
    """Whether a sentence opens as one that tells what comes next: "Then", "Third time through:"."""
    return given[0].text in _GOES_ON or given[0].text.startswith("#") or (len(given) > 1 and given[1].text[0] == "#")


def _lists_only(sentence: Sentence, named: Named) -> bool:
    """Whether a sentence holds a plain list: "Order: A, A, B, Tag, A"."""
    naming = behind_naming(sentence.tokens, named)
    given = [one for one in symbols(sentence.tokens, named) if one.after > naming]
    if not given or (given[0].text in _GOES_ON and not any(one.text == ":" for one in given)):
        return False
    if _TIMES_OF.search(text_of(given).text):
        return True
    colon = next((at for at, one in enumerate(given) if one.text == ":"), -1)
    rest = [
        one
        for one in given[colon + 1 :]
        if one.text not in (".", "!", ",", "(", ")", "|", "-", "*", "and", "then", "the")
    ]
    items = sum(one.part >= 0 or one.extra is not None for one in rest)
    numbers = sum(one.text.isdecimal() or one.text in ("x", "times", "twice", "counts") for one in rest)
    first = next((at for at, one in enumerate(given) if one.part >= 0 or one.extra is not None), 0)
    words = [one for one in given[first:] if one.token.kind == "word" and one.part < 0 and one.extra is None]
    long = [one.part >= 0 or one.extra is not None for one in given].count(True) >= _LONG
    return (items >= _LISTED and items + numbers >= len(rest)) or (long and len(words) < items)


_TIMES_OF = re.compile(
    r"(?:\b(?:\d+ (?:times|x|rounds of|x of)|twice|thrice)|\bthe pair) (?:the pair |\( )?@\d (?:[,+&] )?@\d|"
    r"@\d @\d (?:@\d )*(?:twice|\d times|thrice)"
)
"""A run of letters told so often: "Three times A A B"."""
_GOES_ON = {"then", "next", "now", "finally", "after", "lastly", "first", "#1", "afterwards", "and"}
"""Open a sentence that tells what comes next."""
_LONG = 5
"""Items of a list in which some words more may stand."""
_LISTED = 3
_LABELS = 2


def _labels(group: Sequence[Sentence], named: Named) -> bool:
    """Whether parts go by their letters beside words of the song: "When she sings the first verse do A two times"."""
    letters = labels = 0
    for sentence in group:
        naming = behind_naming(sentence.tokens, named)
        given = told_once([one for one in symbols(sentence.tokens, named) if one.after > naming])
        letters += sum(
            one.part >= 0 and len(one.token.text) == 1 and not glued(given, at) for at, one in enumerate(given)
        )
        # "Verse three is the odd one" comes to a verse of the song; "the first verse is a whole A" labels it.
        text = text_of(given).text
        comes = STANZA.match(text) is not None and not _IS_A_PART.search(text)
        labels += sum(one.token.low in SONG_NAMES for one in given) - comes
    return letters > _LABELS and labels >= _LABELS


_IS_A_PART = re.compile(
    r"^\S+(?: \S+){0,4}? (?:is|has|brings|gets|are) (?:(?:a|the|whole|full|another|again|just|part) )*@"
)
_STOPS = re.compile(r"\b(?:stops?|ends?|ended|finish(?:es)?|over|fades?|leave|breaks? off|only|cut)\b")


def _stop_in_the_last(found: Found, named: Named) -> None:
    """Cut the last part of the play where a sentence apart from it says where it stops: "the last A ends on count 12".

    Steps told there are those of an ending, which is read where it stands.
    """
    last = found.play.items[-1] if found.play.items else None
    if last is None or last.part < 0 or last.cut is not None or not found.play.listed:
        return
    for sentence, after in zip(found.sentences, (*found.sentences[1:], None), strict=True):
        given = symbols(sentence.tokens, named)
        text = text_of(given)
        if sentence.tokens[-1].text == ":" or (after is not None and any(map(speaks_of_steps, after.tokens))):
            continue
        name = re.search(rf"\b(?:last|final) (?:part )?@{last.part}\b", text.text)
        if name is None or (sentence.place in found.play.lines and sentence.tokens not in found.play.left):
            continue
        several = any(one.extra is not None or one.part not in (-1, last.part) for one in given)
        if several or not _STOPS.search(text.text) or steps_within(given, found.play.items, named)[0] < len(given):
            continue
        cut = cut_in(text.text[name.end() :], last.part, named)
        if cut is not None:
            last.cut = cut
            found.play.used.append(sentence.tokens)
            return


def _place_extras(found: Found, groups: Sequence[Paragraph], named: Named) -> None:
    """Take what sentences apart from the play say of where its extras are danced, and how."""
    for group in groups:
        for at, sentence in group.beside:
            inside = group.play is found.play
            if sentence.tokens in found.play.used or (inside and sentence.tokens not in found.play.left):
                continue
            apart = placed(group.sentences, at, group.below_from(at), found.play, named)
            if apart is None:
                continue
            found.definitions += [apart.definition] if apart.definition is not None else []
            told = [one.tokens for one in apart.sentences]
            found.play.used += told
            found.play.left = [tokens for tokens in found.play.left if tokens not in told]


def _take_endings(found: Found, groups: Sequence[Paragraph]) -> None:
    """Take an ending that another paragraph tells: "Dance the last A to its end, then add: ..."."""
    for group in groups:
        if group.play is not found.play:
            group.remarks(found.play)


def _settle_marks(found: Found, named: Named) -> None:
    """Cut the marked parts of the play as the sheet says apart from it."""
    for item in found.play.items:
        if not item.mark or item.part < 0 or item.cut is not None:
            continue
        told = [
            form.cut
            for form in found.forms
            if form.part in (item.part, -1) and form.cut is not None and form.mark in (item.mark, "")
        ]
        item.cut = told[0] if told else _said_elsewhere(found, item, named)


def _said_elsewhere(found: Found, item: Told, named: Named) -> int | None:
    """Search the sentences that speak of a marked part for how much of it is danced."""
    pattern = r"\bsmall|\blower|\blittle" if item.mark == "small" else r"\bshort|\bcut\b"
    pattern = pattern if item.mark in ("short", "small") else r"\bstar|\basterisk|\bmark|\bthis @|\bminus|\bdash|^\* "
    number = sum(one.part == item.part for one in found.play.items[: found.play.items.index(item) + 1])
    pattern += rf"|#{number} @{item.part}\b|^restart"
    for sentence in found.sentences:
        if sentence.place in found.play.lines and not any(
            one.tokens == sentence.tokens and one.idle for one in found.accounts
        ):
            continue
        text = text_of(symbols(sentence.tokens, named)).text
        if re.search(pattern, text) and not re.search(r"\$", text):
            cut = cut_in(text, item.part, named)
            if cut is not None:
                found.play.used.append(sentence.tokens)
                return cut
    return None
