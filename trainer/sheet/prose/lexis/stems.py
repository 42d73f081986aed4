"""Words of steps as they compare: a verb as it is commanded, a noun alone, a foot and a turn spelled out."""

from collections.abc import Iterable


def stems(words: Iterable[str]) -> frozenset[str]:
    """Return words without a plural's end, verbs as they are commanded: "clapping", "touches", "1/2"."""
    return frozenset(_STEMS.get(word) or _stem(word) for word in words)


_STEMS = {"l": "left", "r": "right", "fwd": "forward", "1/2": "half", "½": "half", "1/4": "quarter", "¼": "quarter"}


def past_of(word: str) -> frozenset[str]:
    """Return the verbs of which a word may be a past form: "stomped", "tapped", "closed"; empty where it is none."""
    if not word.endswith("ed") or len(word) < 5:
        return frozenset()
    bare = word.removesuffix("ed")
    single = bare[:-1] if bare[-1] == bare[-2] else bare
    return frozenset((bare, single, bare + "e"))


def _stem(word: str) -> str:
    if (verbs := past_of(word)) and word[-3] not in "e":
        return min(verbs, key=len) if word[-3] == word[-4] else word.removesuffix("ed")
    if word.endswith("ing") and len(word) > 5:
        word = word.removesuffix("ing")
        doubled = word[-1] == word[-2] and word[-1] not in "slz"
        return word[:-1] if doubled else word
    if word.endswith(("ches", "shes", "sses", "xes")):
        return word.removesuffix("es").removesuffix("s")
    return word.removesuffix("s") if len(word) > 3 else word
