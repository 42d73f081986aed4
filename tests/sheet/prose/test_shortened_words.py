"""Words of steps that a full stop shortens are read as the whole ones, on pages that write so."""

from trainer.problems import loud
from trainer.sheet.prose.habits.shortened_words import with_whole_words
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.reading import read

_PAGE = """River Cottage - 16 cts., 4 w., wt. on L.

1, 2     sd. R., cl. L. to R.
3, 4     sd. R., tch. L. bes. R.
5, 6     sd. L., cl. R. to L.
7, 8     sd. L. w. ¼ L., br. R.
1 & 2    shf. fwd. R. L. R.
3, 4     rk. L. fwd., rec. R.
5, 6     bk. L., hk. R. acr. L.
7, 8     stp. R. fwd., stp. L. tog.
"""


def test_a_page_of_shortened_words() -> None:
    routine, problems = read(_PAGE)
    assert not loud(problems)
    sections = [section for part in routine.parts for section in part.sections]
    weights = ["".join(str(event.weight) for event in section.events) for section in sections]
    assert weights == ["RLRRLRLL", "RLRLRLLRL"]


def test_a_full_stop_now_and_then_ends_a_sentence() -> None:
    """A few such words may be anything: a doctor, a page."""
    lines = clean_lines("Dr. Marsh, pt. 1\n1-2  step R, rec. L.\n")
    assert with_whole_words(lines) == lines


def test_a_full_stop_before_a_capital_ends_a_sentence_too() -> None:
    lines = with_whole_words(clean_lines("1-2  rk. L fwd. Touch R bes. L\n3-4  stp. R bk. Kick L fwd. and hld. it"))
    assert [line.words for line in lines] == [
        "1 - 2 rock l forward . touch r beside l",
        "3 - 4 step r back . kick l forward and hold it",
    ]
