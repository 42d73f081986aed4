"""Tables with a column for each beat: each count is told before the step in its cell."""

import pytest

from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.prose.views.columns import with_columns

_TABLE = """
        | {0}                   | {1}                     | {2}                   | you see
--------+-------------------------+-------------------------+--------------------------+--------
FIG. 1  | crossing left and right
 1 2 3  | LF over RF              | RF side                 | LF in place              | 12
 4 5 6  | RF over LF              | LF side                 | RF in place              | 12
FIG. 2  | turn to the back
 1 2 3  | LF fwd                  | turn 1/2 left, RF back  | LF next to RF            | 6
 4 5 6  | RF back                 | LF next to RF           | hold                     | 6
"""


@pytest.mark.parametrize("heads", [("first beat", "second beat", "third beat"), ("first", "second", "third")])
def test_a_column_for_each_beat(heads: tuple[str, ...]) -> None:
    told = [line.words for line in with_columns(clean_lines(_TABLE.format(*heads)))]
    assert "1 | lf over rf | 2 | rf side | 3 | lf in place 12:00" in told
    assert "4 | rf back | 5 | lf next to rf | 6 | hold 6:00" in told
    assert "1 | lf fwd | 2 | turn 1/2 left , rf back | 3 | lf next to rf 6:00" in told


def test_feet_in_columns_of_their_own_are_no_beats() -> None:
    text = "Counts | Figure | Steps\n1-2 | Walks | R fwd, L fwd\n3-4 | Rock | R fwd, L recover\n5-6 | Walks | R, L"
    told = [line.words for line in with_columns(clean_lines(text))]
    assert not any(words.startswith("1 |") for words in told)
