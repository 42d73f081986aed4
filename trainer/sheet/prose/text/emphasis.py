"""Words that signs on both sides set in bold, slanted or as code: "**Wall 2**", "*once only*", "`6:00`", "<b>Tag</b>".

The signs are those of plain text that is shown as a page. Each becomes a blank that takes no room, so that columns stay
true. Signs about counts alone stay: "*one*" may be how a sheet tells its counts from its other words (`set_apart`). In
bold figures that open a line, "**5&6** kick right", they tell nothing.
"""

import re

from trainer.sheet.prose.text.tokens import UNSEEN

_SIGNS = ("***", "___", "**", "__", "*", "_", "`")
"""Longer signs first: what they leave may stand between shorter ones."""
_WRAPPED = 4
"""Lines of a paragraph between two signs, at most."""
_NUMBERS = "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
_COUNTS = re.compile(rf"(?:\d{{1,2}}|[&+,\-.\s]|\b(?:{_NUMBERS}|and|n|a|e|to|thru|through)\b)+", re.IGNORECASE)
_TAGGED = re.compile(r"([<\[])(b|i|u|em|strong|code)([>\]])(?=\S)(.*?)([<\[]/\2[>\]])", re.IGNORECASE)
_RULED = re.compile(
    r"^([ \t]*)(={1,}|-{2,}|~{2,}|\+{2,}|:{2,})([ \t]*)([^\s=~+:\-].{0,60}?)([ \t]*)(\2)[ \t]*$", re.MULTILINE
)
"""A head between two short rules: "== A ==", "-- Tag --"; what it holds may be no equation."""
_BROKEN = re.compile(r"<br ?/?>", re.IGNORECASE)
_ESCAPED = re.compile(r"\\(?=[*_#.\-+&>!])")


def without_emphasis(text: str) -> str:
    """Return a text of the same length without the signs that only set words off."""
    text = _RULED.sub(_unruled, text)
    text = _BROKEN.sub(_unseen, _TAGGED.sub(_untagged, _ESCAPED.sub(UNSEEN, text)))
    for sign in _SIGNS:
        if sign in text:
            text = _pattern(sign).sub(_bare, text)
    return text


def _unruled(match: re.Match[str]) -> str:
    before, sign, gap, inner, behind, closing = match.groups()
    blanks = [UNSEEN * len(part) for part in (sign, gap)] + [" " * len(part) for part in (behind, closing)]
    return before + blanks[0] + blanks[1] + inner + blanks[2] + blanks[3] + match[0][match.end(6) - match.start() :]


def _pattern(sign: str) -> re.Pattern[str]:
    """Return what finds words between two signs that touch them, and touch no other word; they may be wrapped."""
    one, mark = re.escape(sign), re.escape(sign[0])
    end = rf"[^\s(\[{{{mark}]"
    inner = rf"[^\s)\]}}{mark},.;:](?:(?!{one})[^\n]|\n(?![ \t]*(?:\n|\Z|[-•#>{mark}])))*?"
    return re.compile(rf"(?<![\w{mark}])(?P<open>{one})(?P<inner>(?:{inner})?(?<={end}))(?P<close>{one})(?![\w{mark}])")


def _bare(match: re.Match[str]) -> str:
    inner, sign = match["inner"], match["open"]
    opens = (
        len(sign) > 1 and inner[:1].isdigit() and not match.string[: match.start()].rpartition("\n")[2].strip(" \t-•")
    )
    if not inner or (_COUNTS.fullmatch(inner) and not opens) or inner.count("\n") >= _WRAPPED:
        return match[0]
    return UNSEEN * len(sign) + inner + UNSEEN * len(sign)


def _untagged(match: re.Match[str]) -> str:
    return UNSEEN * 3 + UNSEEN * (len(match[2]) - 1) + match[4] + UNSEEN * len(match[5])


def _unseen(match: re.Match[str]) -> str:
    return UNSEEN * len(match[0])
