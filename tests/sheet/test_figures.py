"""The table of figures against published footwork, and `expand`, which turns a figure's name into steps.

FACTS holds, for each figure, the feet in order as glossaries have them for a start on the right foot: a capital takes
weight, a small letter is that foot without weight, "-" nothing or a turn on the standing foot; then the changes of
weight, and the foot that is free afterwards. Sources: the keys at the head of the figures in figures.toml; "mem" is
common practice, from memory, no source.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.dance.figures import Form, Step, expand, figures, fill, mirrored, moves, pattern, weight_after
from trainer.sheet.vocabulary import directions, parts_of, steps
from trainer.terms import Direction, Foot, Label, Move, Weight

FACTS = [
    # figure, counts, direction, feet, changes of weight, free afterwards, usual turn, source
    ("shuffle", "1&2", None, "R L R", 3, "L", "0", "MAV, DG, PAS, TPE"),
    ("chasse", "1&2", None, "R L R", 3, "L", "0", "MAV, DG, PAS, TPE"),
    ("triple step", "1&2", None, "R L R", 3, "L", "0", "MAV, DG, PAS, TPE"),
    ("anchor step", "1&2", None, "R L R", 3, "L", "0", "MAV, DG, PAS, TPE"),
    ("coaster step", "1&2", None, "R L R", 3, "L", "0", "WT, RAY, PAS"),
    ("coaster step", "1&2", "forward", "R L R", 3, "L", "0", "WT: a forward coaster"),
    ("sailor step", "1&2", None, "R L R", 3, "L", "0", "RAY"),
    ("cross shuffle", "1&2", None, "R L R", 3, "L", "0", "mem"),
    ("kick ball change", "1&2", None, "r R L", 2, "R", "0", "RAY"),
    ("ball change", "&1", None, "R L", 2, "R", "0", "WT, PALM"),
    ("ball step", "&1", None, "R L", 2, "R", "0", "WT, mem"),
    ("rock step", "1-2", None, "R L", 2, "R", "0", "BNS"),
    ("rocking chair", "1-4", None, "R L R L", 4, "R", "0", "mem"),
    ("vine", "1-3", None, "R L R", 3, "L", "0", "NTA, RAY, BNS, DG"),
    ("vine", "1-4", None, "R L R l", 3, "L", "0", "NTA, RAY, BNS, DG"),
    ("weave", "1-4", None, "R L R L", 4, "R", "0", "BNS, MAV"),
    ("pivot turn", "1-2", None, "R L", 2, "R", "-1/2", "BNS, TPE, PAS, RAY"),
    ("chase turn", "1&2", None, "R L R", 3, "L", "-1/2", "mem"),
    ("spot turn", "1-2&", None, "R L R", 3, "L", "-1", "mem"),
    ("spot turn", "1-3&4", None, "R L R L R", 5, "L", "-1", "mem"),
    ("spot turn", "1-2", None, "R L", 2, "R", "-1", "mem"),
    ("paddle turn", "1-2", None, "r -", 0, "R", "-1/4", "TPE: the unweighted foot pushes"),
    ("paddle turn", "&1", None, "r -", 0, "R", "-1/4", "TPE"),
    ("monterey", "1-4", None, "r R l L", 2, "R", "1/2", "TPE, RAY"),
    ("jazz box", "1-4", None, "R L R L", 4, "R", "0", "TPE, RAY, DG"),
    ("rumba box", "1-8", None, "R L R - L R L -", 6, "R", "0", "EUM"),
    ("lindy", "1&2-4", None, "R L R L R", 5, "L", "0", "mem"),
    ("cha cha basic", "1-3&4", None, "R L R L R", 5, "L", "0", "WT"),
    ("mambo", "1&2", None, "R L R", 3, "L", "0", "TPE"),
    ("mambo", "1-4", None, "R L R -", 3, "L", "0", "TPE: 1-2-3-hold"),
    ("scissor", "1-3", None, "R L R", 3, "L", "0", "RAY"),
    ("scissor", "1-4", None, "R L R -", 3, "L", "0", "RAY"),
    ("scissor", "1&2", None, "R L R", 3, "L", "0", "mem"),
    ("toe strut", "1-2", None, "r R", 1, "L", "0", "BNS"),
    ("heel strut", "1-2", None, "r R", 1, "L", "0", "BNS"),
    ("charleston", "1-4", None, "R l L r", 2, "R", "0", "WT, RAY"),
    ("charleston", "1-4", "forward", "r R l L", 2, "R", "0", "PAS, PALM"),
    ("heel grind", "1-2", None, "R L", 2, "R", "0", "mem"),
    ("hip bumps", "1-2", None, "- -", 0, "R", "0", "PALM"),
    ("spiral", "1-2", None, "R -", 1, "L", "-1", "mem"),
    ("cross unwind", "1-2", None, "r -", 0, "R", "-1/2", "mem"),
    ("behind unwind", "1-2", None, "r -", 0, "R", "1/2", "mem"),
    ("full turn", "1-2", None, "R L", 2, "R", "-1", "mem"),
    ("rolling vine", "1-3", None, "R L R", 3, "L", "1", "mem"),
    ("rolling vine", "1-4", None, "R L R l", 3, "L", "1", "mem"),
    ("twinkle", "1-3", None, "R L R", 3, "L", "0", "TPE"),
    ("waltz basic", "1-3", None, "R L R", 3, "L", "0", "mem"),
    ("waltz basic", "1-6", None, "R L R L R L", 6, "R", "0", "mem"),
    ("waltz balance", "1-3", None, "R L R", 3, "L", "0", "EUM: three changes of weight"),
    ("waltz balance", "1-3", "forward", "R l -", 1, "L", "0", "FM: one change of weight"),
    ("waltz box", "1-6", None, "R L R L R L", 6, "R", "0", "EUM, WP"),
    ("nightclub basic", "1-2&", None, "R L R", 3, "L", "0", "SEARS: slow, quick, quick"),
    ("lock step", "1&2", None, "R L R", 3, "L", "0", "PAS"),
    ("lock step", "1-3", None, "R L R", 3, "L", "0", "PAS"),
    ("dorothy", "1-2&", None, "R L R", 3, "L", "0", "mem"),
    ("vaudeville", "1&2&", None, "R L r R", 3, "L", "0", "mem"),
    ("heel jack", "&1&2", None, "R l L R", 3, "L", "0", "mem"),
    ("heel switches", "1&2&", None, "r R l L", 2, "R", "0", "mem"),
    ("walks", "1-2", None, "R L", 2, "R", "0", "mem"),
    ("runs", "1&2", None, "R L R", 3, "L", "0", "mem"),
    ("step touch", "1-2", None, "R l", 1, "L", "0", "DG, BNS"),
    ("step drag", "1-2", None, "R l", 1, "L", "0", "BNS"),
    ("arabesque", "1", None, "r", 0, "R", "0", "EVV"),
    ("heel split", "1-2", None, "- -", 0, "R", "0", "BNS"),
    ("heel swivels", "1-2", None, "- -", 0, "R", "0", "BNS"),
    ("applejack", "&1", None, "- -", 0, "R", "0", "AJ"),
    ("triple full turn", "1&2", None, "R L R", 3, "L", "1", "mem"),
    ("v step", "1-4", None, "R L R L", 4, "R", "0", "mem"),
    ("samba whisk", "1a2", None, "R L R", 3, "L", "0", "mem"),
    ("botafogo", "1a2", None, "R L R", 3, "L", "0", "mem"),
    ("volta", "1a2a3a4", None, "R L R L R L R", 7, "L", "0", "mem"),
    ("prissy walk", "1", None, "R", 1, "L", "0", "mem"),
    ("camel walk", "1", None, "R", 1, "L", "0", "mem"),
    ("k step", "1-8", None, "R l L r R l L r", 4, "R", "0", "mem"),
    ("figure of eight vine", "1-8", None, "R L R L R L R L", 8, "R", "3/4", "mem"),
    ("out out", "&1", None, "R L", 2, "R", "0", "mem"),
]

TURNS = [
    # figure, counts, foot, turn said, where it falls, why
    ("shuffle", "1&2", "R", "1/2", "1/4 0 1/4", "a shuffle 1/2 turns 1/4, 0, 1/4"),
    ("shuffle", "1&2", "L", "-1/2", "-1/4 0 -1/4", "its mirror"),
    ("shuffle", "1&2", "R", "1/4", "0 0 1/4", "a quarter on its last step"),
    ("triple step", "1&2", "R", "3/4", "1/4 1/4 1/4", "evenly"),
    ("pivot turn", "1-2", "R", "-1/2", "0 -1/2", "on its second count, away from the stepping foot"),
    ("pivot turn", "1-2", "L", "1/4", "0 1/4", "away from the stepping foot"),
    ("chase turn", "1&2", "L", "1/2", "0 1/2 0", "on the pivot"),
    ("monterey", "1-4", "R", "1/2", "0 1/2 0 0", "on count 2, towards the pointing foot (TPE)"),
    ("monterey", "1-4", "L", "-1/4", "0 -1/4 0 0", "the same to the left (TPE)"),
    ("jazz box", "1-4", "R", "1/4", "0 0 1/4 0", "on its third step"),
    ("sailor step", "1&2", "L", "-1/4", "-1/4 0 0", "on its first step"),
    ("full turn", "1-2", "R", "-1", "-1/2 -1/2", "a full turn in two steps: 1/2 and 1/2"),
    ("rolling vine", "1-3", "R", "1", "1/4 1/2 1/4", "a quarter, a half, a quarter"),
    ("walk around", "1-4", "R", "1", "1/4 1/4 1/4 1/4", "a circle evenly"),
    ("walk around", "1-8", "L", "-1", "-1/8 -1/8 -1/8 -1/8 -1/8 -1/8 -1/8 -1/8", "a circle evenly"),
    ("spot turn", "1-2&", "R", "-1", "-1/4 -1/2 -1/4", "away from the foot that crosses"),
    ("spiral", "1", "R", "-1", "-1", "on the standing foot, which is the turn of its count"),
    ("figure of eight vine", "1-8", "R", "3/4", "0 0 1/4 0 1/2 1/4 0 -1/4", "three quarters in all"),
    ("volta", "1a2a3a4", "L", "-1", "-1/4 0 -1/4 0 -1/4 0 -1/4", "evenly over its crossing steps"),
]

FORMS = [(name, form) for name, figure in figures().items() for form in figure.forms]


def filled(form: Form) -> tuple[Step, ...]:
    found = fill(form, None, form.turning[0] if form.turning else Fraction(0), carried="L")
    assert found is not None
    return found


def as_letters(found: tuple[Step, ...]) -> str:
    """The steps as FACTS writes them."""
    letters, before = [], "L"
    for step in found:
        stands = step.foot in (Foot.NONE, Foot.BOTH) or moves()[step.move].weight == "open"
        letter = "-" if stands and step.weight in (before, None) else step.foot.value
        letters.append(letter if step.weight != before and step.weight else letter.lower())
        before = step.weight or before
    return " ".join(letters)


@pytest.mark.parametrize(
    ("name", "counts", "way", "feet", "changes", "free", "turn", "source"),
    FACTS,
    ids=[f"{name} {counts} {way or ''}" for name, counts, way, *_ in FACTS],
)
def test_a_figure_has_the_published_feet(
    name: str, counts: str, way: str | None, feet: str, changes: int, free: str, turn: str, source: str
) -> None:
    found = expand_all(name, counts, way)
    assert feet in [as_letters(one) for one in found], source
    assert sum(letter.isupper() for letter in feet) == changes
    assert free == ("L" if changes % 2 else "R")
    assert figures()[name].turn == (Fraction(turn) or None)


def expand_all(name: str, counts: str, way: str | None) -> list[tuple[Step, ...]]:
    """What the first form that fits comes to, in the direction said."""
    direction = Direction(way) if way else None
    turn = figures()[name].turn or Fraction(0)
    found = [fill(form, direction, turn) for form in figures()[name].fitting(pattern(counts))]
    return [one for one in found if one is not None]


@pytest.mark.parametrize(
    ("name", "counts", "foot", "turn", "falls", "why"), TURNS, ids=[f"{row[0]} {row[2]} {row[3]}" for row in TURNS]
)
def test_a_turn_falls_where_it_does_by_convention(
    name: str, counts: str, foot: str, turn: str, falls: str, why: str
) -> None:
    found = expand(name, Foot(foot), pattern(counts), turn=Fraction(turn))
    assert found is not None
    assert [step.turn for step in found] == [Fraction(share) for share in falls.split()], why
    assert sum(step.turn for step in found) == Fraction(turn)


@pytest.mark.parametrize(("name", "form"), FORMS, ids=[f"{name} {index}" for index, (name, _) in enumerate(FORMS)])
class TestEveryForm:
    def test_an_even_number_of_weight_changes_frees_the_starting_foot_again(self, name: str, form: Form) -> None:
        # facts of the trade, section 1: changes of weight even <=> the foot that began is free again
        found = filled(form)
        taken = sum(moves()[step.move].weight == "takes" for step in found)
        assert (found[-1].weight or "L") == ("R" if taken % 2 else "L")

    def test_no_foot_steps_that_carries_and_none_gestures_on_which_one_stands(self, name: str, form: Form) -> None:
        carried: Weight = "L"
        for step in filled(form):
            if moves()[step.move].weight in ("takes", "none") and step.foot in (Foot.RIGHT, Foot.LEFT):
                assert step.foot.value != carried
            carried = step.weight or carried

    def test_patterns_and_shares_have_one_entry_for_each_step(self, name: str, form: Form) -> None:
        assert form.counts
        for labels in form.counts:
            assert len(labels) == len(form.steps)
        for shares in form.falls:
            assert len(shares) == len(form.steps)
            assert sum(shares) == 1

    def test_a_step_travels_where_the_clause_may_say_a_direction(self, name: str, form: Form) -> None:
        assert not any(form.travelling) or form.ways


@pytest.mark.parametrize("name", figures())
def test_a_figure_has_a_short_name_a_source_and_a_way_to_its_usual_turn(name: str) -> None:
    figure = figures()[name]
    assert 0 < len(figure.short) <= 13
    assert figure.short == figure.short.upper()
    assert figure.source
    assert figure.words[0] == name
    if figure.turn is not None:
        assert any(fill(form, None, figure.turn) for form in figure.forms)


def test_no_name_belongs_to_two_figures_or_to_a_figure_and_a_move_or_a_direction() -> None:
    owners: dict[tuple[str, ...], set[str]] = {}
    for figure in figures().values():
        for word in figure.words:
            owners.setdefault(parts_of(word), set()).add(figure.name)
    for row in moves().values():
        for word in row.words:
            owners.setdefault(parts_of(word), set()).add(f"move {row.move}")
    assert {name: found for name, found in owners.items() if len(found) > 1} == {}
    assert not set(owners) & set(directions())
    assert set(owners) == set(steps())


def test_the_table_of_moves_is_the_closed_list_of_moves() -> None:
    assert set(moves()) == set(Move)
    for move, row in moves().items():
        assert row.words[0] == move.value
        assert 0 < len(row.short) <= 13


ALL_CALLS = st.sampled_from(
    [(name, labels, way) for name, form in FORMS for labels in form.counts for way in (None, *form.ways)]
)


@given(ALL_CALLS, st.sampled_from(["0", "1/4", "-1/2", "1"]))
def test_a_start_on_the_left_is_the_mirror_of_a_start_on_the_right(
    call: tuple[str, tuple[Label, ...], Direction | None], turn: str
) -> None:
    name, labels, way = call
    right = expand(name, Foot.RIGHT, labels, direction=way, turn=Fraction(turn))
    left = expand(name, Foot.LEFT, labels, direction=way and way.mirrored, turn=-Fraction(turn))
    assert (right is None) == (left is None)
    if right is not None and left is not None:
        assert left == tuple(mirrored(step) for step in right)
        assert tuple(mirrored(mirrored(step)) for step in right) == right


@given(ALL_CALLS, st.sampled_from(["0", "1/4", "-1/2", "1"]))
def test_a_figure_turns_as_far_as_it_is_told(call: tuple[str, tuple[Label, ...], Direction | None], turn: str) -> None:
    name, labels, way = call
    found = expand(name, Foot.RIGHT, labels, direction=way, turn=Fraction(turn))
    if found is not None:
        assert len(found) == len(labels)
        assert sum(step.turn for step in found) == Fraction(turn)


@pytest.mark.parametrize(
    ("figure", "foot", "labels", "way", "turn", "why"),
    [
        ("flumble", "R", "1&2", None, "0", "no such figure"),
        ("shuffle", "-", "1&2", None, "0", "a shuffle starts with a foot"),
        ("shuffle", "B", "1&2", None, "0", "with one"),
        ("shuffle", "R", "1-2", None, "0", "not danced to two counts"),
        ("shuffle", "R", "1&3", None, "0", "1&3 is a misprint (RAY and TPE both have one)"),
        ("coaster step", "R", "1&2", "left", "0", "goes back or forward"),
        ("heel split", "-", "1-2", None, "1/4", "does not turn"),
    ],
)
def test_what_does_not_fit_gives_nothing(
    figure: str, foot: str, labels: str, way: str | None, turn: str, why: str
) -> None:
    direction = Direction(way) if way else None
    labels_ = pattern(labels) if labels != "1&3" else ("1", "&", "3")
    assert expand(figure, Foot(foot), labels_, direction=direction, turn=Fraction(turn)) is None, why


@pytest.mark.parametrize(
    ("labels", "why"),
    [("3 & 4", "moved on"), ("7 & 8", "the last"), ("8 & 1", "over the edge"), ("6 & 1", "in a waltz")],
)
def test_a_pattern_fits_wherever_its_counts_fall(labels: str, why: str) -> None:
    assert expand("coaster step", Foot.LEFT, labels.split(), turn=Fraction(0)) is not None, why  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("move", "foot", "before", "after", "why"),
    [
        ("step", "R", "L", "R", "a step takes weight"),
        ("step", "R", "R", "R", "also where that is a fault"),
        ("touch", "R", "L", "L", "a touch does not"),
        ("touch", "R", "R", "R", "a touch by the standing foot is a fault and moves no weight"),
        ("touch", "R", None, "L", "who touches with R stands on L"),
        ("heel", "R", "B", "L", "so does who lifts one of two weighted feet"),
        ("hop", "R", "R", "R", "a hop lands on its foot"),
        ("jump", "-", "R", "B", "a jump lands on both"),
        ("jump", "L", "R", "L", "or on the foot named"),
        ("sway", "R", "L", "R", "a sway is taken to end on its foot"),
        ("bump", "R", "L", "L", "a bump is taken to change nothing"),
        ("hold", "-", "L", "L", "a hold changes nothing"),
        ("hold", "-", None, None, "what was not known stays so"),
    ],
)
def test_weight_after(move: str, foot: str, before: Weight | None, after: Weight | None, why: str) -> None:
    assert weight_after(Move(move), Foot(foot), before) == after, why
