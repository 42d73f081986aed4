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
