"""Checking and unrolling load no screen and no sound library; data is found in a checkout."""

import subprocess
import sys
from pathlib import Path

import pytest

from trainer.problems import TrainerError
from trainer.resources import folder

ROOT = Path(__file__).parents[1]
HEAVY = ("textual", "miniaudio", "soundfile", "numpy", "fpdf", "PIL", "fontTools")
"""Screens, sound, and what writes a PDF."""


def loaded(arguments: list[str]) -> set[str]:
    code = (
        "import sys\nfrom trainer.cli import main\n"
        f"try:\n    main({arguments!r})\nexcept SystemExit:\n    pass\n"
        "print('LOADED', *(name.partition('.')[0] for name in sys.modules))"
    )
    shown = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    return set(shown.rpartition("LOADED")[2].split())


@pytest.mark.parametrize("command", [["--version"], ["check"], ["unroll"], ["fair"], ["card"], ["figure", "vine"]])
def test_plain_commands_load_no_screen_no_sound_and_no_pdf(command: list[str]) -> None:
    if command[0] not in ("--version", "figure"):
        command = [*command, str(next(folder("routines").glob("*.sheet")))]
    modules = loaded(command)
    assert "trainer" in modules
    assert modules.isdisjoint(HEAVY)


def test_a_card_in_html_loads_no_pdf(tmp_path: Path) -> None:
    sheet = str(next(folder("routines").glob("*.sheet")))
    assert loaded(["card", sheet, "--html", str(tmp_path / "card.html")]).isdisjoint(HEAVY)
    assert (tmp_path / "card.html").exists()
    assert "fpdf" in loaded(["card", sheet, "--pdf", str(tmp_path / "card.pdf")])


def test_a_missing_folder_says_where_it_was_looked_for() -> None:
    with pytest.raises(TrainerError, match=r"the folder nowhere was looked for in .*trainer.nowhere and in .*nowhere"):
        folder("nowhere")
