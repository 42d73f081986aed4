"""Where a sentence of the play tells steps beside its parts: of an extra that it names, or of how the dance ends."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.bodies import mostly_steps
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.paragraphs import speaks_of_steps
from trainer.sheet.prose.plays.shapes import glued
from trainer.sheet.prose.plays.symbols import Named, Symbol, text_of
from trainer.sheet.prose.plays.told_beside import IS_NAMED
from trainer.sheet.prose.plays.told_items import Told

_TRIGGER = re.compile(
    r"(?:^|[,.;:] |and |then |so |but )(?:(?:right |just |only )?at the (?:very )?(?:end|close|finish)"
    r"(?: of (?:it|that|this|that 1|this 1))?"
    r"(?: , after (?:the )?(?:\S+ ){0,2}\S+)?|"
    r"instead(?: of (?:the )?\S+(?: \S+)?)? ?(?=,)|after its \S+ ?(?=,)|"
    r"(?:\S+ ){0,6}at the (?:very )?(?:end|close|finish)(?= ,)|"
    r"to (?:finish|end|close)(?: \w+)?|finally|"
    r"(?:on|with|at|for) the (?:very )?(?:last|final|closing|next|following)"
    r"(?: (?:note|beat|chord|count|word|bar|drum ?beat|crash|stroke|strum|1|one))?|"
    r"on the (?:beat|count|note) (?:after|behind|following) (?:it|that|this)|"
    r"(?:for|as|of|with) (?:(?:the|an?|our|your|its|this) )?(?:\w+ )?\$ending(?: (?:you|we|all|just|there))*|"
    r"\$ending (?:is|goes|will be)(?: (?:to|a|this|that|you|we))*|"
    r"after (?:those|these|this|that|it|which)|"
    r"(?:on the (?:beat|count|note) )?(?:after|behind|following) (?:the|that|this|your) (?:very )?(?:last|final) @\d|"
    r"(?:(?:you|we|they|all|everybody) (?=(?:finish|end|close|conclude)(?: it| off| up| the dance| by| with| on)* $))?"
    r"(?:add|finish|end|close|conclude|do|dance)(?: (?:with|by|on|off|up|the|dance|it|all|this|these))*) ?[,:]* ?"
    r"(?:(?:make|made|do|did|add|added|take|took|comes?|you|we|i|they|there is|on|at) )*$"
)
AS_CHANGE = re.compile(r"\breplace|\binstead\b|\bin place of\b|\bchange|\bdifferent")
_FINISHES = re.compile(r"\$ending|\bfinish(?!ed\b)|\bend\b|\bends\b|\bending\b|\blast\b|\bfinal|\bclos")
_ENDING_IS = re.compile(r"\$ending(?: (?:is|goes|will be|to|a|this|that|you|we|all|just|there))*$")
_UP_TO = re.compile(r"(?:up|down|over) (?:to|till|until|and|as)\b|(?:close|finish|end) (?:the dance|with|by|off)\b")
_JOINED = re.compile(
    r"(?:\d+ )?(?:\( \d+(?: counts?| beats?)? \) )?(?:[,;:(/|>.-] )?"
    r"(?:(?:\+|&|and|plus|with|then|add|finally|lastly|a|one|1|at|the|very|end|last|final|closing|to|finish|close|"
    r"thing|is|comes|for|we|you|big|:|,) )*"
)
"""What may stand between the last part and steps that close the dance: "B + stomp R"."""
_ROOM = {
    "right", "left", "round", "around", "and", "again", "all", "way", "there", "once", "more", "back", "front", "wall",
    "home", "side", "facing", "the", "to", "at", "door", "stage", "window", "is", "face",
    "behind", "it", "them", "that", "this", "straight",
}  # fmt: skip
_IN_THE_ROOM = re.compile(r"^(?:at|to|facing|on|towards|seeing|see) the (?:back|front|left|right|side|home)$")
_NO_STEPS = {"repeat", "repeats", "repeating", "over"}
_DENIES = re.compile(r"\b(?:no|not|without|never|any|nor|skipping|dropping|omitting|leaving out) $")
_DANCERS = {"you", "we", "they", "all", "everybody"}
_THERE = {"there", "here", "then", "where", "and", ",", ";", ":"}
_STEPS_AFTER = {",", ";", ":", ")", "then", "and", "-", "just", "a", "with", "add"}


def steps_within(given: Sequence[Symbol], items: Sequence[Told], named: Named) -> tuple[int, int]:
    """Where in a sentence of the play steps are told, and where they begin; its length twice: nowhere."""
    text = text_of(given)
    last = max((at for at, one in enumerate(given) if one.part >= 0 and not glued(given, at)), default=-1)
    if last >= 0 and (at := _behind_cut(given, last, named)):
        return at, at
    if last >= 0 and (at := _joined_on(given, last, items)):
        return at, at
    for at in range(last + 1, len(given)):
        if not any(speaks_of_steps(one.token) for one in given[at:]):
            break
        denied = given[at + 1 : at + 2] and given[at + 1].text in ("no", "not", "without", "never")
        if given[at].text == ":" and not denied and (items or last >= 0 or at) and opens_steps(given, at + 1):
            return at, at + 1
        if given[at].extra is None and speaks_of_steps(given[at].token) and list(items) + list(given[: last + 1]):
            if _is_of_the_room(given, at):
                continue
            lead = text.of(0, at)
            lead = re.sub(r"(?: (?:a|the|one|1|2|3|4|with|r|l|right|left|foot|your|our|by))+$", "", " " + lead)
            lead = lead.strip() + " "
            if _DENIES.search(lead):
                # "No stomps and no claps" says what is left out.
                continue
            if IS_NAMED.search(lead):
                return at, at - (given[at - 1].text.isdecimal() and given[at - 1].extra is None)
            if _only_names(given, at):
                continue
            if _TRIGGER.search(lead) and (last < 0 or not lead.strip().endswith("after")):
                return at, at
    return len(given), len(given)


def _behind_cut(given: Sequence[Symbol], last: int, named: Named) -> int:
    """Where steps begin behind the cut of the last part; 0: nowhere.

    "The finish: dance A up to the kick (12 counts), step left beside right and clap".
    """
    if not _FINISHES.search(text_of(given).text):
        return 0
    text, depth = text_of(given), 0
    for at in range(last + 1, len(given) - 1):
        depth += {"(": 1, ")": -1}.get(given[at].text, 0)
        led = given[at].text in _STEPS_AFTER or (given[at].text in _DANCERS and given[at - 1].text in _THERE)
        led = led or bool(_ENDING_IS.search(text.of(last + 1, at + 1)))
        begins = speaks_of_steps(given[at + 1].token) and led and not depth
        begins = begins and not _UP_TO.match(text.of(at + 1, at + 4))
        if begins and cut_in(text.of(last + 1, at + 1), given[last].part, named) is not None:
            return at + 1
    return 0


def _joined_on(given: Sequence[Symbol], last: int, items: Sequence[Told]) -> int:
    """Where steps begin that are joined to the last part: "A, B, B + stomp R"; 0: nowhere."""
    text = text_of(given)
    match = _JOINED.match(text.of(last + 1, len(given)))
    at = last + 1 + match[0].count(" ") if match else 0
    several = items or any(one.part >= 0 for one in given[:last])
    if not at or at >= len(given) or not several or not _is_step(given[at]) or _is_of_the_room(given, at):
        return 0
    rest = [one.token for one in given[at:]]
    if all(token.low in _ROOM for token in rest if token.kind == "word"):
        # "2nd A | back wall" says where it is danced.
        return 0
    if _only_names(given, at):
        # "..., B and the pose" only names what is told below.
        return 0
    told = mostly_steps(rest) and not AS_CHANGE.search(text.of(last + 1, len(given)))
    return at if told and not _UP_TO.match(text.of(at, at + 3)) else 0


def _only_names(given: Sequence[Symbol], at: int) -> bool:
    """Whether a sentence ends with one word of steps that only names them: "you end with the touch"."""
    return given[at - 1].text == "the" and sum(one.token.kind == "word" for one in given[at:]) == 1


def _is_of_the_room(given: Sequence[Symbol], at: int) -> bool:
    """Whether a word says where one is, and no step: "at the end of it, at the back, the tag"."""
    return _IN_THE_ROOM.search(text_of(given).of(max(at - 2, 0), at + 1)) is not None


def _is_step(one: Symbol) -> bool:
    return one.extra is None and speaks_of_steps(one.token) and one.text not in _NO_STEPS


def opens_steps(given: Sequence[Symbol], at: int) -> bool:
    """Whether steps come at once: a fair share of the first words."""
    words = [one.token for one in given[at : at + 6] if one.token.kind != "mark"]
    return bool(words) and sum(map(speaks_of_steps, words)) >= 0.3 * len(words)
