"""Arrows that state facings: those at the ends of lines, in brackets and beside walls, in a sheet that points so.

An arrow up is the front wall, one to the right the right-hand wall. They point so only where a sheet has several such
arrows that are not all alike, and no key that gives them another meaning; an arrow among steps is no facing.
"""

import re

_KINDS = ("↑⬆⇑▲△↟^", "↗⬈", "→➡⇒►▶➜➔⮕", "↘⬊", "↓⬇⇓▼▽v", "↙⬋", "←⬅⇐◄◀", "↖⬉")
"""By eighths of a turn, right from the front."""
_FIRST = 0xE000
POINTED = {chr(_FIRST + at): kind[0] for at, kind in enumerate(_KINDS)}
"""A sign for each facing that an arrow states, with the arrow; they stand in no text."""
_SIGNS = {arrow: chr(_FIRST + at) for at, kind in enumerate(_KINDS) for arrow in kind if not arrow.isascii()}
_ANY = f"[{''.join(_SIGNS)}]"
_STANDS = re.compile(
    rf"(?<=[\s(\[{{|@=:,;])(?P<end>{_ANY})\ufe0f?(?=[\s)\]}}|.,;]*$)|(?<=[(\[{{])(?P<inside>{_ANY})\ufe0f?(?=[)\]}}])|"
    rf"^\W*(?:walls?|w|round|pass|#)? ?#?\d{{1,2}}[ .:)=@|\-]*(?P<wall>{_ANY})(?=[\s\ufe0f|:,)\d])|"
    rf"\b(?:face|facing|see|sees|wall|at) (?P<seen>{_ANY})",
    re.IGNORECASE,
)
_KEY = re.compile(rf"{_ANY}\ufe0f?\W*(?P<said>[a-z]+)|(?P<before>[a-z]+)\W*{_ANY}", re.IGNORECASE)
_WAYS = re.compile(
    rf"{_ANY}\ufe0f?\W*(?:(?:means|is) )?(?:forward|fwd|fw|step|move|travel|side|up|backward)\b", re.IGNORECASE
)
_LEAST = 3


def with_pointed_walls(text: str) -> str:
    """Return the text with arrows that state facings as signs of their own, each as wide as the arrow."""
    if not any(arrow in text for arrow in _SIGNS):
        return text
    lines = text.split("\n")
    found = [list(_STANDS.finditer(line)) if not _is_key(line) else [] for line in lines]
    kinds = {_SIGNS[match[_group(match)]] for own in found for match in own}
    if sum(map(len, found)) < _LEAST or len(kinds) < 2 or any(_means_a_way(line) for line in lines):
        return text
    return "\n".join(
        "" if _is_key_of_arrows(line) else _pointed(line, own) for line, own in zip(lines, found, strict=True)
    )


def _is_key_of_arrows(line: str) -> bool:
    """Whether a line tells which walls arrows point to: "↑ front  ← left"."""
    return len(set(re.findall(_ANY, line))) > 1 and _is_key(line)


def _is_key(line: str) -> bool:
    said = [match["said"] or match["before"] for match in _KEY.finditer(line)]
    return sum(word.lower() in ("front", "home", "back", "right", "left", "rear") for word in said) > 1


def _means_a_way(line: str) -> bool:
    """Whether a key gives arrows the meaning of ways to step: "↑ = forward, ← = to the side"."""
    return bool(_WAYS.search(line)) and len(re.findall(_ANY, line)) > 1


def _group(match: re.Match[str]) -> str:
    return match.lastgroup or "end"


def _pointed(line: str, found: list[re.Match[str]]) -> str:
    letters = list(line)
    for match in found:
        at = match.start(_group(match))
        letters[at] = _SIGNS[letters[at]]
    return "".join(letters)
