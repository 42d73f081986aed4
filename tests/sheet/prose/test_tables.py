"""A table is understood by what its cells are: columns in any order, parted by anything, with a head or without."""

import tomllib
from pathlib import Path

import pytest

from tests.sheet.prose.tables_made import FACINGS, HEADER, STYLES, WANT, danced, sheet

_DATA = tomllib.loads(Path(__file__).with_name("tables.toml").read_text(encoding="utf-8"))
TABLES, DANCES, WALLS = _DATA["table"], _DATA["dance"], _DATA["walls"]

ORDERS = ("cfwx", "cwfx", "xcfw", "fwcx", "wfxc", "scfwx", "Scfwx")


def reads(text: str) -> None:
    events, warnings = danced(text)
    assert events == WANT
    assert warnings == ()


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("order", ORDERS)
def test_columns_stand_in_any_order(order: str, style: str) -> None:
    reads(sheet(order, style))


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("order", ["cfwx", "xcfw", "fwcx", "Scfwx"])
def test_columns_need_no_head(order: str, style: str) -> None:
    reads(sheet(order, style, head=False))


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("head", [True, False])
def test_each_section_may_have_a_table_of_its_own(style: str, head: bool) -> None:
    reads(sheet("cfwx", style, head=head, each=True))


@pytest.mark.parametrize("facing", FACINGS)
@pytest.mark.parametrize("order", ["cfwx", "xcwf"])
@pytest.mark.parametrize("style", ["tab", "stroke"])
def test_facings_are_written_in_any_way(facing: str, order: str, style: str) -> None:
    reads(sheet(order, style, facing=facing))


@pytest.mark.parametrize(("kind", "text"), [(table["kind"], table["text"]) for table in TABLES])
def test_every_kind_of_table_is_read(kind: str, text: str) -> None:
    events, warnings = danced(HEADER + text)
    assert events == WANT, kind
    assert warnings == (), kind


@pytest.mark.parametrize(("kind", "text", "told"), [(one["kind"], one["text"], one["events"]) for one in DANCES])
def test_waltzes_and_holds_stand_in_tables_too(kind: str, text: str, told: str) -> None:
    events, warnings = danced(text)
    assert ["/".join(str(part) for part in event) for event in events] == told.split(), kind
    assert warnings == (), kind


@pytest.mark.parametrize(("kind", "text"), [(one["kind"], one["text"]) for one in WALLS])
@pytest.mark.parametrize("main", ["ditto", "across pipe rows"])
def test_a_table_of_the_walls_stands_below_one_of_the_steps(main: str, kind: str, text: str) -> None:
    steps = next(table["text"] for table in TABLES if table["kind"] == main)
    events, warnings = danced(f"{HEADER}{steps}\n{text}", walls=4)
    facings = [events[0][3], events[20][3], events[40][3], events[50][3]]
    assert (len(events), facings) == (70, ["12:00", "9:00", "6:00", "6:00"]), kind
    assert warnings == (), kind


@pytest.mark.parametrize(
    ("row", "cell", "becomes", "kind"),
    [
        (3, "words", "rqvk fwzd", "text"),
        (8, "facing", "6", "facing"),
        (4, "feet", "L", "weight"),
        (8, "feet", "L R L", "weight"),
    ],
)
@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("order", ["cfwx", "xcwf"])
def test_a_mistaken_cell_is_found_in_its_row(
    order: str, style: str, row: int, cell: str, becomes: str, kind: str
) -> None:
    _, warnings = danced(sheet(order, style, mistake=(row, cell, becomes)))
    above = HEADER.count("\n") + 1 + {"markdown": 1, "box": 1, "drawn box": 1}.get(style, 0)
    assert [(warning.kind, warning.line) for warning in warnings] == [(kind, above + row + 1)]


CUT = """
Figure	Feet	Count	Look
BLOCK 1
Walks	R fwd, L fwd	1 2	12
Shuffle	R fwd, L together, R fwd	3 & 4	12
Rock step	L fwd, recover R	5 6	12
Coaster step	L back, R together, L fwd	7 & 8	12
BLOCK 2
Quarter pivot	R fwd, turn 1/4 L ending on L	1 2	9
Cross shuffle	R across, L side, R across	3 & 4	9
Side rock	L side, recover R	5 6	9
Behind side cross	L behind, R side, L across	7 & 8	9
"""
"""A table that headings without cells cut in two, under one head, with a column of figures' names."""


def test_headings_may_cut_a_table() -> None:
    events, warnings = danced(HEADER + CUT)
    assert events == WANT
    assert warnings == ()


@pytest.mark.parametrize(
    ("row", "becomes", "kind"),
    [
        ("Side rock\tL side, recover R\t5 6\t9", "Side rock\tL side, recover R\t5 6\t3", "facing"),
        ("Side rock\tL side, recover R\t5 6\t9", "Side rock\tR side, recover L\t5 6\t9", "weight"),
        ("Rock step\tL fwd, recover R\t5 6\t12", "Rock step\tL fwd, recover R\t6 6\t12", "counts"),
        ("Side rock\tL side, recover R\t5 6\t9", "Sibb romp\tgl zorb, kmplv T\t5 6\t9", "text"),
        ("Rock step\tL fwd, recover R\t5 6\t12", "Rock step\tL fwd, recover R\t5 6\t6", "facing"),
    ],
)
def test_a_mistake_is_found_in_its_row_of_a_table_with_names(row: str, becomes: str, kind: str) -> None:
    text = HEADER + CUT
    _, warnings = danced(text.replace(row, becomes))
    at = text.split("\n").index(row) + 1
    assert (kind, at) in [(warning.kind, warning.line) for warning in warnings]
    assert len(warnings) <= 2


@pytest.mark.parametrize(
    "told",
    ["shuffle fwd {}", "{} shuffle fwd", "({}) shuffle fwd", "shuffle fwd ({})"],
)
def test_a_range_may_hold_counts_told_again(told: str) -> None:
    text = f"""
1-4 R fwd, L fwd, R {told.format("3&4")} (12:00)
5-8 L rock fwd, recover R, L coaster step (7&8) (12:00)
9-12 R fwd, pivot 1/4 L, R cross shuffle (11&12) (9:00)
13-16 L rock side, recover R, L behind, R side, L across (15&16) (9:00)
"""
    events, warnings = danced(HEADER + text)
    assert events == WANT
    assert warnings == ()
