"""Single words and clauses: lexemes, slips of the pen, where clauses part."""

import pytest

from trainer.dance.figures import figures, moves
from trainer.sheet.prose.steps.entries import phrases_by_first, trade
from trainer.sheet.prose.steps.lexicon import lexemes
from trainer.sheet.prose.steps.slips import glued_foot, slip_of
from trainer.sheet.prose.steps.splitting import clauses_of
from trainer.sheet.prose.steps.wording import bare, wording
from trainer.sheet.prose.text.tokens import tokens_of

SLIPS = [
    ("shufle", "shuffle", "a letter missing"),
    ("cros", "cross", "a letter missing at the end"),
    ("behnid", "behind", "two swapped"),
    ("steep", None, "a word of everyday speech"),
    ("hatch", None, "of a kitchen, and no hitch"),
    ("passed", None, "no pause"),
    ("rkside", None, "the first letter is taken to be right"),
    ("stuup", None, "two letters wrong in a short word"),
    ("grapevvinne", "grapevine", "two in a long word"),
    ("rec", None, "too short to tell"),
]


@pytest.mark.parametrize(("word", "meant", "why"), SLIPS)
def test_slip(word: str, meant: str | None, why: str) -> None:
    assert slip_of(word, trade()) == meant, why


def test_no_word_of_the_tables_is_a_slip_of_another() -> None:
    listed = {phrase[0] for entries in phrases_by_first().values() for phrase, _ in entries if len(phrase) == 1}
    assert "sweep" in listed
    assert not [word for word in listed if [lex.typo for lex in lexemes(tokens_of(word))] == [True]]


def test_a_glued_foot() -> None:
    assert glued_foot("Rstep", trade()) == "r step"
    assert glued_foot("Lift", trade()) == ""


@pytest.mark.parametrize("name", list(figures()))
def test_every_figure_is_known_by_its_names(name: str) -> None:
    for phrase in figures()[name].words:
        kinds = [lex.kind for lex in lexemes(tokens_of(phrase))]
        assert "unknown" not in kinds, phrase


@pytest.mark.parametrize("move", list(moves()))
def test_every_move_is_known_by_its_names(move: str) -> None:
    for phrase in moves()[move].words:
        kinds = {lex.kind for lex in lexemes(tokens_of(phrase))}
        assert kinds <= {"move", "part", "turn", "way", "task"}, phrase


def test_accents_and_case_do_not_count() -> None:
    assert bare("chassé") == "chasse"
    assert [lex.value for lex in lexemes(tokens_of("CHASSÉ"))] == ["chasse"]


def test_the_tables_have_no_empty_entry() -> None:
    for section in ("ways", "references", "verbs", "turning", "amounts", "parts", "numbers", "tasks"):
        assert all(phrases and all(phrases) for phrases in wording()[section].values()), section


PARTED = [
    ("R side, L together", 2, "a comma"),
    ("step R lock L step R", 3, "a second move"),
    ("R heel L heel", 2, "a second foot"),
    ("side together forward", 3, "ways that no step has both of"),
    ("cross behind", 1, "ways that one step has both of"),
    ("R sailor step", 1, "a figure"),
    ("step R forward turning ¼ left", 2, "a turn stands by itself"),
    ("R across sweeping L", 2, "a gesture stands by itself"),
    ("walk right, left, right", 1, "a row of feet"),
    ("side right, left together", 2, "two feet with their own ways are no row"),
    ("touch left to left side", 1, "a side is no second foot"),
    ("cross right over left", 1, "a reference is no second foot"),
    ("RF: side", 1, "a colon after a foot"),
    ("step R forward; and so on", 1, "words that say nothing are no clause"),
]


@pytest.mark.parametrize(("words", "number", "why"), PARTED)
def test_clauses(words: str, number: int, why: str) -> None:
    assert len(clauses_of(lexemes(tokens_of(words)))) == number, why
