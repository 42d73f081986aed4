"""Words as they are typed on a phone: "u", "ur", "dnt"; what each stands for is told from the word after it."""

import re

_OF_PHONES = {
    "uve": "you've", "ull": "you'll", "uv": "you've", "dnt": "don't", "wiv": "with", "wen": "when", "cuz": "because",
    "coz": "because", "cos": "because", "bcs": "because", "bc": "because", "plz": "please", "pls": "please",
}  # fmt: skip
_OWNED = re.compile(
    r"(?i)\s+(?:own\s+|right\s+|left\s+|other\s+|free\s+|last\s+|first\s+|next\s+|second\s+|third\s+|two\s+|four\s+)*"
    r"(?:weight|wt|foot|feet|leg|toes?|heels?|hands?|arms?|hips?|knees?|body|head|shoulders?|steps?|walls?|dance|partner)\b"
)
"""What is somebody's own: "ur weight", "ur left foot"; before anything else "ur" is "you are"."""


_TYPED = frozenset({"u", "ur", "r", "n", *_OF_PHONES})
_NEAR = 80
"""So many signs around a word are looked at."""


def on_phone(text: str, first: int, last: int) -> str | None:
    """Return what the word at a place of a line stands for, in small letters; None: it is typed in full."""
    word = text[first:last]
    low = word.lower()
    if low not in _TYPED:
        return None
    before, after = text[max(first - _NEAR, 0) : first], text[last : last + _NEAR]
    if low == "ur":
        return "your" if _OWNED.match(after) else "you're"
    if word == "u":
        # A letter joined to something is a shape or a mark: "u-turn".
        return "you" if re.match(r"\s+[^\W\d_]|$", after) and re.search(r"(?:^|[\s(,.!?])$", before) else None
    if word == "r":
        return "are" if re.search(r"(?:^|\s)u\s$", before) else None
    if word == "n":
        return "and" if re.match(r"\s+[^\W_]", after) and re.search(r"[^\W_]\s+$", before) else None
    return _OF_PHONES.get(low)
