"""The PDF as another reader sees it: pages, size of paper, text, fonts; and what it says of letters it has not."""

from io import BytesIO
from pathlib import Path

import cards
import pytest
from pypdf import PdfReader

from trainer.cards.making import card_of
from trainer.cards.model import Card
from trainer.cards.pages import PAPERS
from trainer.cards.pdf import MADE_BY, Pdf, as_pdf
from trainer.problems import TrainerError
from trainer.sheet.opening import open_sheet

FONTS = Path(__file__).parents[2] / "trainer" / "cards" / "fonts"
SIZES = {"a4": (595.28, 841.89), "letter": (612, 792)}


def reader(pdf: Pdf) -> PdfReader:
    return PdfReader(BytesIO(pdf.content), strict=True)


def said(pdf: Pdf) -> str:
    """All text without blanks, which a PDF does not keep."""
    return "".join("".join(page.extract_text().split()) for page in reader(pdf).pages)


def bare(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("path", [*cards.BUNDLED, *cards.PROSE], ids=lambda path: path.stem)
def test_a_usual_dance_is_one_page_of_the_paper_with_all_its_words(path: Path, paper: str) -> None:
    card = card_of(open_sheet(path).routine)
    pdf = as_pdf(card, paper)
    (page,) = reader(pdf).pages
    assert (pdf.pages, pdf.missing) == (1, "")
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(SIZES[paper], abs=0.1)
    text = said(pdf)
    for told in (card.title, *card.facts, *card.credits, *card.notes, card.key):
        assert bare(told) in text
    for block in card.blocks:
        assert bare(block.title) in text
        for row in block.rows:
            assert bare(row.counts) in text
            assert bare(row.styling) in text
    for wall in card.walls:
        for then in wall.then:
            assert bare(then.text) in text


def test_a_card_says_who_made_it_and_what_it_is() -> None:
    information = reader(as_pdf(cards.bundled("tide-under-the-door"), "a4")).metadata
    assert information is not None
    assert information.title == "Tide Under the Door"
    assert information.creator == MADE_BY


def test_texts_in_latin_greek_and_cyrillic_letters_survive() -> None:
    pdf = as_pdf(cards.alphabets(), "a4")
    assert pdf.missing == ""
    assert said(pdf).count(bare(cards.LATIN_GREEK_CYRILLIC)) == 4


def test_every_font_is_embedded() -> None:
    page = reader(as_pdf(cards.bundled("tide-under-the-door"), "a4")).pages[0]
    fonts = page["/Resources"]["/Font"]  # type: ignore[index]
    names = [font.get_object()["/BaseFont"] for font in fonts.values()]
    assert names
    for font in fonts.values():
        descriptor = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
        assert "/FontFile2" in descriptor


def tokyo() -> Card:
    return cards.made("title: 東京 Quay\ncounts: 4\n== 1: 東\n1-4 R vine\n")


def test_letters_that_the_font_has_not_are_told() -> None:
    pdf = as_pdf(tokyo(), "a4")
    assert pdf.missing == "京東"
    assert "\ufffd\ufffdQuay" in said(pdf)


def test_a_font_of_ones_own_has_them(tmp_path: Path) -> None:
    own = tmp_path / "own.ttf"
    _font_with("東京", own)
    pdf = as_pdf(tokyo(), "a4", own)
    assert pdf.missing == ""
    assert "東京Quay" in said(pdf)


def _font_with(letters: str, path: Path) -> None:
    """Write the card's font with the shape of an A for each of some letters."""
    from fontTools.ttLib import TTFont

    font = TTFont(FONTS / "NotoSans-SemiCondensed.ttf")
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap.update(dict.fromkeys(map(ord, letters), "A"))
    font.save(path)


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "an empty file"),
        (b"no font at all", "a text"),
        (b"\0\1\0\0" + bytes(range(200)), "a head and nothing after it"),
        ((FONTS / "NotoSans-SemiCondensed.ttf").read_bytes()[:50_000], "half a font"),
        (b"OTTO" + bytes(100), "another head"),
    ],
)
def test_what_is_no_font_is_an_error(content: bytes, why: str, tmp_path: Path) -> None:
    path = tmp_path / "font.ttf"
    path.write_bytes(content)
    with pytest.raises(TrainerError, match="this is no font"):
        as_pdf(tokyo(), "a4", path)


def test_a_font_whose_letters_are_damaged_is_an_error(tmp_path: Path) -> None:
    from fontTools.ttLib import TTFont

    own = tmp_path / "own.ttf"
    _font_with("東京", own)
    content = bytearray(own.read_bytes())
    with TTFont(own) as font:
        glyphs = font.reader.tables["glyf"]
        content[glyphs.offset : glyphs.offset + glyphs.length] = b"\x7f\xff" * (glyphs.length // 2)
    own.write_bytes(content)
    with pytest.raises(TrainerError, match="this is no font"):
        as_pdf(tokyo(), "a4", own)


def test_a_font_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(TrainerError, match="No such file"):
        as_pdf(tokyo(), "a4", tmp_path / "nowhere.ttf")


def test_a_dance_too_long_for_one_page_goes_on() -> None:
    pdf = as_pdf(cards.long(60), "letter")
    pages = reader(pdf).pages
    assert len(pages) == pdf.pages > 1
    assert f"page {len(pages)} of {len(pages)}" in " ".join(pages[-1].extract_text().split())


def test_hostile_texts_are_only_texts() -> None:
    pdf = as_pdf(cards.hostile(), "a4")
    assert said(pdf).count(bare(cards.HOSTILE)) >= 8
    assert b"/JavaScript" not in pdf.content
    assert all("/Annots" not in page for page in reader(pdf).pages)
