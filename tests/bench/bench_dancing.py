"""The processor while dancing with sound, held against a Textual app of the same size with one Static.

The sound goes to a PulseAudio of the bench's own, whose processor is not counted. Aim: 1.5 x. Run it from the checkout:

    python -m tests.bench.bench_dancing [COLUMNSxROWS ...]
"""

import statistics
import sys
import tempfile
from pathlib import Path

from tests.bench import bench_start
from tests.sound.live import server
from tests.sound.pulse import missing
from trainer.practice.shelf import Shelf
from trainer.resources import folder

OURS = bench_start.OURS.replace("device='silent'", "device=''")
TURNS = 3


def dancing(code: str, ready: bytes, keys: bytes, size: tuple[int, int], data: str) -> float:
    """Return the share of one processor that a program takes, once the sound is open."""
    program = bench_start.Running(code, *size, data)
    try:
        program.read_until(ready)
        program.read_for(4.0)
        program.press(keys)
        program.read_for(4.0)  # past the count-in
        before = program.processor()
        program.read_for(bench_start.SECONDS)
        return (program.processor() - before) / bench_start.SECONDS
    finally:
        program.end()


def main() -> None:
    """Measure both in turns."""
    if reason := missing():
        sys.exit(reason)
    sizes = [tuple(int(part) for part in text.split("x")) for text in sys.argv[1:]] or [(80, 24), (200, 60)]
    for columns, rows in sizes:
        ours, other = [], []
        with tempfile.TemporaryDirectory() as data, tempfile.TemporaryDirectory() as sound, server(Path(sound)):
            Shelf(folder("routines"), Path(data) / "callahead").cautions_were_read()
            for _ in range(TURNS):
                ours.append(dancing(OURS, b"STOPPED", b" ", (columns, rows), data))
                other.append(dancing(bench_start.OTHER, b"tick", b"", (columns, rows), data))
        one, two = statistics.median(ours), statistics.median(other)
        print(
            f"{columns}x{rows} dancing with sound: {one:.1%} of a processor (worst {max(ours):.1%}) to {two:.1%}, "
            f"ratio {one / two:.2f} (aim 1.5)"
        )


if __name__ == "__main__":
    main()
