"""The bundled routines: they read without a word, proofread silent, and are danced as they were danced by hand.

The lines in tests/data/bundled were written from a dancing on foot, count by count, and not by the program: foot,
weight, facing, turn and beat of every count up to the end, or up to the first wall after the last departure that comes
home.
"""

import json
from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import loud
from trainer.resources import folder
from trainer.routine import Routine
from trainer.sheet.fair import fair
from trainer.sheet.opening import Sheet, open_sheet, opened
from trainer.sheet.reading import read

SHEETS = sorted(folder("routines").glob("*.sheet"))
GOLDEN = Path(__file__).parent.parent / "data" / "bundled"

HEADERS = [
    # sheet, counts, walls, time, feel, tempo from, to: the published range of its rhythm
    ("herring-lane-hello", 32, 4, "4/4", "straight", 100, 116),  # cha cha, country: UCWDC
    ("waltz-for-the-ferry-bell", 48, 4, "3/4", "straight", 84, 90),  # waltz: UCWDC 84-100, NDCA 84-90
    ("nets-out-nets-in", 48, None, "4/4", "straight", 114, 130),  # polka, country: UCWDC
    ("twelve-crates-of-lemons", 64, 2, "4/4", "straight", 112, 120),  # cha cha, American: NDCA
    ("tide-under-the-door", 32, 2, "4/4", "rolling", 64, 88),  # nightclub two-step: rec.arts.dance FAQ
    ("wait-for-the-fog-bell", 32, 1, "4/4", "swung", 142, 158),  # east coast swing, country: UCWDC
]

FAULTS = [
    # sheet, kind, where the line begins, what stands there, what a tired teacher types instead, why it is wrong
    ("herring-lane-hello", "counts", "5-6 R heel", "5-6", "5-7", "two steps in three counts, and 7 comes again"),
    ("herring-lane-hello", "facing", "1-4 R jazz box", "@3:00", "@9:00", "a quarter right of 12:00"),
    ("herring-lane-hello", "weight", "3&4 L shuffle", "L", "R", "the right foot carries since the first shuffle"),
    ("herring-lane-hello", "order", "wall 4", "16", "61", "the dance has 32 counts"),
    ("herring-lane-hello", "text", "5-8 R rocking", "rocking", "rickety", "no step of that name"),
    ("waltz-for-the-ferry-bell", "counts", "1-3 L rolling vine", "1-3", "1-2", "three steps in two counts"),
    ("waltz-for-the-ferry-bell", "facing", "4-6 R twinkle @3:00", "@3:00", "@9:00", "the line before faces 3:00"),
    ("waltz-for-the-ferry-bell", "weight", "1-3 L cross, R side", "R side, L", "L side, R", "the left has crossed"),
    ("waltz-for-the-ferry-bell", "order", "wall 7", "Curtsy", "Curtsey", "the ending has another name"),
    ("waltz-for-the-ferry-bell", "text", "1-3 L cross, R point", "point", "paint", "a misprint"),
    ("nets-out-nets-in", "counts", "counts:", "48", "84", "A and B are 32 and 16"),
    ("nets-out-nets-in", "facing", "5-8 R monterey", "@6:00", "@12:00", "half a turn from 12:00"),
    ("nets-out-nets-in", "weight", "3&4 R lock step", "R", "L", "the pivot left the weight on the left"),
    ("nets-out-nets-in", "order", "third A", "A", "C", "there is no part C"),
    ("nets-out-nets-in", "text", "3&4 R kick", "ball", "bell", "a misprint"),
    ("twelve-crates-of-lemons", "counts", "3-4 full turn", "3-4", "3-5", "two steps in three counts"),
    ("twelve-crates-of-lemons", "facing", "7&8 R sailor", "right", "left", "a quarter left of 3:00 is 12:00"),
    ("twelve-crates-of-lemons", "weight", "7-8 R side", "L together", "L touch together", "the restart needs R free"),
    ("twelve-crates-of-lemons", "order", "wall 3", "Lemon", "Lime", "no change of that name"),
    ("twelve-crates-of-lemons", "text", "3&4 L sailor", "sailor", "soiler", "a misprint"),
    ("tide-under-the-door", "counts", "2a3 L chase", "2a3", "2e3", "a rolling count has no e"),
    ("tide-under-the-door", "facing", "6a7 L back", "@10:30", "@1:30", "three eighths right of 6:00"),
    ("tide-under-the-door", "weight", "&a4 R recover", "R recover, L", "L recover, R", "the left carries the rock"),
    ("tide-under-the-door", "order", "walls 2 and 5", "before &", "before e", "no e follows count 19"),
    ("tide-under-the-door", "text", "5-6a L nightclub", "nightclub", "nightcap", "a misprint"),
    ("wait-for-the-fog-bell", "counts", "3&4 L mambo", "3&4", "3-4", "three steps in two counts"),
    ("wait-for-the-fog-bell", "facing", "7-8 R pivot", "1/2", "1/4", "half a turn brings the back wall to the front"),
    ("wait-for-the-fog-bell", "weight", "7&8 L scissor", "L", "R", "the right has just crossed"),
    ("wait-for-the-fog-bell", "order", "wall 3", "hold 2", "hold 0", "a hold of no counts"),
    ("wait-for-the-fog-bell", "text", "5-8 R charleston", "charleston", "charlstown", "a misprint"),
]


def by_name(path: Path) -> str:
    return path.stem


def opened_by_name(name: str) -> Sheet:
    return open_sheet(folder("routines") / f"{name}.sheet")


def test_there_is_a_header_a_dancing_and_a_sheet_of_each() -> None:
    names = {path.stem for path in SHEETS}
    assert names == {row[0] for row in HEADERS}
    assert names == {path.stem for path in GOLDEN.glob("*.jsonl")}


@pytest.mark.parametrize("path", SHEETS, ids=by_name)
def test_nothing_is_wrong_and_nothing_needs_a_note(path: Path) -> None:
    assert open_sheet(path).problems == ()


@pytest.mark.parametrize("path", SHEETS, ids=by_name)
def test_the_fair_copy_and_the_json_read_back_equal(path: Path) -> None:
    routine = open_sheet(path).routine
    assert read(fair(routine)) == (routine, ())
    assert Routine.model_validate_json(routine.model_dump_json()) == routine


@pytest.mark.parametrize("path", SHEETS, ids=by_name)
def test_it_is_danced_as_by_hand(path: Path) -> None:
    routine = open_sheet(path).routine
    by_hand = [json.loads(line) for line in (GOLDEN / f"{path.stem}.jsonl").read_text(encoding="utf-8").splitlines()]
    rows = list(as_rows(unroll(routine), routine.tempo))
    assert by_hand
    assert [{key: row[key] for key in by_hand[0]} for row in rows] == by_hand


@pytest.mark.parametrize(("name", "counts", "walls", "time", "feel", "low", "high"), HEADERS, ids=lambda v: str(v))
def test_its_header_is_kept_and_its_tempo_suits_its_rhythm(
    name: str, counts: int, walls: int | None, time: str, feel: str, low: int, high: int
) -> None:
    routine = opened_by_name(name).routine
    assert (routine.counts, routine.walls, routine.time, routine.feel) == (counts, walls, time, feel)
    assert routine.tempo is not None
    assert Fraction(low) <= routine.tempo <= Fraction(high)


def test_every_kind_of_fault_is_planted_in_every_sheet() -> None:
    planted = Counter((name, kind) for name, kind, *_ in FAULTS)
    kinds = ("counts", "facing", "weight", "order", "text")
    assert planted == Counter({(path.stem, kind): 1 for path in SHEETS for kind in kinds})


@pytest.mark.parametrize(
    ("name", "kind", "start", "stands", "typed", "why"), FAULTS, ids=[f"{name} {kind}" for name, kind, *_ in FAULTS]
)
def test_a_planted_fault_is_found_once_at_its_line(
    name: str, kind: str, start: str, stands: str, typed: str, why: str
) -> None:
    sheet = opened_by_name(name)
    lines = sheet.text.splitlines()
    at = [number for number, line in enumerate(lines) if " ".join(line.split()).startswith(start) and stands in line]
    assert len(at) == 1
    lines[at[0]] = lines[at[0]].replace(stands, typed, 1)
    found = loud(opened(sheet.path, "\n".join(lines)).problems)
    assert [(problem.kind, problem.line) for problem in found] == [(kind, at[0] + 1)], why
