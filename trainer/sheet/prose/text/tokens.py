"""Physical lines to tokens: words, numbers, amounts of turn, clock times, & and marks, each with its place.

Typographic quotes, dashes and blanks count as their plain forms, one for one, so that columns stay true. Nothing is
decided here but what a clock or a fraction looks like; whether "(6)" is a facing or a count is told from the whole
sheet (`facings.py`).
"""

import re
from fractions import Fraction

from trainer.sheet.prose.text.arrows import POINTED
from trainer.sheet.prose.text.phone_words import on_phone
from trainer.sheet.prose.words import Token

UNSEEN = "\x1f"
"""A blank that takes no room: what draws a digit as a key, or a sign in colour."""

_LETTERS = {
    chr(first + at): letter
    for first in (0x24B6, 0x24D0, 0x1F110, 0x1F130, 0x1F150, 0x1F170, 0xFF21)
    for at, letter in enumerate("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
}
"""Letters in circles, squares and brackets, and wide ones: each stands for its letter. Source: the Unicode charts."""

_PLAIN = str.maketrans(
    {
        **_LETTERS,
        "‘": "'", "’": "'", "‚": "'", "′": "'", "“": '"', "”": '"', "„": '"', "″": '"', "«": '"', "»": '"',
        "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "―": "-", "−": "-", "⁄": "/", "∕": "/",
        "\u00a0": " ", "\u2007": " ", "\u202f": " ", "\u2009": " ", "\u200b": " ", "\ufeff": " ", "\u00ad": "-",
        "＆": "&", "×": "x", "·": "•", "∙": "•", "●": "•", "▪": "•", "◦": "•", "│": "|", "┃": "|", "¦": "|",
        "║": "|", "╎": "|", "┊": "|", "〃": '"',
        "→": ">", "➜": ">", "⇒": ">",
        **{sign: str(at % 8 + 1) for at, sign in enumerate("❶❷❸❹❺❻❼❽➀➁➂➃➄➅➆➇➊➋➌➍➎➏➐➑⓵⓶⓷⓸⓹⓺⓻⓼")},
        "①": "1", "②": "2", "③": "3", "④": "4", "⑤": "5", "⑥": "6", "⑦": "7", "⑧": "8",
        "\ufe0f": UNSEEN, "\u20e3": UNSEEN,
    }
)  # fmt: skip

_VULGAR = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8), "⅞": Fraction(7, 8), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3),
}  # fmt: skip

_ROUND = {**dict.fromkeys("↻⟳↷⭮", "cw"), **dict.fromkeys("↺⟲↶⭯", "ccw")}
"""Arrows round, as the words for the ways that they turn."""

_SHORTENED = {
    word.replace("'", ""): word
    for word in (
        "that's", "there's", "here's", "where's", "what's", "who's", "he's", "she's", "you're", "they're", "you've",
        "we've", "they've", "i've", "i'm", "you'll", "they'll", "it'll", "that'll", "don't", "doesn't", "didn't",
        "isn't", "aren't", "wasn't", "weren't", "haven't", "hasn't", "hadn't", "won't", "can't", "couldn't",
        "shouldn't", "wouldn't", "mustn't", "needn't",
    )
} | dict.fromkeys(("o'c", "o'cl", "o'clk", "oclk"), "o'clock")  # fmt: skip
"""Shortened words as a quick hand types them, without the sign: "thats", "youre"; none that is a word by itself.

"3 o'c" is an hour.
"""

_PATTERN = re.compile(
    r"""
      (?P<clock>(?<![\d.:])(?:1[0-2]|0?[1-9])[:.hH](?:00|30|15|45)(?!\d|:\d)|[\ue000-\ue007])
    | (?P<fraction>\d?[¼½¾⅛⅜⅝⅞⅓⅔]|(?<![\d/])[1-7]/[2348](?![\d/]))
    | (?P<number>\d+)
    | (?P<word>[^\W\d_]+(?:'[^\W\d_]+)*|[↻⟳↷⭮↺⟲↶⭯])
    | (?P<amp>&amp;|&)
    | (?P<mark>[^\w\s]|_)
    """,
    re.VERBOSE,
)


_SIGNED = re.compile(rf"[{''.join(_LETTERS)}](?:\ufe0f?[{''.join(_LETTERS)}])*")
"""Letters as signs side by side."""
_OWNER = re.compile("^(\\s*)\u00a9|(?<=[\U0001f170\U0001f171\ufe0f ])\u00a9(?=\ufe0f)", re.MULTILINE)
"""The sign of an owner as a phone offers it for a C."""


def plain(text: str) -> str:
    """Return the text with typographic marks as plain ones, of the same length.

    Letters that are signs side by side are one word, as letters are: "ABAB".
    """
    if "\U0001f171" in text:
        text = _OWNER.sub(r"\1C", text)
    return _SIGNED.sub(_side_by_side, text).translate(_PLAIN)


def _side_by_side(match: re.Match[str]) -> str:
    signs = match[0].replace("\ufe0f", "")
    return signs + "\ufe0f" * (len(match[0]) - len(signs))


def tokens_of(text: str, line: int = 1, column: int = 1) -> tuple[Token, ...]:
    """Return the tokens of one line of a sheet that begins at a line and column; 05 is 5, at the place of the 5."""
    tokens = []
    shown = plain(text)
    end = -1
    for match in _PATTERN.finditer(shown):
        kind = match.lastgroup
        found = match[0]
        value = _value(kind, found)
        found = POINTED.get(found, found)
        led = kind == "number" and len(found) == 2 and found[0] == "0" and found != "00"
        found = found[1:] if led else found
        typed = on_phone(shown, *match.span()) if kind == "word" else None
        tokens.append(
            Token(
                kind=kind,  # type: ignore[arg-type]  # the groups are named as the kinds
                text=found,
                low=_ROUND.get(found) or _SHORTENED.get(found.lower()) or typed or found.lower(),
                line=line,
                column=column + match.start() + led,
                glued=match.start() == end,
                value=value,
            )
        )
        end = match.end()
    return tuple(tokens)


def lines_of(text: str) -> tuple[tuple[Token, ...], ...]:
    """Return the tokens of every physical line, empty lines included, so that index + 1 is the line's number."""
    return tuple(tokens_of(line, number) for number, line in enumerate(text.split("\n"), 1))


def _value(kind: str | None, found: str) -> Fraction | None:
    if found in POINTED:
        return Fraction(list(POINTED).index(found), 8)
    if kind == "clock":
        hours, minutes = re.split("[:.hH]", found)
        return Fraction(int(hours) % 12 * 60 + int(minutes), 720)
    if kind != "fraction":
        return None
    if found[-1] in _VULGAR:
        return _VULGAR[found[-1]] + (int(found[0]) if len(found) > 1 else 0)
    return Fraction(found)
