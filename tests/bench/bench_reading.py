"""Reading a teacher's prose: as the sheet grows, and what sheets of many hands take.

The first is 16 to 512 counts of every-day steps, a heading an eight, its sentences read before; the second every tenth
sheet among the tests, its words never read before. Printed as ratios, not asserted: twice the counts should take about
twice as long (linear), and the aim is under 150 ms for a usual sheet of 32 counts. Run from the checkout:

    python -m tests.bench.bench_reading
"""

import statistics
import time
from pathlib import Path

from trainer.sheet.opening import opened

TURNS = 5
AIM = 150
"""Milliseconds for a usual sheet."""
SHEETS = Path(__file__).parents[1] / "data" / "sheets"

EIGHTS = (
    "1&2 Shuffle forward right, left, right\n3-4 Rock forward on left, recover on right\n"
    "5&6 Left coaster step\n7-8 Step right forward, pivot 1/2 turn left\n",
    "1-2 Step right to the side, close left beside right\n3-4 Cross right over left, point left to left side\n"
    "5-8 Left jazz box with a quarter turn left, touch right beside left\n",
    "1-4 Vine right, touch left beside right\n5-6 Step left to side, touch right beside left, clap\n"
    "7-8 Bump hips right, left\n",
)


def sheet(counts: int) -> str:
    """Return a sheet of so many counts."""
    eights = [f"Section {number + 1}\n{EIGHTS[number % len(EIGHTS)]}" for number in range(counts // 8)]
    return f"Quay Steps\n{counts} counts, intro 16 counts\n\n" + "\n".join(eights)


def milliseconds(counts: int) -> float:
    """Return the median processor time of reading a sheet, its sentences known; other work does not count."""
    return statistics.median(taken_by(f"{sheet(counts)}\nRead {turn}\n") for turn in range(TURNS))


def taken_by(text: str) -> float:
    """Return the milliseconds of processor time that reading a text takes."""
    begun = time.process_time()
    opened(Path("quay.txt"), text)
    return (time.process_time() - begun) * 1000


def main() -> None:
    """Print the times as ratios."""
    milliseconds(16)
    before, last = 0.0, 0
    for counts in (16, 32, 64, 128, 256, 512):
        now = milliseconds(counts)
        grown = f", {now / before:.1f} x that of {last} counts" if before else ""
        aimed = f", {now / AIM:.2f} of the {AIM} ms aimed at" if counts == 32 else ""
        print(f"{counts} counts: {now:.0f} ms{grown}{aimed}")
        before, last = now, counts
    texts = [path.read_text(encoding="utf-8", errors="replace") for path in sorted(SHEETS.glob("**/*.txt"))[::10]]
    *_, median, _, _, _, most = statistics.quantiles(map(taken_by, texts), n=10)
    print(f"{len(texts)} sheets of many hands: median {median:.0f} ms, {median / AIM:.2f} of the aim")
    print(f"  nine of ten within {most:.0f} ms, {most / median:.1f} x the median")


if __name__ == "__main__":
    main()
