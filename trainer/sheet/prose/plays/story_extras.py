"""Where a story puts an extra that it names, if it does not only speak of it."""

import re

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.symbols import Text
from trainer.sheet.prose.plays.told_items import Play, Told

_SPAN = re.compile(
    r"\bbetween (?:(?:the|a|that|your|our|(?P<lone>single|lone|only)|(?P<last>last|final)|"
    r"#(?P<number>\d+)) )*@(?P<one>\d) and "
    r"(?:[^@$ ]+ ){0,3}@(?P<two>\d)"
)
"""Between which two parts an extra comes: "between the single A and the B which follows it"."""
_STAYS = re.compile(
    r"(?:itself )?(?:does not|doesn't|never|has|turns|faces|starts|begins|ends|makes|lasts|always|also faces)\b"
)
"""What an extra that was told is like: "the tag does not turn"."""
_SPOKEN = {
    "no", "without", "before", "every", "each", "not", "never", "any", "after", "following", "behind", "both", "of",
}  # fmt: skip
"""Before an extra that is only spoken of."""
_BEHIND_IT = re.compile(r"\b(?:after|following|behind) (?!(?:it|that|this|which|them|these|those|him|her)\b)[^,]*$")
"""Before an extra that something else comes after; "after it the tag" puts the tag there."""
_IS_A_PART = re.compile(
    r"(?:(?:is|are|comes|makes|:|=|with|,|we|you|dance|do|to) )*(?:(?!after\b|before\b|behind\b|following\b|step|"
    r"stomp)[a-z0-9#]+ ){0,6}@"
)
"""Behind an ending that is a part: "the finish is with another B"."""
_OF_THE_RUN = re.compile(
    r"\b(?:after|following|behind) the (?:#(?P<nth>\d)|last|latter|other|final) "
    r"(?:one )?(?:of (?:them|these|those|the (?:\d|pair))\b)"
)
"""One of the parts just told that an extra comes after: "B twice, and after the second of them comes the tag"."""
_AFTER_EACH = re.compile(
    r"\b(?:each|both)(?: 1| one)? (?:of )?(?:(?:these|those|the|our) )?(?:last )?(?:(?P<many>\d) )?@(?P<part>\d) "
    r"(?:is|are|has|have|gets?|takes?|comes?|brings?)\b"
)
"""Several parts told before each of which an extra follows: "each of these two Bs is followed by a tag"."""
_OPENS = re.compile(
    r"(?:^|[,.;] |\b(?:then|first|we|you|all|everybody|everyone|and|to) )"
    r"(?:dances?|do|opens? with|starts? with|begins? with|open on|start on) "
    r"(?:(?:the|our|a|one) )?$"
)
"""Before a tag that opens the play: "let the band play, then dance the tag once"."""
_THERE_ARE = re.compile(r"^there (?:is|are) (?:a|the|1|2) [^@$]*@\d of \d+ counts\b")
"""Opens a sentence on what there is in the dance: "there is a verse of 32 counts, a chorus and two extras"."""
_TWO = 2
_BEHIND = {"after", "behind", "following"}


def place_of_extra(text: Text, play: Play, around: Around, at: int, begins: int) -> list[int] | None:
    """Return before which items an extra is danced, an empty list: where its sentence says; None: it is spoken of.

    `at` is its index, `begins` where the words begin that belong to it.
    """
    given = text.symbols
    lead, between = around.before(at)
    word = given[lead].text if lead >= 0 else ""
    if word in _BEHIND and between[-1:] in (["that"], ["this"]):
        # "After that the interlude is danced".
        word = ""
    extra = given[at].extra
    told = any(item.extra == extra for item in play.items)
    if extra is None or word in _SPOKEN or (told and _is_told_again(text, at, lead, word)):
        return None
    if re.search(r"\b(?:no|without|not(?! forgetting| to forget)) (?:\w+ ){1,2}$", text.of(begins, at) + " "):
        return None
    if (each := _AFTER_EACH.search(text.of(0, at))) is not None:
        return _behind_the_last(play, int(each["part"]), int(each["many"] or _TWO))
    if (of_them := _OF_THE_RUN.search(text.of(begins, len(given)))) is not None:
        return _in_the_run(play, int(of_them["nth"] or 0))
    if "between" in text.text.split() or _BEHIND_IT.search(text.of(begins, at)):
        return None
    if given[-1].text == "?" or given[at].token.low in ("tags", "bridges", "endings"):
        return None
    if extra.kind == "ending" and _IS_A_PART.match(text.of(at + 1, len(given))):
        return None
    if _THERE_ARE.match(text.text):
        return None
    if not play.items and not extra.own and _OPENS.search(text.of(begins, at) + " "):
        # One that is known by a name of its own may be the danced intro.
        return []
    return None if bool(play.items) == (extra.kind == "intro") else []


def _in_the_run(play: Play, number: int) -> list[int] | None:
    """Return before which item comes what follows one of the parts just told, 0 for the last; None: no such."""
    items = play.items
    run = next((length for length, item in enumerate(reversed(items)) if item.part != items[-1].part), len(items))
    nth = number or run
    return [len(items) - run + nth] if 0 < nth <= run else None


def _behind_the_last(play: Play, part: int, many: int) -> list[int] | None:
    """Return before which items comes what follows each of so many of a part told last; None: so many were not told."""
    places = [at + 1 for at, item in enumerate(play.items) if item.part == part]
    return places[-many:] if len(places) >= many else None


def _is_told_again(text: Text, at: int, lead: int, word: str) -> bool:
    """Whether an extra that was told is only named: "part B follows the tag", "the tag does not turn"."""
    followed = word in ("follows", "follow") and lead > 0 and text.symbols[lead - 1].part >= 0
    stays = _STAYS.match(text.of(at + 1, len(text.symbols))) is not None
    return followed or stays or word in ("in", "during", "the", "this", "that")


def put_between(text: Text, play: Play) -> bool:
    """Put an extra between two parts, where only one such place was told; return whether the sentence does so.

    "The bridge belongs between the single A and the B which follows it."
    """
    found = _SPAN.search(text.text)
    extra = next((one for one in text.symbols if one.extra is not None), None)
    if found is None or extra is None or any(item.extra == extra.extra for item in play.items):
        return False
    parts = [item.part for item in play.items]
    one, two = int(found["one"]), int(found["two"])
    places = [at for at in range(1, len(parts)) if parts[at - 1 : at + 1] == [one, two]]
    if found["lone"]:
        places = [at for at in places if at < 2 or parts[at - 2] != one]
    if found["number"]:
        nth = play.nth(one, int(found["number"]))
        places = [at for at in places if at - 1 == nth]
    places = places[-1:] if found["last"] or len(places) == 1 else []
    for place in places:
        play.items.insert(place, Told(extra.token, extra=extra.extra))
    return bool(places)
