"""Steps with which the last sentence of a story closes the dance: "... one more B, and there stomp the R once"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.paragraphs import speaks_of_steps
from trainer.sheet.prose.plays.shapes import glued
from trainer.sheet.prose.plays.story_clauses import clauses_of
from trainer.sheet.prose.plays.symbols import Symbol, Text, text_of
from trainer.sheet.prose.plays.told_items import Play

_TO_CLOSE = "to close"
_COMMANDS = {
    "step", "stomp", "stamp", "clap", "turn", "cross", "touch", "tap", "point", "rock", "sway", "kick", "sweep",
    "pivot", "walk", "slide", "unwind", "pose", "hold", "hitch", "drag", "draw", "close", "bring", "swivel",
    "bump", "roll",
}  # fmt: skip
"""Words with which a step is called for; "back" or "home" alone is none."""
_LEAD = {
    "and", "then", "so", "but", "there", "here", "at", "last", "finally", "lastly", "we", "you", "i", "they", "all",
    "everybody", "everyone", "just", "only", "now", "simply", "must", "also", "do", "add", "take", "make", "a", "an",
    "one", "1", "2", "3", "4", "by", "with", "once", "more", "the", "your", "our", "quick", "single", "finish", "end",
    "counts", "beats", "to", "namely", "them", "use", "both", "foot", "stand", "viz", "which", "as", "follows",
    "on", "beat", "count", "next", "following", "very", "after", "it", "that", "r", "l",
    "right", "left", "quarter", "half", "in", "its", "place", "instead", "of", "extra", "there's", "are", "is",
}  # fmt: skip
"""What may stand before it in its clause."""
_ALONE = {"clap", "stomp", "stamp"}
"""They need no foot."""
_SHORT = 4
"""Symbols of a clause that says no more: "clap once"."""
_NOT_DANCED = {"not", "no", "never", "don't", "nobody", "without", "which", "that", "who", "because", "if", "when"}
_ASIDE = {"where", "which", "while", "when", "because", "if"}
"""They open a clause that only says what is danced elsewhere."""
_ITS_OWN = {"r", "l", "right", "left", "a", "an", "quarter", "half", "1", "2", "3", "4"}
"""What belongs to a step told behind it."""
_WHICH = {"the", "last", "final", "that", "very"}
_UNITS = {"counts", "beats"}
"""Behind these "where" says what is danced on them: "four extra counts where we sway"."""
_FEW = 2


def _is_behind(given: Sequence[Symbol], at: int) -> bool:
    """Whether a part is only named for when the steps come: "stomp R on the first count after the last B"."""
    lead = [one.text for one in given[:at] if one.text not in _WHICH and one.text[0] != "#"]
    return lead[-1:] in (["after"], ["behind"], ["following"], ["before"]) and any(
        one.text in _COMMANDS for one in given[:at]
    )


_PLACE = re.compile(
    r"\b(?P<way>after|behind|following|before)(?: (?:the|that|this|very))* (?:#(?P<number>\d+)|last|"
    r"final|late|lone|single|lonely) @(?P<part>\d)\b"
)
_THE_TIME = re.compile(
    r"\b(?:the|your|our) (?:#(?P<number>\d+)|last|final) time(?: (?:that|when|we|you|one|they|all))* "
    r"(?:have|has|finish|complete|reach the end of|get to the end of|come to the end of|are through|have danced|"
    r"end|close)"
    r"(?: (?!and\b|then\b)[^@$ ,]+){0,3} @(?P<part>\d)\b"
)


def placed_at(given: Sequence[Symbol], play: Play) -> tuple[int, bool] | None:
    """Return before which item steps come that a sentence only puts in a place: "after the very first chorus, ...".

    And whether all that is named before the steps only says where they come.
    """
    text = text_of(given).text
    found, way = _PLACE.search(text), ""
    if found is not None:
        way = found["way"]
    else:
        found = _THE_TIME.search(text)
    if found is None:
        return None
    at = play.nth(int(found["part"]), int(found["number"]) if found["number"] else None)
    return None if at is None else (at + (way != "before"), "@" not in text[: found.start()])


_MUSIC_OVER = re.compile(
    r"^(?:(?:and|so|but|then|just|right|finally) )*(?:as|when|while|once|on|with|at|the (?:very )?(?:moment|instant|"
    r"second))"
    r"(?: (?!step|stomp|stamp)[a-z'-]+){0,5}? "
    r"(?:note|chord|music|song|band|fiddle|drum|beat|tune|singer|guitar|piano|cymbal|bell|word|voice)s?"
    r"(?: (?:has|have|is|are|finally|itself|just|still|dies|dying|fades?|sounds?|sounding|rings?|ringing|stops?|"
    r"stopped|ends?|ended|dead|away|out|off|down|over|gone|falls|fallen|silent|hits?|comes?|plays?|played|lands?|closes?|"
    r"finish(?:es|ed)?|crash(?:es)?))+(?: (?:you|we|all))?(?= )"
)
"""When the last steps come: "as the last note sounds stamp your right foot forward"."""


def _music_over(text: Text) -> int:
    """How many symbols of a clause only say that the music ends before its steps."""
    match = _MUSIC_OVER.match(text.text)
    return match[0].count(" ") + 1 if match else 0


def _calls(given: Sequence[Symbol], at: int) -> bool:
    """Whether a word calls for a step: "step right forward", "the right foot steps forward"."""
    word, before = given[at].text, given[at - 1].text if at else ""
    return word in _COMMANDS or (word.removesuffix("s") in _COMMANDS and before in ("foot", "r", "l", "right", "left"))


def _on_its_counts(given: Sequence[Symbol], first: int) -> bool:
    """Whether a clause tells what is danced on counts just told: "two beats that stand alone, in which you step"."""
    led = given[first - 2].text if first > 1 else ""
    counted = any(one.text in _UNITS for one in given[:first])
    return _word_before(given, first - 2) in _UNITS or (led in _LED_BY and given[first - 1].text == "which" and counted)


_LED_BY = {"in", "on", "during", "for", "with", "through"}


def _word_before(given: Sequence[Symbol], at: int) -> str:
    """The word at an index, or the one before it where that is a comma."""
    at -= at > 0 and given[at].text == ","
    return given[max(at, 0)].text


def closing_steps(given: Sequence[Symbol]) -> tuple[int, int]:
    """Return where in the last sentence of a story the clause begins whose steps close the dance, and they in it.

    Its length twice: nowhere.
    """
    last = max(
        (at for at, one in enumerate(given) if one.part >= 0 and not glued(given, at) and not _is_behind(given, at)),
        default=-1,
    )
    for first, end in clauses_of(given):
        aside = first > 0 and given[first - 1].text in _ASIDE and not _on_its_counts(given, first)
        if first <= last or aside or any(one.extra is not None for one in given[first:]):
            continue
        begins = first + _music_over(text_of(given[first:end]))
        command = next((at for at in range(begins, end) if given[at].text not in _LEAD), end)
        calls = command < end and _calls(given, command) and _TO_CLOSE not in text_of(given[first:end]).text
        words = [one.token for one in given[first:] if one.token.kind in ("word", "fraction")]
        alone = calls and given[command].text in _ALONE and end - first <= _SHORT
        told = (alone or sum(map(speaks_of_steps, words)) >= _FEW) and not _NOT_DANCED & {
            one.text for one in given[first:end]
        }
        if calls and told:
            while command > begins and given[command - 1].text in _ITS_OWN:
                command -= 1
            return first, command
    return len(given), len(given)
