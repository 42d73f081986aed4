"""The commands: what is typed, which function does it, what is printed. Nothing is decided here.

Exit codes: 0 sound (notes do not count), 1 findings in a sheet, 2 an error. Results go to stdout, so that they can
be piped, errors to stderr, and so do the findings of `unroll` and `fair`. The screens are imported only by the
commands that show one.
"""

import argparse
import json
import sys
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.practice.care import CAUTIONS
from trainer.problems import Problem, TrainerError, loud, with_caret
from trainer.terms import Foot

if TYPE_CHECKING:
    from rich.console import RenderableType


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
    parser.add_argument("--version", action=_Version, nargs=0, help="show the version and end")
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

    card = commands.add_parser("card", help="one page of a dance to carry: here, as PDF or as HTML")
    card.add_argument("sheet", type=Path)
    card.add_argument("--pdf", type=Path, metavar="FILE", help="write it as PDF")
    card.add_argument("--html", type=Path, metavar="FILE", help="write it as an HTML page")
    card.add_argument("--paper", choices=("a4", "letter"), default="a4")
    card.add_argument("--font", type=Path, metavar="FILE", help="for letters that the PDF has none for")
    card.set_defaults(run=_card)

    figure = commands.add_parser("figure", help="look a step up; without a name, list all")
    figure.add_argument("name", nargs="*")
    figure.add_argument("--foot", type=Foot, choices=(Foot.RIGHT, Foot.LEFT), help="the foot that starts")
    figure.add_argument("--json", action="store_true", help="all of it, as JSON")
    figure.set_defaults(run=_figure)
    return parser


class _Version(argparse.Action):
    """Looks the version up only when it is asked for: that costs as much as a small command."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        """Print the version and end."""
        from importlib.metadata import version

        print(f"callahead {version('callahead')}")
        parser.exit()


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


def _card(chosen: argparse.Namespace) -> int:
    from trainer.cards.making import card_of
    from trainer.cards.terminal import as_text
    from trainer.cards.writing import written
    from trainer.sheet.opening import open_sheet

    sheet = open_sheet(chosen.sheet)
    card = card_of(sheet.routine)
    if chosen.pdf is None and chosen.html is None:
        _print_rich(as_text(card))
    for said in written(card, sheet.path, paper=chosen.paper, pdf=chosen.pdf, html=chosen.html, font=chosen.font):
        print(said, file=sys.stderr)
    for problem in loud(sheet.problems):
        print(with_caret(problem, sheet.text), file=sys.stderr)
    return 0 if sheet.sound else 1


def _figure(chosen: argparse.Namespace) -> int:
    from trainer.cards.step_text import families_text, looked_up_text
    from trainer.practice.lookup import families, looked_up

    if not chosen.name:
        groups = families()
        _print_json([groups]) if chosen.json else _print_rich(families_text(groups))
        return 0
    answer = looked_up(" ".join(chosen.name), chosen.foot)
    if chosen.json:
        _print_json([asdict(answer)])
    elif answer.found:
        _print_rich(looked_up_text(answer))
    if not answer.found:
        meant = f"did you mean {' or '.join(answer.near)}?" if answer.near else "callahead figure lists all."
        print(f"No step is called {answer.asked}: {meant}", file=sys.stderr)
    return 0 if answer.found else 2


def _print_rich(shown: "RenderableType") -> None:
    from rich.console import Console

    Console(highlight=False).print(shown)


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
