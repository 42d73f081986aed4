"""What a whole telling says: its sentences one after the other, each change by itself."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.changes import cues
from trainer.sheet.prose.changes.otherwise import Otherwise
from trainer.sheet.prose.changes.sentence import of_sentence
from trainer.sheet.prose.changes.told_steps import comma
from trainer.sheet.prose.changes.wording import words_of
from trainer.sheet.prose.words import Token


def otherwise_in(sentences: Sequence[Sequence[Token]]) -> list[Otherwise]:
    """Return what the sentences of a telling say is danced otherwise, in order."""
    if _adds(sentences):
        return []
    done: list[Otherwise] = []
    carried = Otherwise()
    waiting = Otherwise()
    for tokens in _pieces(sentences):
        if not waiting.section:
            waiting = replace(waiting, section=carried.section, rows=carried.rows, past=carried.past, carried=True)
        found, waiting = of_sentence(tokens, waiting, done)
        for one in (*found, waiting):
            carried = one if one.section else carried
        for one in found:
            if done and one.steps and done[-1].steps and not one.placed and _goes_on(done[-1], one):
                done[-1] = _joined(done[-1], one)
            else:
                done.append(one)
    last = max((at for at, one in enumerate(done)), default=0)
    ends, leaves = any(one.ends for one in done), any(one.leaves for one in done)
    done = [replace(one, ends=ends and at == last, leaves=leaves and at == last) for at, one in enumerate(done)]
    if waiting.unturned or waiting.drops or waiting.holds or (waiting.leaves and not done):
        done.append(waiting)
    return done


def _adds(sentences: Sequence[Sequence[Token]]) -> bool:
    """Whether only something more is told, a tag or an ending, and nothing that is danced otherwise."""
    text = " ".join(words_of(tokens).text for tokens in sentences)
    return bool(cues.ADDED.search(text)) and not cues.CHANGED.search(text)


def _pieces(sentences: Sequence[Sequence[Token]]) -> Iterator[tuple[Token, ...]]:
    """Yield sentences, parted where they begin to tell of another place."""
    for tokens in sentences:
        words = words_of(tokens)
        cuts = [0, *(match.end() for match in cues.PARTED.finditer(words.text) if match.end() > 0), len(words.text)]
        for first, last in pairwise(cuts):
            piece = words.between(first, last)
            while piece and piece[-1].low in (",", "and", "then", "&", "but"):
                piece = piece[:-1]
            if piece:
                yield piece


def _goes_on(before: Otherwise, after: Otherwise) -> bool:
    """Whether steps are told with the counts that come next."""
    last = [int(token.text) for token in before.steps if token.kind == "number"]
    first = [int(token.text) for token in after.steps if token.kind == "number"]
    return bool(last and first) and first[0] == last[-1] + 1


def _joined(one: Otherwise, two: Otherwise) -> Otherwise:
    return replace(
        one,
        steps=(*one.steps, *comma(one.steps[-1]), *two.steps),
        leaves=one.leaves or two.leaves,
        holds=one.holds or two.holds,
        tag=one.tag or two.tag,
    )
