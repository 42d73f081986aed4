"""Laws of the dance as properties: of sound dances, of dances with one slip, and of routines that hold anything."""

from fractions import Fraction
from itertools import pairwise

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.dance.making import after, dance, wall
from tests.dance.strategies import anything, restful, sections, sound
from trainer.dance.facing import walls_home
from trainer.dance.figures import moves
from trainer.dance.footing import OTHER
from trainer.dance.mirror import mirror
from trainer.dance.proof import proofread
from trainer.dance.rows import as_rows
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import MOST_UNASKED, unroll
from trainer.routine import Event, Routine, Section

some = settings(max_examples=40, deadline=None)


def net(whole: tuple[Section, ...]) -> Fraction:
    return sum((event.turn for one in whole for event in one.events), Fraction(0))


@given(sound(), st.integers(1, 12))
@some
def test_lengths_add_up(routine: Routine, passes: int) -> None:
    timeline = unroll(routine, passes)
    assert timeline.ends == timeline.wait + sum(one.ends - one.start for one in timeline.passes)
    for one in timeline.passes:
        stretches = one.stretches
        assert all(early.ends == late.begins for early, late in pairwise(stretches))
        assert (stretches[0].begins, stretches[-1].ends) == (one.start, one.ends)
        extras = sum(stretch.block.counts for stretch in stretches if stretch.block.kind != "part")
        assert one.danced + extras == one.ends - one.start
    assert all(early.ends == late.start for early, late in pairwise(timeline.passes))


@given(sound())
@some
def test_counts_strictly_rise(routine: Routine) -> None:
    danced = [one.beat for one in unroll(routine).danced()]
    assert all(early < late for early, late in pairwise(danced))


@given(sections())
@some
def test_n_walls_bring_the_facing_home_and_no_fewer(whole: tuple[Section, ...]) -> None:
    timeline = unroll(dance(*whole))
    assert len(timeline.passes) == walls_home(net(whole))
    assert [one.end_facing == 0 for one in timeline.passes].index(True) == len(timeline.passes) - 1


@given(sections(), st.data(), st.integers(1, 4))
@some
def test_a_restart_never_lengthens(whole: tuple[Section, ...], data: st.DataObject, number: int) -> None:
    count = data.draw(st.integers(0, sum(one.counts for one in whole)))
    plain, cut = (
        unroll(dance(*whole), 5),
        unroll(dance(*whole, order=(wall(number, after(count, leave="restart")),)), 5),
    )
    assert cut.ends <= plain.ends
    assert cut.passes[number - 1].danced == count
    events = [sum(1 for _ in timeline.danced()) for timeline in (cut, plain)]
    assert events[0] <= events[1]


@given(sound())
@some
def test_every_facing_is_the_one_before_it_and_the_turn(routine: Routine) -> None:
    facing = Fraction(0)
    for one in unroll(routine).danced():
        facing = (facing + one.turn) % 1
        assert one.facing == facing


@given(sound())
@some
def test_a_hold_or_a_gesture_leaves_the_weight_and_a_step_takes_it(routine: Routine) -> None:
    weight = routine.starts
    for one in unroll(routine).danced():
        assert one.event.move is not None
        if moves()[one.event.move].weight == "takes":
            assert one.weight == one.foot == OTHER[weight]
            weight = OTHER[weight]
        assert one.weight == weight


@given(sound(), st.integers(2, 40))
@some
def test_rows_are_shared(routine: Routine, passes: int) -> None:
    timeline = unroll(routine, passes)
    parts = {id(one.block) for pass_ in timeline.passes for one in pass_.stretches if one.block.kind == "part"}
    assert len(parts) == 1
    blocks = {id(one.block) for pass_ in timeline.passes for one in pass_.stretches}
    # The part, the tag, and holds of two lengths on either foot.
    assert len(blocks) <= 1 + 1 + 4


@given(sound(), st.data())
@some
def test_a_window_is_what_is_danced_between_two_beats(routine: Routine, data: st.DataObject) -> None:
    timeline = unroll(routine)
    points = st.fractions(Fraction(-1), timeline.ends + 2, max_denominator=4)
    first, last = sorted((data.draw(points), data.draw(points)))
    assert timeline.window(first, last) == [one for one in timeline.danced() if first <= one.beat < last]


@given(sound())
@some
def test_mirror_twice_is_the_same_and_once_is_danced_in_the_mirror(routine: Routine) -> None:
    seen = mirror(routine)
    assert mirror(seen) == routine
    assert [(one.beat, -one.facing % 1, -one.turn) for one in unroll(routine).danced()] == [
        (one.beat, one.facing, one.turn) for one in unroll(seen).danced()
    ]
    assert proofread(seen) == proofread(routine)


@given(sound())
@some
def test_proofreading_is_silent_on_a_sound_dance(routine: Routine) -> None:
    assert proofread(routine) == ()


def slipped(routine: Routine, event: Event, other: Event) -> Routine:
    """The routine with one event written otherwise; gestures and holds after it keep the weight where it is then."""

    def reread(section: Section) -> Section:
        weight, events = routine.starts, []
        for one in section.events:
            one = other if one is event else one
            kept = one.move is not None and moves()[one.move].weight != "takes"
            events.append(one.but(weight=weight) if kept and one is not other else one)
            weight = events[-1].weight or weight
        return section.but(events=tuple(events))

    part = routine.parts[0]
    return routine.but(parts=(part.but(sections=tuple(map(reread, part.sections))),))


def written(routine: Routine) -> list[Event]:
    return [event for one in routine.parts[0].sections for event in one.events]


@given(sound(), st.data())
@some
def test_one_wrong_foot_is_one_finding_at_its_line(routine: Routine, data: st.DataObject) -> None:
    stepped = [event for event in written(routine) if event.foot == event.weight]
    assume(stepped)
    event = data.draw(st.sampled_from(stepped))
    assert event.foot is not None
    assert event.weight is not None
    wrong = event.but(foot=event.foot.mirrored, weight=OTHER[event.weight])
    (problem,) = proofread(slipped(routine, event, wrong))
    assert event.span is not None
    assert (problem.kind, problem.line) == ("weight", event.span.line)


@given(sound(), st.data())
@some
def test_one_wrong_facing_is_one_finding_at_its_line(routine: Routine, data: st.DataObject) -> None:
    turned, stated = Fraction(0), {}
    for event in written(routine):
        turned += event.turn
        stated[id(event)] = event.but(facing=turned % 1)
    sections = tuple(
        one.but(events=tuple(stated[id(event)] for event in one.events)) for one in routine.parts[0].sections
    )
    told = routine.but(parts=(routine.parts[0].but(sections=sections),))
    assert proofread(told) == ()
    # A wrong turn on the first event of all shifts every statement: that may be the frame that was meant.
    event = data.draw(st.sampled_from(written(told)[1:]))
    off = data.draw(st.integers(1, 7))
    assert event.facing is not None
    wrong = {"facing": (event.facing + Fraction(off, 8)) % 1}
    wrong |= {"turn": event.turn + Fraction(off, 8), "facing": event.facing} if data.draw(st.booleans()) else {}
    (problem,) = proofread(slipped(told, event, event.but(**wrong)))
    assert event.span is not None
    assert (problem.kind, problem.line) == ("facing", event.span.line)


@given(anything)
@settings(max_examples=60, deadline=None)
def test_whatever_a_routine_holds_it_is_unrolled_and_proofread(routine: Routine) -> None:
    for timeline in (unroll(routine), unroll(routine, 7, routine.options)):
        assert len(timeline.passes) <= MOST_UNASKED
        assert all(early.start <= late.start for early, late in pairwise(timeline.passes))
        rows = list(as_rows(timeline, routine.tempo))
        assert len(rows) == sum(one.last - one.first for pass_ in timeline.passes for one in pass_.stretches)
    proofread(routine)
    assert mirror(mirror(routine)) == routine


def counted(timeline: Timeline) -> int:
    return sum(1 for _ in timeline.danced())


@given(sections())
@some
def test_counts_where_a_dance_may_be_left_are_its_own(whole: tuple[Section, ...]) -> None:
    routine = dance(*whole)
    for count in restful(whole)[:4]:
        cut = unroll(routine.but(order=(wall(1, after(count, leave="restart")),)), 1)
        assert counted(cut) <= counted(unroll(routine, 1))
        assert cut.passes[0].ends == count
