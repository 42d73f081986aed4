"""Verbs that say only that a move goes on or begins: "goes on sweeping", "keeps dragging", "starts walking"."""

from collections.abc import Sequence

_GOES = {"go", "goes", "going", "carry", "carries", "carrying"}
_LASTS = {
    "keep", "keeps", "keeping", "continue", "continues", "continuing", "start", "starts", "starting", "begin", "begins",
    "beginning", "finish", "finishes", "finishing",
}  # fmt: skip
_SHORTEST_ING = 5


def goes_on(words: Sequence[str], at: int) -> int:
    """Return how many words say that a move goes on or begins: "goes on sweeping", "keeps dragging"."""
    length = 2 if words[at] in _GOES and words[at + 1 : at + 2] == ["on"] else int(words[at] in _LASTS)
    after = words[at + length] if length and at + length < len(words) else ""
    return length if after.endswith("ing") and len(after) > _SHORTEST_ING else 0
