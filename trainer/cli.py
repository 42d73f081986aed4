"""The commands: what is typed, which function does it, what is printed. Nothing is decided here.

Exit codes: 0 sound (notes do not count), 1 findings in a sheet, 2 an error. Results go to stdout, so that they can
be piped, errors to stderr, and so do the findings of `unroll` and `fair`. The screens are imported only by the
commands that show one.
"""

import argparse
import json
import sys
from collections.abc import Iterable, Sequence
from importlib.metadata import version
from pathlib import Path

from trainer.practice.care import CAUTIONS
from trainer.problems import Problem, TrainerError, loud, with_caret


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command and return its exit code."""
    chosen = _parser().parse_args(arguments)
    try:
        return int(chosen.run(chosen))
    except TrainerError as error:
        print(error, file=sys.stderr)
        return 2
    except BrokenPipeError:
        # The reader of a pipe (head, less) has seen enough: no error, and no complaint of the interpreter at its end.
        sys.stderr.close()
        return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="callahead",
        description="A rehearsal trainer for line dancers. Without a command it opens the shelf of routines.",
        epilog=CAUTIONS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"callahead {version('callahead')}")
    parser.set_defaults(run=_shelf, device="")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")

    rehearse = commands.add_parser(
        "rehearse",
        help="open a sheet on the floor screen, ready to dance",
        epilog=CAUTIONS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    rehearse.add_argument("sheet", type=Path)
    rehearse.add_argument("--device", default="", metavar="NAME", help="the sound device; silent for none")
    rehearse.set_defaults(run=_rehearse)

    check = commands.add_parser("check", help="find what is wrong in a sheet")
    check.add_argument("sheet", type=Path)
    check.add_argument("--json", action="store_true", help="one finding a line, as JSON")
    check.set_defaults(run=_check)

    unroll = commands.add_parser("unroll", help="list every count that will be danced")
    unroll.add_argument("sheet", type=Path)
    unroll.add_argument("--json", action="store_true", help="one count a line, as JSON")
    unroll.add_argument("--walls", type=_walls, metavar="N", help="so many walls; else as far as the order goes")
    unroll.add_argument("--options", action="store_true", help="dance the easier options that the sheet offers")
    unroll.set_defaults(run=_unroll)

    fair = commands.add_parser("fair", help="write the fair copy of a sheet")
    fair.add_argument("sheet", type=Path, nargs="?")
    fair.add_argument("--json", action="store_true", help="write the routine as JSON instead")
    fair.add_argument("--schema", action="store_true", help="write the JSON Schema of routines and nothing else")
    fair.set_defaults(run=_fair)
    return parser


def _walls(text: str) -> int:
    number = int(text)
    if not 1 <= number <= 10_000:
        raise argparse.ArgumentTypeError("from 1 to 10000 walls")
    return number


def _shelf(chosen: argparse.Namespace) -> int:
    from trainer.screens.start import run

    return run(None, device=chosen.device)


def _rehearse(chosen: argparse.Namespace) -> int:
    from trainer.screens.start import run

    return run(chosen.sheet, device=chosen.device)


def _check(chosen: argparse.Namespace) -> int:
    from trainer.sheet.opening import open_sheet

    sheet = open_sheet(chosen.sheet)
    if chosen.json:
        _print_json(problem.as_row() for problem in sheet.problems)
    else:
        for problem in sheet.problems:
            print(with_caret(problem, sheet.text))
        print(_verdict(sheet.problems))
    return 0 if sheet.sound else 1


def _unroll(chosen: argparse.Namespace) -> int:
    from trainer.dance.rows import as_rows
    from trainer.dance.unroll import unroll
    from trainer.sheet.listing import listing
    from trainer.sheet.opening import open_sheet

    sheet = open_sheet(chosen.sheet)
    timeline = unroll(sheet.routine, chosen.walls, sheet.routine.options if chosen.options else ())
    if chosen.json:
        _print_json(as_rows(timeline, sheet.routine.tempo))
    else:
        for line in listing(timeline):
            print(line)
    for problem in loud(sheet.problems):
        print(with_caret(problem, sheet.text), file=sys.stderr)
    return 0 if sheet.sound else 1


def _fair(chosen: argparse.Namespace) -> int:
    from trainer.routine import Routine
    from trainer.sheet.fair import fair
    from trainer.sheet.opening import open_sheet

    if chosen.schema:
        print(json.dumps(Routine.model_json_schema(), indent=2, ensure_ascii=False))
        return 0
    if chosen.sheet is None:
        raise TrainerError("Which sheet", "fair needs the path of a sheet")
    sheet = open_sheet(chosen.sheet)
    text = sheet.routine.model_dump_json(indent=2) if chosen.json else fair(sheet.routine)
    print(text.rstrip("\n"))
    for problem in loud(sheet.problems):
        print(with_caret(problem, sheet.text), file=sys.stderr)
    return 0 if sheet.sound else 1


def _print_json(rows: Iterable[object]) -> None:
    for row in rows:
        print(json.dumps(row, ensure_ascii=False))


def _verdict(problems: Sequence[Problem]) -> str:
    count = len(loud(problems))
    if count:
        return f"{count} finding{'s' if count > 1 else ''}"
    return "Nothing is wrong in this sheet"


if __name__ == "__main__":
    sys.exit(main())
