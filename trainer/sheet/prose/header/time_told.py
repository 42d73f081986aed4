"""The time that a sheet's head states, "3/4" or "waltz", and not how far the dance turns: "it turns 3/4 each wall"."""

import re

from trainer.terms import Time

_SIDE = r"(?:left|right|l|r|lft|rt|(?:anti|counter)? ?-? ?clockwise|anticlockwise|cw|ccw|acw)\b"
_CIRCLING = (
    r"(?:turn(?:s|ed|ing)?|t|pivots?|spins?|unwind|rolls?|rotat\w+|circles?|paddles?|monterey|"
    r"walk ?-? ?(?:round|around))\b"
)
_FROM_IT = r"of|a|an|is|are|by|=|:|another|you|it|through|about|for|-|in all|to the|your"
_TO_IT = r"of|a|an|the|to|your|full|more|further|another|per|each|every|over|on|and|you|wall|go|time"
_TURNED = re.compile(
    rf"\b{_CIRCLING}(?: (?:{_FROM_IT}|{_SIDE}))* [23]/4\b|"
    rf"(?<![/\d])[23]/4 ?(?:- ?)?(?:(?:{_TO_IT}) )*"
    rf"(?:{_CIRCLING}|{_SIDE}|(?:way|circle|round|around|shoulder|wall)\b)"
)


def time_of(text: str) -> Time | None:
    """Return the time that a line of the head states."""
    for time in ("3/4", "2/4", "4/4"):
        told = re.search(rf"(?<![/\d]){time}\b", _TURNED.sub(" ", text))
        if told is not None:
            return "3/4" if time == "3/4" else "2/4" if time == "2/4" else "4/4"
    return "3/4" if re.search(r"\bwaltz(?: time| rhythm| tempo)?\b", text) else None
