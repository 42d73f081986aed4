"""Scores a sheet as tests/data/sheets/score.py does, without a process of its own, and keeps what has been reached.

`python tests/sheet/prose/reached.py` prints a row a sheet and writes what is better than before.
"""

import difflib
import importlib.util
import json
import sys
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import Problem, loud
from trainer.sheet.opening import Sheet, opened

DATA = Path(__file__).parents[2] / "data" / "sheets"
REACHED = DATA / "reached.json"


def _scorer() -> Any:
    spec = importlib.util.spec_from_file_location("sheet_score", DATA / "score.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


SCORER = _scorer()


@dataclass(frozen=True, slots=True)
class Score:
    """What was reached with one sheet."""

    events: int
    """Right events, in thousandths."""
    found: int
    planted: int
    alarms: int


def everything() -> list[str]:
    """Return the names of all sheets: `a2-biscuit`, `more/m02`, `a1/a1-hatpin`."""
    return sorted(path.relative_to(DATA).as_posix().removesuffix(".truth.json") for path in DATA.rglob("*.truth.json"))


def scored(name: str, *, with_faults: bool = True) -> Score:
    """Read a sheet, and each faulty copy of it, and count; without the faulty copies none is found."""
    return score_of(name, read(name), with_faults=with_faults)


def read(name: str) -> Sheet:
    """Read a sheet by its name."""
    return opened(DATA / f"{name}.txt", (DATA / f"{name}.txt").read_text(encoding="utf-8"))


def score_of(name: str, sheet: Sheet, *, with_faults: bool) -> Score:
    """Count what of a sheet was read right, and which of its faulty copies are found."""
    text = (DATA / f"{name}.txt").read_text(encoding="utf-8")
    truth = json.loads((DATA / f"{name}.truth.json").read_text(encoding="utf-8"))
    faults = json.loads((DATA / f"{name}.faults.json").read_text(encoding="utf-8"))
    want = SCORER.unrolled(truth)
    timeline = unroll(sheet.routine, len(want))
    got: list[list[list[Any]]] = [[] for _ in want]
    for row in as_rows(timeline, sheet.routine.tempo):
        got[row["wall"] - 1].append([row["count"], row["foot"] or "?", row["weight"], row["facing"]])
    right = sum(_right(a, b) for a, b in zip(want, got, strict=True))
    alarms = loud(sheet.problems)
    found = sum(_finds(text, fault, alarms) for fault in faults) if with_faults else 0
    return Score(1000 * right // max(sum(map(len, want)), 1), found, len(faults), len(alarms))


def _right(want: list[Any], got: list[list[Any]]) -> int:
    matcher = difflib.SequenceMatcher(a=[one[0] for one in want], b=[one[0] for one in got], autojunk=False)
    return sum(
        SCORER.lenient(want[block.a + step], got[block.b + step])
        for block in matcher.get_matching_blocks()
        for step in range(block.size)
    )


def _finds(text: str, fault: dict[str, str], before: list[Problem]) -> bool:
    at = text.split("\n").index(fault["line"])
    known = {(problem.kind, problem.message) for problem in before}
    said = loud(opened(DATA, text.replace(fault["line"], fault["becomes"], 1)).problems)
    return any(
        problem.kind == fault["kind"] and -1 <= problem.line - (at + 1) <= 6
        for problem in said
        if (problem.kind, problem.message) not in known
    )


def main() -> int:
    """Print what is reached, and write what is better than what was."""
    kept = json.loads(REACHED.read_text(encoding="utf-8")) if REACHED.exists() else {}
    for name in everything():
        score = scored(name)
        sys.stdout.write(
            f"{name:24} {score.events / 10:5.1f} %  faults {score.found}/{score.planted}  alarms {score.alarms}\n"
        )
        old = kept.get(name)
        if old is not None:
            score = Score(
                max(score.events, old["events"]),
                max(score.found, old["found"]),
                score.planted,
                min(score.alarms, old["alarms"]),
            )
        kept[name] = asdict(score)
    REACHED.write_text(json.dumps(kept, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
