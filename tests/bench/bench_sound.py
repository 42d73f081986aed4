"""What sound costs, as parts of its own length: a block of 1,024 frames, a dance through the transport, a track.

Aims: 1,024 frames in under 2 % of their length; a 4-minute track at over 300 times real time. Run from the checkout:

    python -m tests.bench.bench_sound
"""

import statistics
import tempfile
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

from tests.sound.scenes import eight, lantern, plain
from trainer.dance.unroll import unroll
from trainer.practice.take import Take, whole
from trainer.sound.device.simulated import HandClock, Library
from trainer.sound.device.watched import Watched
from trainer.sound.export import write_wav
from trainer.sound.program import Program
from trainer.sound.score import Score
from trainer.sound.transport import Transport
from trainer.timing import RATE

BLOCK = 1024


def timed(work: Callable[[], object]) -> float:
    """Return the seconds that something takes."""
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


def blocks() -> None:
    """Render the fullest section that a sheet can have, at 240 counts a minute, block by block."""
    fullest = plain([eight("1", " ".join(f"{count} e & a" for count in range(1, 9)))])
    score = Score.starting(Take(fullest, Fraction(0), Fraction(8), None), Fraction(240))
    program = Program().started(score, 1, 0)
    spent = [timed(lambda at=at: program.render(at, BLOCK)) for at in range(0, 60 * RATE, BLOCK)]  # type: ignore[misc]
    length = BLOCK / RATE
    worst = sorted(spent)[int(len(spent) * 0.99)]
    print(
        f"block of {BLOCK} frames: {statistics.median(spent) / length:.2%} of its length, "
        f"99 of 100 {worst / length:.2%}"
    )
    pure = [timed(lambda at=at: score.render(at, BLOCK)) for at in range(0, 10 * RATE, BLOCK)]  # type: ignore[misc]
    print(f"the same, resolved anew for each block: {statistics.median(pure) / length:.2%}")


def dance() -> None:
    """Dance ten minutes on a simulated device, looked at 30 times a second."""
    clock = HandClock()
    library = Library(clock, keep=False)

    def at_once(work: Callable[[], None], wait: float) -> None:
        work()

    transport = Transport(Watched("simulated", library.opener, clock=clock, spawn=at_once), clock=clock)
    transport.load(Take(unroll(lantern(), 4), Fraction(16), Fraction(48), None), Fraction(120))
    transport.start()
    spent = timed(lambda: library.run(600, transport.now))
    print(f"dancing: {spent / 600:.2%} of the time, device's and screen's side together")
    keys = [timed(lambda tempo=tempo: transport.set_tempo(Fraction(tempo))) for tempo in range(60, 160)]  # type: ignore[misc]
    print(f"a tempo key: {statistics.median(keys) * 1000:.1f} ms, worst {max(keys) * 1000:.1f} ms")


def track() -> None:
    """Write a track of four minutes."""
    take = whole(unroll(lantern(), 14))
    score = Score.starting(take, Fraction(117))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "track.wav"
        begin = time.perf_counter()
        frames = write_wav(score, path)
        spent = time.perf_counter() - begin
        print(
            f"track of {frames / RATE:.0f} s: {frames / RATE / spent:.0f} times real time, "
            f"{path.stat().st_size >> 20} MiB"
        )


def long_dance() -> None:
    """Start a dance of a thousand walls: nothing of it is made before it is near."""
    timeline = unroll(lantern(), 1000)
    score = Score.starting(whole(timeline), Fraction(120))
    print(f"start of a thousand walls: {timed(lambda: Program().started(score, 1, 0)) * 1000:.1f} ms")


if __name__ == "__main__":
    blocks()
    dance()
    track()
    long_dance()
