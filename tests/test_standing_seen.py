"""What somebody sees who stands opposite, without a screen."""

from fractions import Fraction

from tests.dances import quay
from trainer.dance.facing import clock
from trainer.dance.unroll import unroll
from trainer.practice.chart import Chart
from trainer.practice.floor import floor_view
from trainer.practice.standing import Standing, called_and_shown
from trainer.practice.take import Place, looped


def test_what_to_mend_in_a_loop_is_said_to_who_reads_it():
    """The second section turns a quarter: the class goes back to 12:00, who faces it to 6:00."""
    timeline = unroll(quay())
    take = looped(timeline, timeline.passes[0].start + 8, timeline.passes[0].start + 16)
    in_the_seam = Place(1, take.first, Fraction(2))
    _, shown = called_and_shown(timeline, Standing.FACING_CLASS)
    of_class, of_teacher = (floor_view(Chart(one), take, in_the_seam).mend for one in (timeline, shown))
    assert of_class is not None
    assert of_teacher is not None
    assert (clock(of_class.facing), clock(of_teacher.facing)) == ("12:00", "6:00")


def test_as_written_and_following_show_what_is_called():
    timeline = unroll(quay())
    assert called_and_shown(timeline, Standing.AS_WRITTEN) == (timeline, timeline)
    called, shown = called_and_shown(timeline, Standing.FOLLOWING)
    assert called is shown
    assert called != timeline


def test_the_ways_to_stand_come_round():
    ways = [Standing.AS_WRITTEN]
    for _ in range(3):
        ways.append(ways[-1].next)
    assert ways == [Standing.AS_WRITTEN, Standing.FACING_CLASS, Standing.FOLLOWING, Standing.AS_WRITTEN]
