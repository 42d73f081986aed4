"""What is done each time is named once more as a thing: "turning an eighth with each touch", "on every tap"."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task

_ENDS = ("break", "open", "close", "facing")


def without_each_move(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without the move after "with each", "on each", where nothing more is said of it."""
    done: list[Lex] = []
    for at, lex in enumerate(lexes):
        led = at > 1 and is_task(lexes[at - 1], "each") and (is_task(lexes[at - 2], "with", "on", "for"))
        led = led or (at > 1 and is_task(lexes[at - 1], "each") and lexes[at - 2].low in ("at", "in", "during"))
        ends = at + 1 == len(lexes) or lexes[at + 1].kind in _ENDS or is_task(lexes[at + 1], "and", "then")
        if not (led and ends and lex.kind in ("move", "figure") and not lex.ing):
            done.append(lex)
    return done
