"""A figure danced in another, where its turn parts the words: "jazz box 1/4 turn right with toe struts"."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task

_TOGETHER = {("jazz box", "toe strut"): "toe strut jazz box"}


def with_figures_in_one(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with such two figures, a turn between them, as one before its turn."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        row = lexes[at : at + 4]
        parted = len(row) > 3 and [row[0].kind, row[1].kind, row[3].kind] == ["figure", "turning", "figure"]
        joined = _TOGETHER.get((row[0].value, row[3].value)) if parted else None
        if joined and (is_task(row[2], "with") or row[2].low in ("in", "on", "using", "w")):
            done += [row[0]._replace(value=joined), row[1]]
            at += 4
            continue
        done.append(lexes[at])
        at += 1
    return done
