"""The heading before the first count of a section, parted from the words of that count in the same line."""

from collections.abc import Sequence

from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_NAME_OF_EXTRA = 3
"""Tokens in which a sentence that leads on to the steps of an extra names it: "THE ENDING follows the last A: ..."."""
_LED_TO = ("intro", "tag", "bridge")
"""Extras that a longer sentence may lead to: "before the dance proper there is an intro, done once only: sway ..."."""
_LONG_HEAD = 12
"""Tokens of a heading that stands before the first count in its line."""
_SHORT_HEAD = 5
"""Tokens before the comma after a section's name: "Second eight, walk forward"."""
_FEET = {"r", "l", "rf", "lf", "right", "left"}


def head_of(words: list[Token], *, closed: bool = False) -> tuple[list[Token], list[Token]]:
    """Part the heading from words before the first count of a section: "S1:", "FIRST EIGHT: On".

    In a line that is closed by its counts a leader before them parts no heading: "BRIDGE. Rock right ..... 1-2".
    """
    likely = sorted(range(min(len(words), _LONG_HEAD)), key=lambda at: words[at].text not in (":", BREAK))
    for index in likely:
        token = words[index]
        comma = token.text == "," and 0 < index < _SHORT_HEAD and index + 1 < len(words)
        closes = token.text in (")", "]") and index + 1 < len(words)
        if not (comma or closes or token.text in (":", BREAK, "-", ".", ">", "=")):
            continue
        if closed and index == len(words) - 1 and index > _SHORT_HEAD:
            continue
        if _is_open(words[:index]) and token.text not in (")", "]"):
            continue
        if token.text == "." and index and words[index - 1].low in ("no", "nr"):
            continue
        head = words[: index + 1]
        said = any(part.kind in ("word", "number") for part in head)
        if said and is_section_name(head) and not points_back(head) and not (comma and extra_kind(head)):
            if comma and (name := _before_feet(head)):
                return words[:name], words[name:]
            index += (_second_name(words[index + 1 :]) or _own_title(words[index + 1 :])) if comma else 0
            return words[: index + 1], words[index + 1 :]
    colon = next((at for at, word in enumerate(words) if word.text == ":"), 0)
    told = "(" in [word.text for word in words[: _NAME_OF_EXTRA + 1]] and words[colon - 1].text == ")"
    named = extra_kind(words[:colon] if told else words[:_NAME_OF_EXTRA])
    named = named or (extra_kind(words[:colon]) if extra_kind(words[:colon]) in _LED_TO else None)
    if colon and named and not points_back(words[:colon]):
        return words[: colon + 1], words[colon + 1 :]
    if words and len(words) <= 6 and is_section_name(words) and not points_back(words):
        return words, []
    return [], words


def _before_feet(head: Sequence[Token]) -> int:
    """Return the length of a section's name that a foot follows without a mark: "S1 R fwd, L fwd"; 0 for none."""
    foot = next((at for at, token in enumerate(head) if at and token.low in _FEET), 0)
    return foot if foot and is_section_name(head[:foot]) else 0


def _is_open(words: Sequence[Token]) -> bool:
    """Whether a bracket stands open at the end of words that begin with a name: "Change (block 3, instead of ..."."""
    return sum(word.text == "(" for word in words) > sum(word.text == ")" for word in words)


def _second_name(words: Sequence[Token]) -> int:
    """Return the length of a section's name that follows its part's: "Part A, first eight."; 0 where none does."""
    end = next((at for at, token in enumerate(words[:_SHORT_HEAD]) if token.text in (".", ":", "-", BREAK)), 0)
    return end + 1 if end and is_section_name(words[:end]) else 0


def _own_title(words: Sequence[Token]) -> int:
    """Return the length of what a section is called after its number: "Figure 4, rolling turn and cross rock. Turn"."""
    end = next((at for at, token in enumerate(words[:_LONG_HEAD]) if token.text == "."), 0)
    plain = all(token.kind in ("word", "mark", "amp") and token.low not in _FEET for token in words[:end])
    return end + 1 if end and plain and end + 1 < len(words) else 0
