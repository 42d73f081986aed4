"""One paragraph of a sheet as a story of the play, read clause by clause."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.closing_steps import closing_steps, placed_at
from trainer.sheet.prose.plays.paragraphs import Sentence
from trainer.sheet.prose.plays.standing import with_holds
from trainer.sheet.prose.plays.steps_within import opens_steps
from trainer.sheet.prose.plays.story import StoryReader
from trainer.sheet.prose.plays.story_names import without_doubles
from trainer.sheet.prose.plays.story_rounds import by_turns, left_out
from trainer.sheet.prose.plays.story_words import plainer
from trainer.sheet.prose.plays.sung import only_gives_names, only_in_general
from trainer.sheet.prose.plays.symbols import Symbol, symbols, text_of
from trainer.sheet.prose.plays.tale import Paragraph
from trainer.sheet.prose.plays.told_beside import with_apposed, without_bracketed, without_labels
from trainer.sheet.prose.plays.told_items import Play, Told

_LEAVES_OUT = re.compile(r"(?:[:,;] )?(?:leave out|leaving out|omit|skip)\b")
_FALL_AWAY = re.compile(
    r"\b(?:falls?|drops?) (?:away|out)\b|\b(?:is|are|being) (?:left out|omitted|dropped|skipped|missing)\b"
)
_WHEN_DONE = re.compile(
    r"^(?:(?:and|so|but|then) )*(?:when|once|after|as soon as) .* (?:done|over|finished|through|danced) ,"
)
"""How a sentence begins that tells steps between two parts: "When the third pair is done, you step R to the side"."""
_IN_A_GAP = re.compile(
    r"^(?:(?:and|so|but|then) )*(?:at (?:that|this) (?:point|place|moment)|here|there|now|in (?:that|this) "
    r"(?:gap|pause|break|silence|hole)|to fill (?:it|that|the))\b|"
    r"\b(?:stops?|pauses?|waits?|rests?|falls? silent|goes? quiet|breaks? off|drops? out|is (?:quiet|silent|alone))"
    r"(?: for)?(?: \w+)? \d (?:\w+ )?(?:beats|counts)\b|"
    r"\bthere (?:are|is|come|follow) (?:\w+ )?\d (?:\w+ )?(?:counts|beats)\b|"
    r"\b(?:come|comes|follow|follows|lie|lies|stand|stands|are|is|have|has|get|leaves?|gives?|grants?|waiting for|"
    r"(?:throws?|puts?) in|adds?) (?:(?:us|you|another|yet|still|the|just|only|left|over) )*\d "
    r"(?:(?!of\b)[a-z]+ )?(?:counts?|beats?)\b(?! (?:long|each|shorter|longer|only|in all))|"
    r"^(?:(?:and|so|but|then|now) )*(?:the )?\d (?:[a-z]+ ){0,2}(?:counts|beats) (?:(?:are|is|still) )*(?:follow|come|"
    r"stand|remain|left|over|lie|hang|belong|now|spare)"
)
"""Where steps come that have no name: "at that point the piano plays alone, and we walk forward"."""
_SPEAKS_OF_SONG = re.compile(
    r"^(?:in|for) (?:this|the|our) (?:dance|song|tune) "
    r"(?:(?:we|you) (?:have|find|hear)|there (?:is|are))\b(?!.*\b(?:after|then|twice|times)\b)"
)
"""What parts there are at all: "in this dance we have the verse, that is A, and the chorus"."""
_ONLY_NAMES = re.compile(
    r"^(?:(?:the|our|your|parts?|of) )*@\d (?:and|&|\+|,|/|or) (?:the |part )?@\d(?: (?:and|,) (?:(?:the|"
    r"a) )?[$\w]\S*)?$|"
    r"^(?:the )?(?:order|sequence|play|phrasing|pattern|structure|parts|running order)\b"
    r"(?: (?:of|the|dance|parts|in|,|with|and|only|just|a|an|1|2|3|short|half|cut|shortened|every|"
    r"last))* (?:@\d(?: and @\d)?|\$\S+)$"
)
_BY = re.compile(r"@\d by @\d$")


_HOW_MANY = re.compile(r"\bhow many\b.*\?$")
_COMES_NOW = re.compile(r"^(?:and |so |but )*(?:now|then|next|here|there)\b")
"""How an extra is told that comes where it is defined: "Now the tag, four counts: rock right ..."."""


class StoryParagraph(Paragraph):
    """Reads one paragraph: its definitions first, then what is left as a story."""

    def read(self) -> Play:
        """Return the play that the paragraph tells, with the extras that come where their steps are told."""
        super().read()
        told = {item.extra for item in self._play.items}
        for at, extra, sentence in reversed(self._defined):
            if at and extra not in told and _COMES_NOW.match(text_of(symbols(sentence.tokens, self._named)).text):
                self._play.items.insert(at, Told(sentence.tokens[0], extra=extra))
                self._play.lines.add(sentence.place)
        return self._play

    def _tell(self, sentence: Sentence, given: Sequence[Symbol]) -> None:
        """Read a sentence as one of a story."""
        given = with_holds(without_labels(plainer(without_doubles(given)), self._named), self._named)
        if _heads(sentence, given, self._play.items) or (
            not self._play.items and _SPEAKS_OF_SONG.search(text_of(given).text)
        ):
            if any(one.extra is not None for one in given):
                # It is no heading of an extra: "Sequence with tag".
                self._play.lines.add(sentence.place)
            return
        if self._named.sung and (only_gives_names(given) or only_in_general(given)):
            return
        given, bracketed = without_bracketed(with_apposed(given, opens_steps), opens_steps)
        if _HOW_MANY.search(text_of(given).text):
            return
        if self._tells_no_play(sentence, given):
            return
        at, first = self._steps(given)
        if left_out(text_of(given), self._play):
            self._play.lines.add(sentence.place)
            return
        done = _WHEN_DONE.match(text_of(given).text)
        apart = done is not None and "@" not in text_of(given).text[done.end() :]
        place = placed_at(given, self._play)
        apart = apart or place is not None or _IN_A_GAP.search(text_of(given).text) is not None
        begun = bool(self._play.items) or any(one.part >= 0 for one in given)
        if at == len(given) and begun and (apart or self._is_last(sentence)):
            at, first = closing_steps(given)
        if _LEAVES_OUT.match(text_of(given[at:]).text) or _FALL_AWAY.search(text_of(given[at:]).text):
            # "Leave out the stomps and the claps".
            at = first = len(given)
        before = len(self._play.items)
        named = any(one.extra is not None for one in given[:at])
        spoken = at < len(given) and place is not None and place[1] and not named
        StoryReader(text_of(given[: 0 if spoken else at]), self._play, self._named).read()
        self._take_steps(given, at, first, before, bracketed)
        self._take_rounds(sentence, text_of(given).text, before)
        told = len(self._play.items) - before
        if told == 1 and self._play.items[-1].body and place is not None:
            self._play.items.insert(place[0], self._play.items.pop())
        self._judge(sentence, text_of(given).text, given, 0, told)
        if not told and not before and any(one.extra is not None for one in given):
            # It may say where an extra comes in the play that is told below.
            self._play.left.append(sentence.tokens)

    def _lists(self, given: Sequence[Symbol]) -> bool:
        """Whether a sentence is a plain list; two parts told by turns are part of a story."""
        text = text_of(given)
        return super()._lists(given) and not by_turns(text, Around(text, self._named), Play())

    def _is_last(self, sentence: Sentence) -> bool:
        """Whether no sentence behind one names a part."""
        at = next(at for at, one in enumerate(self._group) if one is sentence)
        behind = (one for later in self._group[at + 1 :] for one in symbols(later.tokens, self._named))
        return all(one.part < 0 for one in behind)


def _heads(sentence: Sentence, given: Sequence[Symbol], told: Sequence[Told]) -> bool:
    """Whether a line only heads the play: "The order, verse by verse", "VERSES AND CHORUSES" before all else."""
    text = text_of(given).text
    heads = bool(_BY.search(text)) or (not told and bool(_ONLY_NAMES.match(text)))
    return sentence.alone and given[-1].text not in (".", "!", "?", ")") and heads
