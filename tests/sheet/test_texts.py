"""Free text, quotes and comments; logical lines and the places of their letters."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.routine import Span
from trainer.sheet.lines import Line, logical_lines
from trainer.sheet.texts import closings, outside, quoted, split, taken, told, without_comment


@given(st.text())
def test_what_is_told_is_taken_as_it_was(text: str) -> None:
    clean = text.encode("utf-8", "replace").decode()
    assert taken(told(clean)) == clean
    assert taken(quoted(clean)) == clean
    assert told(clean).isprintable()


@pytest.mark.parametrize(
    ("text", "written", "why"),
    [
        ("Kettle on the Quay", "Kettle on the Quay", "plain"),
        ('the singer holds "wait"', 'the singer holds "wait"', "quotes inside do no harm"),
        ('"wait"', '"\\"wait\\""', "quotes all round would be taken off"),
        ("", '""', "nothing"),
        (" a ", '" a "', "blanks at an end"),
        ("a  # b", '"a  # b"', "would be a comment"),
        ("# b", '"# b"', "would be a comment"),
        ("l'été\nà deux", '"l\'été\\nà deux"', "two lines"),
    ],
)
def test_told(text: str, written: str, why: str) -> None:
    assert told(text) == written, why


@pytest.mark.parametrize(
    ("written", "text", "why"),
    [
        ('"a\\u00e9b"', "aéb", "an escape of JSON"),
        ('"a\\qb"', "a\\qb", "a bad escape leaves the text as it is"),
        ('"\\ud800"', "\ufffd", "half of a letter is no letter"),
        ('"open', '"open', "a quote that is not closed is a letter"),
        ('"a" and "b"', '"a" and "b"', "two quoted words are no quoted text"),
    ],
)
def test_taken(written: str, text: str, why: str) -> None:
    assert taken(written) == text, why


@pytest.mark.parametrize(
    ("line", "kept", "why"),
    [
        ("# all of it", "", "from the start"),
        ("title: Kettle  # a remark", "title: Kettle", "after two blanks"),
        ("title: Kettle # 5", "title: Kettle # 5", "after one blank it is text"),
        ('title: "a  # b"  # c', 'title: "a  # b"', "not inside quotes"),
        ('a " b  # c', 'a " b', "a lone quote protects nothing"),
        ("a\t# b", "a", "a tab is blank enough"),
    ],
)
def test_comments(line: str, kept: str, why: str) -> None:
    assert without_comment(line) == kept, why


def test_separators_in_quotes_and_brackets_divide_nothing() -> None:
    text = 'R walk (slow, low), "a, b", L'
    assert [text[first:last] for first, last in split(text, ",")] == ["R walk (slow, low)", ' "a, b"', " L"]


def test_a_bracket_or_quote_that_is_never_closed_is_a_letter() -> None:
    assert closings('a (b "c') == {}
    assert "".join(letter for _, letter in outside('a (b, "c')) == 'a (b, "c'
    assert closings("(a (b) c") == {3: 6}


def test_brackets_without_end_take_no_time() -> None:
    assert closings("(" * 100_000) == {}


def lines(text: str) -> list[str]:
    return [line.text for line in logical_lines(text)]


@pytest.mark.parametrize(
    ("text", "found", "why"),
    [
        ("a\nb", ["a", "b"], "each line for itself"),
        ("a\n  b\n\tc", ["a b c"], "blanks at the start go on with the line above"),
        ("a\n\n  b", ["a", "b"], "not over an empty line"),
        ("a\n  # remark\n  b", ["a b"], "a remark between does not matter"),
        ("  a\n  b", ["a", "b"], "blanks before every line mean nothing"),
        ("  a\n    b", ["a b"], "but more of them do"),
        ("> a  # b\n  c # d\n1 e  # f", ["> a  # b c # d", "1 e"], "words have no comments"),
        ("", [], "nothing"),
        ("   \n# a", [], "nothing but blanks and remarks"),
    ],
)
def test_logical_lines(text: str, found: list[str], why: str) -> None:
    assert lines(text) == found, why


def test_every_letter_knows_its_place() -> None:
    (line,) = logical_lines("\n  1-2  R walk,\n\n".replace("\n\n", "\n       L walk  # so\n"))
    assert line.text == "1-2  R walk, L walk"
    assert line.span(5, 11) == Span(2, 8, 6)
    assert line.span(12, 19) == Span(3, 8, 6)
    assert line.span() == Span(2, 3, 19)


def test_a_stretch_without_letters_has_a_place_of_its_own() -> None:
    assert Line("a,  ,b", ((0, 7, 1),)).span(2, 4) == Span(7, 5, 1)
