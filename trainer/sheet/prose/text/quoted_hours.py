"""Hours that stand in quotes of a kind that nothing else stands in, "«6»", "‹9:00›", told in brackets.

Such quotes hold the hours of the room only where each of them does. The brackets are of a kind that the sheet has
about no other number, so that nothing is taken for its counts; columns stay true.
"""

import re

_PAIRS = ("«»", "»«", "‹›", "›‹", "⟨⟩", "〈〉", "【】", "⟦⟧", "「」", "❮❯", "❬❭")
_BRACKETS = ("()", "<>", "{}", "[]")
_HOUR = re.compile(r"\s*(?:12|[369]|(?:1[0-2]|[1-9])[:.](?:00|30))\s*")
_FEWEST = 3
"""So many hours show that the quotes are those of facings."""


def with_quoted_hours(text: str) -> str:
    """Return the text, such quotes as brackets."""
    for pair in _PAIRS:
        opening, closing = pair[0], pair[1]
        found = re.findall(rf"{opening}([^{opening}{closing}\n]{{0,40}}){closing}", text) if opening in text else []
        if len(found) < _FEWEST or not all(map(_HOUR.fullmatch, found)) or len(set(found)) < 2:
            continue
        free = next((one for one in _BRACKETS if not re.search(rf"{re.escape(one[0])}\s*\d", text)), "")
        if free:
            return text.replace(opening, free[0]).replace(closing, free[1])
    return text
