"""Unrolling 1,000 walls of 48 counts against 100 walls, and looking at one place of it against looking at all.

Printed as ratios, not asserted: ten times the walls should take about ten times as long (linear), and the aim is under
50 ms for 1,000 walls. Run from the checkout:

    python -m tests.bench.bench_unroll
"""

import statistics
import time
from collections.abc import Callable
from fractions import Fraction

from tests.dance.making import EIGHT, QUARTER, after, dance, extra, hold, section, tag, wall
from trainer.dance.proof import proofread
from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll

TURNS = 15
PLAIN = dance(*(section(str(number), EIGHT) for number in range(1, 6)), section("6", QUARTER))
BELL = extra("tag", "Bell", "1 R sway, 2 L sway, 3 R sway, 4 L sway")
DEPARTING = PLAIN.but(
    extras=(BELL,),
    order=(
        wall(tuple(range(2, 1000, 3)), after(16, leave="restart")),
        wall(tuple(range(3, 1000, 3)), after(8, hold(2)), after(48, tag("Bell"))),
    ),
)


def milliseconds(work: Callable[[], object]) -> float:
    """Return the median processor time of some turns; other work on the machine does not count."""
    taken = []
    for _ in range(TURNS):
        begun = time.process_time()
        work()
        taken.append(time.process_time() - begun)
    return statistics.median(taken) * 1000


def main() -> None:
    """Print the ratios."""
    hundred, thousand = milliseconds(lambda: unroll(PLAIN, 100)), milliseconds(lambda: unroll(PLAIN, 1000))
    print(f"unroll 1,000 walls of 48 counts: {thousand:.1f} ms, {thousand / 50:.2f} of the 50 ms aimed at")
    print(f"1,000 walls against 100: {thousand / hundred:.1f} x (10 is linear)")
    few, many = milliseconds(lambda: unroll(DEPARTING, 100)), milliseconds(lambda: unroll(DEPARTING, 1000))
    print(f"the same with a departure on two walls of three: {many:.1f} ms, {many / few:.1f} x")
    timeline = unroll(PLAIN, 1000)
    middle = timeline.ends / 2
    one = milliseconds(lambda: timeline.window(middle, middle + 8))
    whole = milliseconds(lambda: sum(1 for _ in timeline.danced()))
    print(f"a window of 8 counts in the middle: {one:.2f} ms, 1/{whole / one:.0f} of going through all {whole:.0f} ms")
    rows = milliseconds(lambda: sum(1 for _ in as_rows(unroll(PLAIN, 100), Fraction(100))))
    print(f"rows of 100 walls: {rows:.0f} ms, {rows * 1000 / 4800:.0f} microseconds a count")
    print(f"proofreading the plain dance: {milliseconds(lambda: proofread(PLAIN)):.1f} ms")


if __name__ == "__main__":
    main()
