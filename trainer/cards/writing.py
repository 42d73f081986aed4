"""A card written to files, and what is to be said about it."""

from collections.abc import Iterator
from pathlib import Path

from trainer.cards.model import Card
from trainer.cards.saving import save, target
from trainer.problems import TrainerError


def written(
    card: Card, sheet: Path, *, paper: str, pdf: Path | None = None, html: Path | None = None, font: Path | None = None
) -> Iterator[str]:
    """Write a card to the files named, and yield a sentence for each, and for what fell short.

    Raises TrainerError before anything is written where a file may not be written over, or is no font.
    """
    places = [target(path, sheet) for path in (pdf, html) if path is not None]
    if len(set(places)) < len(places):
        raise TrainerError("Two cards in one file", f"{pdf} is meant for both; give two names")
    if pdf is not None:
        # Loaded here: a PDF is the only thing that needs fpdf2 and its fonts.
        from trainer.cards.pdf import as_pdf

        made = as_pdf(card, paper, font)
        save(places[0], made.content)
        yield f"{pdf}: {_pages(made.pages)} in type of {made.size:g} points"
        if made.pages > 1:
            yield "This dance does not fit one page in type that can be read, and goes on to the next."
        if made.missing:
            yield f"The card has no letters for {' '.join(made.missing)}: name a font that has them, --font FILE."
    if html is not None:
        from trainer.cards.web import as_html

        save(places[-1], as_html(card, paper).encode())
        yield f"{html}: an HTML page"


def _pages(number: int) -> str:
    return f"{number} page{'s' if number > 1 else ''}"
