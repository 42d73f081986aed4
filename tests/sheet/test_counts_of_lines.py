"""The counts of lines: labels, beats, renumbering, the 1 of 8&1, and how counts fall to clauses."""

from fractions import Fraction

import pytest
from block_strategies import labels
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets import events, problems, routine, section, sheet

from trainer.routine import Event
from trainer.sheet.fair_lines import labels_told
from trainer.sheet.findings import Findings
from trainer.sheet.labels import MOST_IN_A_LINE, read_labels, starts_with_counts
from trainer.sheet.lines import Line
from trainer.terms import Feel


def places(text: str) -> list[tuple[str, str]]:
    return [(event.label, str(event.beat)) for event in events(text)]


def line_of(typed: str) -> str:
    """A count line of steps without weight, one for each label."""
    found = read_labels(Line(typed, ((0, 1, 1),)), Findings()).typed
    return f"{typed}  {', '.join(['hold'] * len(found))}"


@pytest.mark.parametrize(
    ("feel", "lines", "found", "why"),
    [
        ("straight", ["1-2"], [("1", "0"), ("2", "1")], "a range"),
        ("straight", ["1&2"], [("1", "0"), ("&", "1/2"), ("2", "1")], "& is half a beat"),
        ("straight", ["1 & 2"], [("1", "0"), ("&", "1/2"), ("2", "1")], "with blanks"),
        ("straight", ["1, 2&"], [("1", "0"), ("2", "1"), ("&", "3/2")], "with commas"),
        ("straight", ["1–2"], [("1", "0"), ("2", "1")], "a dash of a word processor"),
        ("straight", ["1e&a2"], [("1", "0"), ("e", "1/4"), ("&", "1/2"), ("a", "3/4"), ("2", "1")], "sixteenths"),
        ("straight", ["1ea2"], [("1", "0"), ("e", "1/4"), ("a", "3/4"), ("2", "1")], "e and a together"),
        ("swung", ["1&2a3"], [("1", "0"), ("&", "2/3"), ("2", "1"), ("a", "5/3"), ("3", "2")], "& and a are one place"),
        ("rolling", ["1&a2"], [("1", "0"), ("&", "1/3"), ("a", "2/3"), ("2", "1")], "three parts of a beat"),
        ("straight", ["&1-2"], [("&", "-1/2"), ("1", "0"), ("2", "1")], "a pick-up"),
        ("rolling", ["&a1"], [("&", "-2/3"), ("a", "-1/3"), ("1", "0")], "a pick-up of two"),
        ("straight", ["&", "1"], [("&", "-1/2"), ("1", "0")], "a pick-up on a line of its own"),
        ("straight", ["1-2", "&3-4"], [("1", "0"), ("2", "1"), ("&", "3/2"), ("3", "2"), ("4", "3")], "& before 3"),
    ],
)
def test_labels_fall_on_their_beats(feel: str, lines: list[str], found: list[tuple[str, str]], why: str) -> None:
    assert places(section(*map(line_of, lines), head=f"feel: {feel}\n")) == found, why


def test_a_section_may_have_a_feel_of_its_own() -> None:
    text = sheet("== 1", "feel: rolling", "1&2 hold, hold, hold", "== 2", "1&2 hold, hold, hold")
    assert [str(event.beat) for event in events(text)] == ["0", "1/3", "1", "0", "1/2", "1"]
    assert [one.feel for one in routine(text).parts[0].sections] == ["rolling", None]


def test_labels_start_again_after_eight_and_in_a_waltz_after_six() -> None:
    twelve = events(section(line_of("1-8"), line_of("1-4")))
    assert [event.label for event in twelve] == [*"12345678", *"1234"]
    assert [event.beat for event in twelve] == list(range(12))
    waltz = events(section(line_of("1-6"), line_of("1-3"), head="time: 3/4\n"))
    assert [event.label for event in waltz] == [*"123456", *"123"]


@pytest.mark.parametrize(
    ("lines", "found", "words", "why"),
    [
        (["== 1", "1-8", "== 2", "9-12"], "1234", ["9-12"], "through the dance"),
        (["== 1", "1-8", "== 2", "1-4"], "1234", [""], "from 1"),
        (["== 1", "1-8", "9-12"], "1234", ["9-12"], "on in its section"),
        (["== part A", "== 1", "1-8", "== part B", "== 1", "9-12"], "1234", ["9-12"], "through all parts"),
        (["== 1", "1-8", "== 2", "> to the left", "9-12"], "1234", ["to the left\n9-12"], "beside the teacher's words"),
    ],
)
def test_a_sheet_that_counts_on_is_numbered_anew(lines: list[str], found: str, words: list[str], why: str) -> None:
    text = sheet(*(line_of(line) if line[0].isdigit() else line for line in lines))
    last = events(text)[-len(found) :]
    assert "".join(event.label for event in last) == found, why
    assert list(dict.fromkeys(event.words for event in last)) == words, why


def test_an_extra_carries_on_its_hosts_numbers() -> None:
    (tag,) = routine(sheet("== tag A", "7-8 hold, hold", "1-2 hold, hold")).extras
    assert [(event.label, event.beat) for event in tag.events] == [("7", 0), ("8", 1), ("1", 2), ("2", 3)]
    assert tag.counts == 4


def test_an_option_has_the_numbers_of_its_section() -> None:
    text = sheet("== 1", line_of("1-8"), "== 2", line_of("1-8"), "== option 2, counts 5-6", line_of("5-6"))
    (option,) = routine(text).options
    assert [(event.label, event.beat) for event in option.events] == [("5", 4), ("6", 5)]
    text = text.replace("counts 5-6", "counts 13-14").replace("\n5-6", "\n13-14")
    (through,) = routine(text).options
    assert (through.first, through.last) == (5, 6)
    assert [(event.label, event.beat, event.words) for event in through.events] == [
        ("5", 4, "13-14"),
        ("6", 5, "13-14"),
    ]


ROCK = "R rock back, L recover, R forward"


class TestTheOneOfEightAndOne:
    def test_it_is_the_first_event_of_the_next_section(self) -> None:
        text = sheet("== 1", line_of("1-7"), f"8&1 {ROCK}", "== 2", line_of("2-4"))
        first, second = routine(text).parts[0].sections
        assert (first.counts, second.counts) == (8, 4)
        assert [event.label for event in second.events] == [*"1234"]
        assert second.events[0].beat == 0
        assert second.events[0].weight == "R"

    def test_after_it_a_section_may_begin_with_an_and(self) -> None:
        text = sheet("== 1", line_of("1-7"), f"8&1 {ROCK}", "== 2", line_of("&2"))
        second = routine(text).parts[0].sections[1]
        assert [(event.label, str(event.beat)) for event in second.events] == [("1", "0"), ("&", "1/2"), ("2", "1")]

    def test_a_figure_keeps_its_steps_over_the_edge(self) -> None:
        text = sheet("== 1", line_of("1-7"), "8&1 R coaster step", "== 2", line_of("2-4"))
        coaster = [event.figure for event in events(text) if event.figure]
        assert [(mark.id, mark.name, mark.index) for mark in coaster] == [
            (1, "coaster step", index) for index in range(3)
        ]

    def test_at_the_end_of_the_dance_it_is_the_first_event_of_the_dance(self) -> None:
        text = sheet("== 1", line_of("2-8"), "== 2", line_of("1-7"), "8&1 R coaster step")
        first, second = routine(text).parts[0].sections
        assert (first.counts, second.counts) == (8, 8)
        opening = first.events[0]
        assert (opening.label, opening.beat, opening.weight) == ("1", 0, "R")
        assert [event.figure and event.figure.index for event in (opening, *second.events[-2:])] == [2, 0, 1]
        assert {event.figure and event.figure.id for event in (opening, *second.events[-2:])} == {1}

    def test_in_a_short_section_too(self) -> None:
        text = sheet("== 1", line_of("1-3"), "4&1 R coaster step", "== 2", line_of("2-4"))
        assert [one.counts for one in routine(text).parts[0].sections] == [4, 4]

    def test_at_the_end_of_a_danced_intro_it_is_the_first_event_of_the_dance(self) -> None:
        text = sheet("== intro", line_of("1-3"), "4&1 R sailor step", "== 1", line_of("2-8"))
        found = routine(text)
        assert found.extras[0].counts == 4
        assert found.parts[0].sections[0].events[0].figure == found.extras[0].events[-1].figure.but(index=2)  # type: ignore[union-attr]

    def test_intro_and_dance_may_end_alike_but_not_otherwise(self) -> None:
        lines = ["== intro", "4&1 R sailor step", "== 1", line_of("2-8"), "1-7  ".join(["", "hold, " * 6 + "hold"])]
        text = sheet(*lines[:4], "== 2", lines[4], "8&1 L back, R together, R side")
        assert len(events(text)) == 2 + 8 + 9
        assert problems(text.replace("R side", "R cross")) == [
            "8:25 error counts: Count 1 of the dance is written in two ways."
            " | Begin the first section with & or 2 where its count 1 stands here."
        ]

    @pytest.mark.parametrize(
        ("lines", "found", "why"),
        [
            (
                ["== 1", "1-7", f"8&1 {ROCK}", "== 2", "1-4"],
                "4:29 error counts: This 1 belongs to the next section, and that writes its own count 1."
                " | Begin the next section with & or 2; or is the next count of this one meant?",
                "the next section writes its own",
            ),
            (
                ["== 1", "1-7", f"8&1 {ROCK}"],
                "4:29 error counts: Count 1 of the dance is written twice."
                " | Begin the first section with & or 2 where its count 1 stands here.",
                "the dance writes its own",
            ),
            (
                ["== tag A", "1-7", f"8&1 {ROCK}"],
                "4:29 error counts: This 1 belongs to what comes next, and that is not the same every time."
                " | Write the 1 where it belongs; if it is a count of this block, give it a line of its own.",
                "what follows a tag is not certain",
            ),
            (
                ["== part A", "== 1", "1-7", f"8&1 {ROCK}", "== part B", "== 1", "1-4"],
                "5:29 error counts: This 1 belongs to what comes next, and that is not the same every time."
                " | Write the 1 where it belongs; if it is a count of this block, give it a line of its own.",
                "nor what follows a part",
            ),
            (
                ["== intro", "1-7", f"8&1 {ROCK}"],
                "4:29 error counts: This 1 belongs to what comes next, and that is not the same every time."
                " | Write the 1 where it belongs; if it is a count of this block, give it a line of its own.",
                "nor what follows an intro without a dance",
            ),
            (
                ["== 1", "2-8"],
                "3:1 error counts: These counts begin with 2; count 1 should come before."
                " | A count on which nothing happens is written `hold`.",
                "a first section without its 1 where nobody brings it",
            ),
        ],
    )
    def test_elsewhere_it_is_a_problem(self, lines: list[str], found: str, why: str) -> None:
        text = sheet(*(line_of(line) if line in ("1-7", "1-4", "2-8") else line for line in lines))
        assert problems(text) == [found], why


class TestOneFaultIsOneFinding:
    @pytest.mark.parametrize(
        ("lines", "found", "why"),
        [
            (["1-2 hold, hold", "3-5 hold, hold", "5-8 hold, hold, hold, hold"], "4:1", "a range too long"),
            (["1-2 hold, hold", "3 hold, hold", "5-8 hold, hold, hold, hold"], "4:1", "a range too short"),
            (["1-2 R rolling vine turning full right", "4-8 hold, hold, hold, hold, hold"], "3:1", "of a figure"),
            (["1-2 hold, hold", "5-6 hold, hold", "5-8 hold, hold, hold, hold"], "4:1", "another line's counts"),
            (["5-8 hold, hold, hold, hold", "5-8 hold, hold, hold, hold"], "3:1", "another line's counts at the start"),
            (["1-4 R flumble", "5-8 hold, hold, hold, hold"], "3:7", "an unknown figure takes what is there"),
            (["1-4 hold, R flumble, hold", "5-8 hold, hold, hold, hold"], "3:13", "what the others leave"),
            (["1-4 hold, R flumble", "5&6 R coaster step", "7-8 hold, hold"], "3:13", "and no more"),
            (["1&3 R coaster step", "3-8 hold, hold, hold, hold, hold, hold"], "3:3", "a misprint in a group"),
        ],
    )
    def test_the_lines_round_a_fault_are_not_blamed(self, lines: list[str], found: str, why: str) -> None:
        told = problems(section(*lines))
        assert [problem.split(" ")[0] for problem in told] == [found], why

    def test_what_a_line_cannot_hold_is_unread_and_keeps_its_words(self) -> None:
        from trainer.sheet.reading import read

        found = list(read(section("1-2 R walk, L walk, R walk, L walk, R walk, L walk, R walk, L walk"))[0].events())
        assert [event.status for event in found] == ["sure", "unread"]
        assert found[1].words == "L walk, R walk, L walk, R walk, L walk\nR walk, L walk"


class TestFiguresTakeTheirCounts:
    @pytest.mark.parametrize(
        ("line", "names", "why"),
        [
            ("1-4 R vine", ["vine"] * 4, "the pattern with its touch"),
            ("1-4 R vine, L touch", ["vine"] * 3 + [None], "or without, as the line comes out"),
            ("1&2-4 R shuffle, L rock step", ["shuffle"] * 3 + ["rock step"] * 2, "each its own"),
            ("1-4 R spiral turning full left, L vine", ["spiral"] + ["vine"] * 3, "one and three, not two and two"),
            ("1&2-4 R lindy", ["lindy"] * 5, "a pattern over groups"),
            ("1 R ball cross", [None], "a figure's name may be one step as well"),
            ("1-2 R ball cross", ["ball cross"] * 2, "where the counts say so"),
            ("1-2 swing: R ball cross, L touch", ["swing"] * 2, "spelled out it is one step"),
        ],
    )
    def test_so_that_the_line_comes_out(self, line: str, names: list[str | None], why: str) -> None:
        assert [event.figure and event.figure.name for event in events(section(line))] == names, why

    def test_the_longest_pattern_wins(self) -> None:
        # 4 + 2 and 3 + 3 both come out; the vine of four is the longest pattern.
        found = events(section("1-6 R vine, L weave", head="time: 3/4\n"))
        assert [event.figure and (event.figure.name, event.figure.index) for event in found][3:] == [
            ("weave", 0),
            ("weave", 1),
            ("weave", 2),
        ]


@pytest.mark.parametrize(
    ("text", "is_one", "why"),
    [
        ("1-2 R walk", True, "counts"),
        ("&1 R walk", True, "a pick-up"),
        ("a R walk", True, "an a by itself"),
        ("anchor", False, "a word that begins with a"),
        ("each", False, "a word that begins with e and a"),
        ("- hold", False, "a foot"),
        (", R walk", False, "a comma"),
    ],
)
def test_what_begins_a_count_line(text: str, is_one: bool, why: str) -> None:
    assert starts_with_counts(text) == is_one, why


def test_a_line_of_very_many_counts_is_refused() -> None:
    (problem,) = [one for one in problems(section(f"{'1-8 ' * 30} hold")) if "more than" in one]
    assert problem == f"3:1 error counts: One line has more than {MOST_IN_A_LINE} counts."


def test_a_dance_of_very_many_counts_is_refused() -> None:
    told = problems(section(*[line_of("1-8 " * 8)] * 140))
    assert "3:1 error counts: No dance has more than 2,000 counts; the rest is left out." not in told
    assert [one for one in told if "2,000" in one] == [
        "2:1 error counts: No dance has more than 2,000 counts.",
        "128:1 error counts: No dance has more than 2,000 counts; the rest is left out.",
    ]


@settings(max_examples=50)
@given(st.sampled_from(["straight", "swung", "rolling"]), st.integers(1, 8), st.integers(1, 20), st.data())
def test_labels_are_told_as_they_are_read(feel: Feel, start: int, counts: int, data: st.DataObject) -> None:
    slots = data.draw(labels(feel, 8, start, counts))
    made = [Event(label=label, beat=beat, foot=None, weight=None) for label, beat in slots]
    found = read_labels(Line(labels_told(made), ((0, 1, 1),)), Findings())
    assert [one.sub or str(one.number) for one in found.typed] == [label for label, _ in slots]


@settings(max_examples=50)
@given(st.lists(st.sampled_from(["1", "2", "3", "8", "&", "a", "1-4", "9-12", "&1", "4-2"]), max_size=12))
def test_beats_rise_whatever_is_typed(typed: list[str]) -> None:
    from trainer.sheet.reading import read

    found = read(section(*(line_of(one) for one in typed), "8 hold"))[0]
    beats = [event.beat for event in found.parts[0].sections[0].events]
    assert beats == sorted(set(beats))
    assert all(isinstance(beat, Fraction) for beat in beats)
