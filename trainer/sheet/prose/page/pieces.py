"""Which words belong to which count: the words between two marks go to one of them, or part.

A section is read as one whose counts stand before their words, and as one whose counts stand after them; the way in
which the words can better fill their counts is taken. In the first, words go back to the mark before them. In the
second, they go on to the mark after them, but for what ends the sentence of the mark before.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.facing.faced import leads_back, states_facing
from trainer.sheet.prose.page.besides import with_said_once, without_easier, without_greeting, without_remarks
from trainer.sheet.prose.page.endings import said_in, sentence_end, unannounced
from trainer.sheet.prose.page.kept_lines import keeps_lines, lines_of
from trainer.sheet.prose.page.mending import is_dense, mended, strokes
from trainer.sheet.prose.page.parting import Words, searched
from trainer.sheet.prose.page.streams import FITS, Piece, Stream, misfit, trimmed
from trainer.sheet.prose.words import Fill, Token

_POOR = 0.9
"""So badly the words of a section must fill their counts before they are parted anew."""
_LOST = 1.2
"""What it costs that steps before the first count are danced on none, where some count has no words."""
_ALL_ROWS = 2.0
"""So much it speaks for a side that all counts of a section stand there in their rows."""
_BETTER = 0.5
_AS_WELL = 0.25
"""So much worse words may fill their counts where every line keeps its own."""


def parted(stream: Stream, fill: Fill, leaning: float = 0.0) -> tuple[tuple[Piece, ...], float]:
    """Return each mark with its words, and how much speaks for counts before words (above 0) or after them (below).

    `leaning` is what the sheet's other sections speak for.
    """
    stream = without_greeting(stream, fill)
    before = _counts_before(stream)
    after = _counts_after(stream)
    cost_before = _cost(before, stream.words[0], fill)
    cost_after = _cost(after, (), fill) + 0.4 * bool(said_in(stream.words[-1]) and not said_in(stream.words[0]))
    lean = cost_after - cost_before + _layout(stream)
    chosen = before if lean + leaning >= 0 else after
    titled = _titled(stream)
    if titled and _cost(titled, (), fill) < min(cost_before, cost_after) - 0.4:
        chosen = titled
    lined = _lined(stream, fill)
    if lined and sum(misfit(piece, fill) for piece in lined) < min(cost_before, cost_after) + _AS_WELL:
        chosen = titled = lined
    apart = is_dense(stream)
    labelled = chosen is before and _rows_labelled(stream)
    done = mended([without_remarks(piece, fill) for piece in chosen], fill, apart=apart, labelled=labelled)
    if chosen is not titled:
        done = _searched(stream, done, _cuts(stream, chosen is before), fill)
        done = _otherwise(stream, done, before if chosen is after else after, chosen is after, fill)
    return with_said_once(stream, [trimmed(without_easier(piece, fill)) for piece in done], fill), lean


def _searched(stream: Stream, done: tuple[Piece, ...], usual: Sequence[int], fill: Fill) -> tuple[Piece, ...]:
    """Return pieces that are parted anew, if that is better by far than what was done."""
    now = sum(misfit(piece, fill) for piece in done)
    now += _LOST * bool(usual[0] and said_in(stream.words[0]) and _moves_on(stream, usual, fill))
    if now < _POOR or _by_lines(stream) or strokes(done):
        return done
    texts, price = searched(
        stream.words,
        usual,
        lambda mark, head, tail: _around(stream.marks[mark], head, tail),
        lambda mark, text: misfit(trimmed(Piece(stream.marks[mark], text)), fill),
    )
    if price > now - _BETTER:
        return done
    return tuple(
        without_remarks(trimmed(Piece(mark, text)), fill) for mark, text in zip(stream.marks, texts, strict=True)
    )


def _otherwise(
    stream: Stream, done: tuple[Piece, ...], other: Sequence[Piece], before: bool, fill: Fill
) -> tuple[Piece, ...]:
    """Return pieces searched for with the counts on the other side of their words, if those are better by far."""
    now = sum(misfit(piece, fill) for piece in done)
    if now < _POOR or _by_lines(stream):
        return done
    found = _searched(stream, tuple(without_remarks(piece, fill) for piece in other), _cuts(stream, before), fill)
    lost = stream.words[0] if before else ()
    return found if _cost(found, lost, fill) < min(_POOR, now - _BETTER) else done


def _moves_on(stream: Stream, usual: Sequence[int], fill: Fill) -> bool:
    """Whether the counts could take the words before the first of them, one count having none of its own."""
    bare = any(
        not said_in((*words[start:], *after[:end]))
        for words, after, start, end in zip(stream.words, stream.words[1:], usual, usual[1:], strict=False)
    )
    return bare and fill(stream.words[0], len(stream.marks[0].places)) < FITS


def _by_lines(stream: Stream) -> bool:
    """Whether the sheet gives each line its counts, at its start or end: then lines part the words."""
    if _rows_labelled(stream):
        return True
    lines = [mark.number for mark in stream.marks]
    edges = 0
    for before, mark, after in zip(stream.words, stream.marks, stream.words[1:], strict=False):
        begins = not before or before[-1].line < mark.number
        ends = not after or after[0].line > mark.number
        edges += begins or ends
    return len(set(lines)) >= 0.8 * len(lines) and edges >= 0.8 * len(lines)


def _cuts(stream: Stream, before: bool) -> list[int]:
    """Return where the gaps between marks are parted as a rule, counts standing before or after their words."""
    if before:
        return [len(stream.words[0]), *_lasting(stream), len(stream.words[-1])]
    inner = [sentence_end(words, after) for words, after in pairwise(stream.words[1:])]
    return [0, *inner, len(stream.words[-1])]


def _layout(stream: Stream) -> float:
    """What the places of the marks in their lines speak for."""
    sides = []
    for words, mark, after in zip(stream.words, stream.marks, stream.words[1:], strict=False):
        said, following = said_in(words), said_in(after)
        begins = not said or said[-1].line < mark.number
        ends = not following or following[0].line > mark.number
        sides.append(begins - ends)
    if len(sides) > 1 and len(set(sides)) == 1:
        # Each row begins with its counts, whatever title stands above the first of them.
        return _ALL_ROWS * sides[0]
    return max(-_ALL_ROWS, min(_ALL_ROWS, 0.25 * sum(sides)))


def _counts_before(stream: Stream) -> list[Piece]:
    cuts = [len(stream.words[0]), *_lasting(stream), len(stream.words[-1])]
    return [
        trimmed(Piece(mark, (*words[start:], *after[:end])))
        for mark, words, after, start, end in zip(
            stream.marks, stream.words, stream.words[1:], cuts, cuts[1:], strict=False
        )
    ]


def _lasting(stream: Stream) -> list[int]:
    """Return where each gap between counts is parted if counts stand before their words.

    Before a count that something lasts through, its last clause is that count's: "and let it drag all through 5 and 6".
    """
    found = []
    for words in stream.words[1:-1]:
        end = len(words)
        while end and (words[end - 1].low in _OPENERS_OF_COUNTS or words[end - 1].text in (",", "(")):
            end -= 1
        cut = len(words)
        if end and words[end - 1].low in _THROUGH:
            cut = next((at for at in range(end - 1, 0, -1) if words[at - 1].text in (",", ".", ";", ":")), cut)
        found.append(cut)
    return found


_THROUGH = {"through", "throughout", "during"}
_OPENERS_OF_COUNTS = {"count", "counts", "beat", "beats", "both", "the"}


def _titled(stream: Stream) -> list[Piece]:
    """Return each mark with the words before it in its line and those of the lines below: a title, then its steps."""
    heads: list[tuple[Token, ...]] = []
    bodies: list[tuple[Token, ...]] = []
    for words, mark in zip(stream.words, stream.marks, strict=False):
        at = next((index for index, token in enumerate(words) if token.line >= mark.number), len(words))
        bodies.append(words[:at])
        heads.append(words[at:])
    bodies = [*bodies[1:], stream.words[-1]]
    ends = [not body or body[0].line > mark.number for mark, body in zip(stream.marks, bodies, strict=True)]
    if not all(ends) or len(stream.marks) == 1:
        # A title beside one mark only is no style of the sheet.
        return []
    told = [bool(said_in(head) and said_in(body)) for head, body in zip(heads, bodies, strict=True)]
    if sum(told) < 0.7 * len(told):
        return []
    return [
        trimmed(Piece(mark, (*head, *(replace(word, kind="mark", text=":", low=":") for word in head[-1:]), *body)))
        for mark, head, body in zip(stream.marks, heads, bodies, strict=True)
    ]


def _lined(stream: Stream, fill: Fill) -> list[Piece]:
    """Return each mark with the words of its line, where lines keep their own and counts stand on either side of them.

    "rocking chair for 1 to 4, so rock forward" above "5 6 is step forward": what begins a line is none of the last one.
    """
    if not keeps_lines(stream):
        return []
    done: list[Piece] = []
    for line in lines_of(stream):
        ways = [_counts_before(line), _counts_after(line)] if len(line.marks) > 1 else [_whole(line)]
        lost = (line.words[0], ())
        done += min(zip(ways, lost, strict=False), key=lambda way: _cost(way[0], way[1], fill))[0]
    return done


def _whole(line: Stream) -> list[Piece]:
    """Return the only mark of a line with the words on both sides of it."""
    return [trimmed(Piece(line.marks[0], _around(line.marks[0], *line.words)))]


def _counts_after(stream: Stream) -> list[Piece]:
    heads: list[tuple[Token, ...]] = [stream.words[0]]
    tails: list[tuple[Token, ...]] = []
    for words, following in zip(stream.words[1:], (*stream.words[2:], ()), strict=True):
        at = sentence_end(words, following)
        tails.append(words[:at])
        heads.append(words[at:])
    if not _starts_anew(heads[-1]):
        tails[-1] = stream.words[-1]
    elif not said_in(heads[-2]):
        tails[-1] = stream.words[-1][: len(tails[-1]) + _faced_in(heads[-1])]
    return [
        Piece(mark, _around(mark, head, tail)) for mark, head, tail in zip(stream.marks, heads, tails, strict=False)
    ]


def _faced_in(words: Words) -> int:
    """Return where the last sentence ends that tells where the steps of the count before lead: "You are at 3:00."."""
    ends = [0, *(at + 1 for at, token in enumerate(words) if token.text in (".", "!", "?")), len(words)]
    return max((b for a, b in pairwise(ends) if states_facing(words[a:b])), default=0)


def _around(mark: Mark, head: Words, tail: Words) -> Words:
    """Return the words on both sides of a mark; the colon or full stop after it parts them still.

    The word that announced it goes: "pivot a quarter left for | two |, which shows you three o'clock".
    """
    head = unannounced(head) if said_in(tail) else head
    if said_in(head) and leads_back(tail):
        # "R forward, pivot half L (3 4) back to 12:00": no step back.
        return (*head, replace(tail[0], kind="mark", text=",", low=",", value=None), *tail)
    if not mark.ends or not said_in(head) or not said_in(tail):
        return (*head, *tail)
    return (*head, replace(head[-1], kind="mark", text=mark.ends, low=mark.ends, value=None), *tail)


def _starts_anew(words: Sequence[Token]) -> bool:
    """Whether words after a section's last mark begin a sentence of their own."""
    said = said_in(words)
    return bool(said) and said[0].text[:1].isupper() and words[0].text not in (",", "(", "-")


def _cost(pieces: Sequence[Piece], lost: Sequence[Token], fill: Fill) -> float:
    said = [token for token in said_in(lost) if token.low not in _LEADING]
    return sum(misfit(piece, fill) for piece in pieces) + 0.5 * min(len(said), 3)


_LEADING = {"then", "you", "us", "to", "the", "front", "back", "home", "now", "so", "and"}
"""Words before the first count that only lead to it: "(which brings) you to the front, then one left foot to side"."""


def _rows_labelled(stream: Stream) -> bool:
    """Whether each count opens its line, some behind a label in a cell of its own: "C | 17-18 | cross, point"."""
    opened = [mark.first <= _LABEL and mark.closed for mark in stream.marks]
    lines = [mark.line for mark in stream.marks]
    return all(opened) and len(set(lines)) == len(lines) and any(mark.first > 1 for mark in stream.marks)


_LABEL = 3
"""Tokens of a label, and what parts it from the counts."""
