"""How well the floor screen is read from where the dancer stands: `python tests/bench/legibility.py`.

For each size of window: the height of each part in minutes of arc, and the share of single glances that name it rightly
at one, two and three minutes of arc a point (full, half and a third of full sight), with the two drawings most alike at
two. The window is 165 mm high. ISO 9241-303: letters at least 16 minutes of arc high, 20 to 22 preferred.
"""

import sys
from pathlib import Path

import numpy as np

sys.path[:0] = [str(Path(__file__).parents[1] / "screens_drawing"), str(Path(__file__).parents[2])]

from eye import Reader, square_mm  # noqa: E402  # a script finds its neighbours by itself
from shown import SIZES, floor, parts  # noqa: E402

SHARPNESS = (1, 2, 3)
GLANCES = 12


def main() -> None:
    for columns, rows in SIZES:
        plan = floor(columns, rows)
        print(f"\n{f'{columns} x {rows}':20}       minutes     right at 1, 2, 3 minutes a point   most alike at 2")
        for part in parts(plan, turns=range(-8, 9)):
            chance = np.random.default_rng(7)
            readers = [Reader(part.drawings, plan.row_mm, square_mm(part.distance_m, minutes)) for minutes in SHARPNESS]
            looks = GLANCES * len(part.drawings)
            right = "  ".join(f"{1 - len(reader.mistakes(GLANCES, chance)) / looks:6.1%}" for reader in readers)
            alike, one, other = readers[1].likeness()
            minutes = plan.minutes(part.height / 2, part.distance_m)
            print(f"{part.name:20} {part.distance_m} m  {minutes:5.1f}   {right}   {alike:.2f} {one} | {other}")


if __name__ == "__main__":
    main()
