"""What a card says of a routine: facts, rows, facings, the wall order; and that any routine has one."""

from fractions import Fraction
from pathlib import Path
from unicodedata import category

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.dance.strategies import anything
from trainer.cards.making import card_of
from trainer.cards.model import Card, CardBlock, CardRow, CardWall
from trainer.cards.words import LONGEST, plain, turned, without_turning
from trainer.dance.facing import clock
from trainer.dance.unroll import unroll
from trainer.resources import folder
from trainer.sheet.opening import open_sheet, opened

PROSE = Path(__file__).parents[1] / "data" / "sheets"
BUNDLED = sorted(folder("routines").glob("*.sheet"))


def card(name: str) -> Card:
    return card_of(open_sheet(folder("routines") / f"{name}.sheet").routine)


def made(text: str) -> Card:
    return card_of(opened(Path("small.sheet"), text).routine)


def row_text(row: CardRow) -> str:
    steps = ", ".join(
        f"{s.name + ': ' if s.name else ''}{s.foot} {s.text}{' ?' if s.unsure else ''}".strip() for s in row.steps
    )
    return f"{row.counts} {steps}" + (f" @{clock(row.facing)}" if row.facing is not None else "")


def texts(block: CardBlock) -> list[str]:
    return [row_text(row) for row in block.rows]


def wall_text(wall: CardWall) -> str:
    then = "".join(f" / {one.text} @{clock(one.facing)}" for one in wall.then)
    starts = " ".join(map(clock, wall.starts))
    return f"{f'{wall.name} {wall.part}'.rstrip()} @{starts} {wall.danced}{then}{' = ' + wall.cue if wall.cue else ''}"


def test_the_facts_are_those_that_a_dancer_asks_for() -> None:
    shown = card("waltz-for-the-ferry-bell")
    assert shown.title == "Waltz for the Ferry Bell"
    assert shown.facts == (
        "48 counts",
        "4 walls",
        "improver",
        "88 counts a minute",
        "waltz, 3/4",
        "wait 24 from the first note of the accordion",
        "weight on R, L begins",
    )
    assert shown.credits == ("to The Ferry Bell (made for this program)", "by the Cobble Slip Dancers")


def test_the_advanced_dance_row_by_row() -> None:
    blocks = card("tide-under-the-door").blocks
    assert [f"{block.kind} {block.name}".strip() for block in blocks] == [
        "intro", "section 1", "section 2", "section 3", "section 4", "bridge Wait", "ending Ebb",
    ]  # fmt: skip
    assert [clock(block.starts) for block in blocks] == ["3:00", "12:00", "6:00", "12:00", "3:00", "6:00", "12:00"]
    assert texts(blocks[1]) == [
        "1–2a R nightclub basic",
        "3 L forward ¼ left + R sweep @9:00",
        "4a5 R cross, L side, R behind + L sweep",
        "6a7 L behind, R forward ¼ right, L rock forward @12:00",
        "8a R recover, L forward ½ left @6:00",
    ]
    assert texts(blocks[2])[0] == "1 R spiral full left @6:00"
    assert texts(blocks[4])[1:3] == ["2a3 L chase turn ½ right @12:00", "4a R full turn left @12:00"]


def test_the_order_has_start_how_much_then_what_facing_and_cue() -> None:
    assert [wall_text(wall) for wall in card("tide-under-the-door").walls] == [
        "intro @3:00 8 counts",
        "1 @12:00 all",
        '2 @6:00 all / after 19 before &: bridge Wait, 4 counts @6:00 = the singer holds the word "wait"',
        "3 @12:00 all",
        "4 @6:00 all",
        '5 @12:00 all / after 19 before &: bridge Wait, 4 counts @12:00 = the singer holds the word "wait"',
        "6 @6:00 all",
        "7 @12:00 1–16 / ending Ebb, 4 counts @12:00 = the piano is alone again",
    ]
    assert card("tide-under-the-door").goes_on == ""


def test_changes_restarts_and_holds_are_told() -> None:
    lemons = card("twelve-crates-of-lemons")
    assert wall_text(lemons.walls[2]) == (
        "3 @12:00 1–16 / 15–16 become change Lemon @3:00 / restart @6:00 = the fiddle drops out"
    )
    assert lemons.goes_on == "and so on, wall after wall"
    bell = [wall_text(wall) for wall in card("wait-for-the-fog-bell").walls]
    assert bell[2] == "3 @12:00 all / after 28: hold 2 @12:00 = the bell rings twice, nobody moves"
    assert bell[3] == "4 @12:00 1–16 / tag Bell, 4 counts @12:00 / restart @12:00 = only the bell and the bass"
    assert bell[5] == "6 @12:00 all / after 28: hold 2 @12:00 / tag Bell, 4 counts @12:00 = the bell again"


def test_a_phrased_dance_says_its_parts() -> None:
    nets = card("nets-out-nets-in")
    assert [block.part for block in nets.blocks] == ["A", "", "", "", "B", "", "", ""]
    assert [wall_text(wall) for wall in nets.walls] == [
        "1 A @12:00 all",
        "2 B @6:00 all",
        "3 A @12:00 all",
        "4 B @6:00 all / tag Haul, 8 counts @12:00",
        "5 A @12:00 1–16 / on to B @6:00 = the half verse",
        "6 B @6:00 all / ending Moor, 2 counts @12:00",
    ]
    assert "each part as if it began at 12:00" in nets.key


def test_options_say_what_they_replace() -> None:
    option = next(block for block in card("twelve-crates-of-lemons").blocks if block.kind == "option")
    assert (option.name, option.title, clock(option.starts)) == ("section 2, counts 3–4", "no full turn", "3:00")
    assert texts(option) == ["3–4 R walk, L walk"]


HEAD = "title: Small\ncounts: 8\nwalls: 4\nstarts: weight on L\n== 1\n"


@pytest.mark.parametrize(
    ("lines", "rows", "why"),
    [
        ("1-4 R walk, L walk, R walk, L walk", ["1–2 R walk, L walk", "3–4 R walk, L walk"], "two counts a row"),
        ("1-4 R vine", ["1–4 R vine"], "a figure is one row"),
        ("1&2 R side, L together, R side", ["1&2 R side, L together, R side"], "an & ties"),
        ("1-4 R walk, hold, hold, hold", ["1 R walk", "2–4 hold"], "holds in a row are one"),
        ("1-2 R stomp (weight L), R walk", ["1–2 R stomp (weight L), R walk"], "a weight that is unusual is said"),
        ("1-2 R forward turning 1 1/4 right, L walk", ["1–2 R forward 1¼ right, L walk @3:00"], "fractions"),
        ("3-4 twirl: R walk, L walk", ["3–4 twirl: R walk, L walk"], "a figure of the sheet's own is spelled out"),
        ("1&2 L shuffle turning 1/4 left", ["1&2 L shuffle ¼ left @9:00"], "a turn"),
        ("1 R forward\n& L ball together\n2 R cross", ["1&2 R forward, L ball together, R cross"], "lines join"),
    ],
)
def test_rows(lines: str, rows: list[str], why: str) -> None:
    assert texts(made(HEAD + lines).blocks[0]) == rows, why


def test_a_figure_of_many_steps_is_told_in_several_rows() -> None:
    steps = ", ".join(["R walk", "L walk"] * 8)
    rows = texts(made(HEAD + f"1-8& long walk: {steps}".replace("1-8&", "1&2&3&4&5&6&7&8&")).blocks[0])
    assert [row.split(" ")[0] for row in rows] == ["1&2&3&4&", "5&6&7&8&"]


def test_the_styling_of_a_line_is_said_once() -> None:
    rows = made(HEAD + "1-4 R walk, L walk, R walk, L walk  ; like a cat\n5-8 R vine  ; like a dog").blocks[0].rows
    assert [row.styling for row in rows] == ["like a cat", "", "like a dog"]


def test_what_was_not_read_is_said_in_the_teachers_words() -> None:
    rows = made(HEAD + '1-2 ??"wobble about", R walk').blocks[0].rows
    assert "unread: “wobble about”" in [step.text for row in rows for step in row.steps]


def test_what_is_unsure_is_marked_and_explained() -> None:
    shown = made(HEAD + "1-2 ?(R touch | R point), R walk")
    assert [step.unsure for step in shown.blocks[0].rows[0].steps] == [True, False]
    assert "?" in shown.key


def test_plain_walls_in_a_row_are_told_together_in_a_long_order() -> None:
    text = HEAD + "1-8 R vine, L vine turning 1/4 left\n== order\nwall 20: after 4, restart\n"
    walls = [wall_text(wall) for wall in made(text).walls]
    assert walls[0].startswith("1–19 @12:00 9:00 6:00 3:00 all")
    assert walls[1].startswith("20 @")


@pytest.mark.parametrize(
    ("title", "shown"),
    [
        ("1", ""),
        ("Section 1: skates", "skates"),
        ("1) walk, walk", "walk, walk"),
        ("S1 - rocks", "rocks"),
        ("1-8 and again", "1-8 and again"),
        ("12 steps", "12 steps"),
        ("1st 8", "1st 8"),
        ("to the quay", "to the quay"),
    ],
)
def test_a_title_does_not_say_the_name_again(title: str, shown: str) -> None:
    assert made(HEAD.replace("== 1", f"== 1: {title}") + "1-2 R walk, L walk").blocks[0].title == shown


def test_an_extra_without_a_name_of_its_own_is_called_by_what_it_is() -> None:
    text = HEAD + "1-8 R vine, L vine\n== tag Tag\n1-2 R sway, L sway\n== order\nwall 2: after 8, tag Tag, continue\n"
    shown = made(text)
    assert [block.name for block in shown.blocks] == ["1", ""]
    assert [then.text for then in shown.walls[1].then] == ["tag, 2 counts"]


def test_the_counts_are_those_that_are_danced() -> None:
    assert made(HEAD + "1-4 R vine").facts[0] == "4 counts"


@pytest.mark.parametrize("path", [*BUNDLED, *sorted(PROSE.glob("*.txt"))], ids=lambda path: path.stem)
def test_every_count_and_every_turn_of_a_sheet_is_on_its_card(path: Path) -> None:
    routine = open_sheet(path).routine
    shown = card_of(routine)
    written = [event for block in routine.blocks() for event in block.events]
    rows = [row for block in shown.blocks if block.kind != "option" for row in block.rows]
    assert sum(_labels(row.counts) for row in rows) == len(written)
    sections = [section for part in routine.parts for section in part.sections]
    assert len([block for block in shown.blocks if block.kind == "section"]) == len(sections)
    passes = unroll(routine).passes
    assert [wall.starts[0] for wall in shown.walls if wall.name != "intro"] == [one.facing for one in passes]


def _labels(counts: str) -> int:
    """How many labels such counts as 2a3–5 stand for."""
    total, before = 0, 0
    for at, letter in enumerate(counts):
        if letter == "–":
            total += int(counts[at + 1]) - before - 1
        elif letter != " ":
            total += 1
            before = int(letter) if letter.isdigit() else before
    return total


@settings(max_examples=60, deadline=None)
@given(anything)
def test_any_routine_has_a_card(routine: object) -> None:
    shown = card_of(routine)  # type: ignore[arg-type]
    assert shown.title == "Anything"
    assert all(0 <= wall.starts[0] < 1 for wall in shown.walls)


@settings(deadline=None)
@given(st.text())
def test_a_text_of_a_sheet_is_one_line_that_prints(text: str) -> None:
    told = plain(text)
    assert len(told) <= LONGEST
    assert not {category(letter) for letter in told} & {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert plain(told) == told


@pytest.mark.parametrize(
    ("text", "shown", "why"),
    [
        ("a\x1b[31mb", "a [31mb", "a command to a terminal"),
        ("a\u202eb\u2066", "ab", "marks that turn the way of writing"),
        ("  a \t b ", "a b", "blanks"),
        ("e\u0301", "é", "a letter and its accent"),
    ],
)
def test_plain(text: str, shown: str, why: str) -> None:
    assert plain(text) == shown, why


def test_turns_in_words() -> None:
    assert turned(Fraction(5, 4)) == "1¼ right"
    assert turned(Fraction(-1)) == "full left"
    assert without_turning("sailor step turning 3/4 left (say 1/2)") == "sailor step ¾ left (say 1/2)"
