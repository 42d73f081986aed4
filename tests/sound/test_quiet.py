"""What C code writes to standard error goes to the log, what Python writes to the terminal, on every way out."""

import signal
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

BODY = """
import os, sys
from pathlib import Path
from trainer.sound.quiet import quiet
terminal = sys.__stderr__
try:
    with quiet(Path(sys.argv[1])):
        os.write(2, b"ALSA lib says something\\n")
        print("the screen", file=sys.__stderr__)
        print("a traceback", file=sys.stderr)
        {way_out}
finally:
    assert sys.__stderr__ is terminal and sys.stderr is terminal
    os.write(2, b"after it\\n")
"""


def run(tmp_path: Path, way_out: str, log: Path | None = None) -> tuple[subprocess.CompletedProcess[str], Path]:
    """Run the body in a Python of its own; return what came of it and its log."""
    log = log or tmp_path / "state" / "sound.log"
    script = textwrap.dedent(BODY).replace("{way_out}", way_out)
    root = Path(__file__).parents[2]
    command = [sys.executable, "-c", script, str(log)]
    return subprocess.run(command, capture_output=True, text=True, cwd=root, check=False, timeout=60), log


@pytest.mark.parametrize(
    ("way_out", "code", "end"),
    [
        ("pass", 0, ""),
        ("raise SystemExit(3)", 3, ""),
        ("raise RuntimeError('a crash')", 1, "RuntimeError: a crash"),
        ("os.kill(os.getpid(), 2)", -signal.SIGINT, "KeyboardInterrupt"),
    ],
)
def test_c_code_goes_to_the_log_and_all_is_put_back(tmp_path: Path, way_out: str, code: int, end: str) -> None:
    done, log = run(tmp_path, way_out)
    assert done.returncode == code
    lines = done.stderr.splitlines()
    assert lines[:3] == ["the screen", "a traceback", "after it"]
    assert (lines[-1] if end else "") == end
    assert log.read_text() == "ALSA lib says something\n"


def test_the_log_grows_and_begins_anew_when_it_is_full(tmp_path: Path) -> None:
    log = tmp_path / "sound.log"
    run(tmp_path, "pass", log)
    run(tmp_path, "pass", log)
    assert log.read_text() == 2 * "ALSA lib says something\n"
    log.write_text("x" * 1_000_001)
    run(tmp_path, "pass", log)
    assert log.read_text() == "ALSA lib says something\n"


def test_where_no_log_can_be_written_it_does_without(tmp_path: Path) -> None:
    (tmp_path / "state").write_text("a file where the folder should be")
    done, _ = run(tmp_path, "pass")
    assert done.returncode == 0
    assert done.stderr.splitlines() == ["the screen", "a traceback", "after it"]


def test_where_there_is_no_standard_error_it_does_without(tmp_path: Path) -> None:
    script = textwrap.dedent("""
        import os, sys
        from pathlib import Path
        from trainer.sound.quiet import quiet
        os.close(2)
        with quiet(Path(sys.argv[1])):
            print("danced")
    """)
    command = [sys.executable, "-c", script, str(tmp_path / "log")]
    root = Path(__file__).parents[2]
    done = subprocess.run(command, capture_output=True, text=True, cwd=root, check=False, timeout=60)
    assert (done.returncode, done.stdout) == (0, "danced\n")
