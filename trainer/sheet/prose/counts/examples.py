"""Counts that only show how the music is counted: "rolling count (1 2 a 3)", 'count it "one-and-two"', as in 1&2."""

from collections.abc import Sequence

from trainer.sheet.prose.counts.scan import Scan
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_EXAMPLE = 16
"""Tokens of an example of how to count."""
_EXAMPLES = {
    ("as", "in"), ("such", "as"), ("for", "example"), ("for", "instance"), ("we", "write"), ("i", "write"),
}  # fmt: skip
"""Before these counts are only an example of how they are written."""
_QUOTES = ('"', "'")
_SAYING = 4
"""Tokens before the quotes in which their verb stands."""
_SAID = {
    "said",
    "say",
    "saying",
    "says",
    "called",
    "call",
    "calls",
    "counted",
    "count",
    "counts",
    "chant",
    "chanting",
    "sing",
    "think",
    "thinking",
    "hear",
    "rhythm",
    "whisper",
    "mutter",
    "repeat",
    "shout",
}
"""Before quotes: how the counts in them are called."""
_WAYS_OF_COUNTING = {"count", "counts", "counting", "rhythm", "timing", "feel", "rolling", "rolled"}
"""Before a bracket: how the music is counted, no count of a step: "rolling count (1 2 a 3 4 a ...)"."""
_TIMES = {*_WAYS_OF_COUNTING, "time", "beat", "beats", "eight", "eights"}
_FEELS = {"rolling", "rolled", "straight", "swung", "even", "slow"}
_OPEN = ("(", "[", "{", "<")


def shows_how_to_count(line: Sequence[Token], at: int) -> bool:
    """Whether a token stands in a bracket after a word for counting: "rolling count (1, 2 a, 3 ...)"."""
    opened = next((before for before in range(at, max(at - _EXAMPLE, -1), -1) if line[before].text in _OPEN), None)
    if not opened:
        return False
    before = [token.low for token in line[:opened]]
    felt = len(before) > 1 and before[-2] in _FEELS and before[-1] in _TIMES
    return felt or (before[-1] in _WAYS_OF_COUNTING and bool(_FEELS & set(before)))


_COUNTED = {*_TIMES, "counted", "counting", "throughout", "called", "swing", "blues"}
_NAMED = {"triple", "triples", "shuffle", "shuffles", "chasse", "chasses", "step", "steps", "all", "start", "starts"}
"""Steps that are named to tell how they are counted."""
_HALVES = {"a", "&", "and"}


def tells_how_triples_count(line: Sequence[Token], at: int) -> bool:
    """Whether a count with its half only says how triples are counted: "blues feel, triples are counted 1 a 2"."""
    half = line[at + 1].low if at + 1 < len(line) else ""
    if not at or line[at].text != "1" or half not in _HALVES:
        return False
    lows = {token.low for token in line if token.kind == "word"}
    steps = (lows & STEP_WORDS) - _NAMED
    named = bool(lows & _NAMED) and line[at - 1].low in ("are", "is")
    return (named or bool(lows & _COUNTED)) and len(steps) <= len(lows & _STARTING)


_STARTING = {"right", "left", "lead", "weight", "foot"}
"""Words of the foot that begins, in the same line of the header."""


_TIMINGS = {"timing", "rhythm", "rhythms", "counted", "timed"}
_BEHIND = {":", "is", "=", "as", "-", "always", "throughout", "every", "figure", "each"}


def _tells_the_timing(line: Sequence[Token], at: int) -> bool:
    """Whether a line opens with how the dance is counted, and tells no step with it: "Timing: 2 3 4&1."."""
    told = 0 < at <= _SAYING and line[0].low in _TIMINGS and all(token.low in _BEHIND for token in line[1:at])
    end = next((end for end in range(at, len(line)) if line[end].text == "."), len(line))
    told = told or (at > 1 and line[0].low in _FEELS and line[1].low in _TIMES)
    return told and not any(token.low in STEP_WORDS for token in line[at:end])


def is_example(line: Sequence[Token], at: int) -> bool:
    """Return whether a token begins an example of counts, after quotes or words that announce one."""
    if tells_how_triples_count(line, at) or _tells_the_timing(line, at):
        return True
    if at > 1 and line[at - 1].text in _QUOTES and {token.low for token in line[max(at - _SAYING, 0) : at - 1]} & _SAID:
        # [ ] = counts, said "one, two and a three"; Count it "one-and-two".
        return True
    return at > 1 and (line[at - 2].low, line[at - 1].low) in _EXAMPLES


def past_example(line: Sequence[Token], at: int) -> int:
    """Return where to look on after a token that opens no mark: past the whole of an example of how counts look."""
    if not is_example(line, at):
        return at + 1
    quoted = line[at - 1].text if at else ""
    if quoted in _QUOTES:
        return next((end + 1 for end in range(at, len(line)) if line[end].text == quoted), at + 1)
    scan = Scan(line, at, in_bracket=False)
    scan.run()
    return max(scan.at, at + 1)
