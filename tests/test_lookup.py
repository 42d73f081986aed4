"""Looking a step up: every name is found however it is spelt, and its rows say what the table says."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.dance.figures import figures, moves
from trainer.practice.lookup import Entry, families, looked_up
from trainer.terms import Foot

NAMES = [
    *((figure.name, word) for figure in figures().values() for word in figure.words),
    *((row.move.value, word) for row in moves().values() for word in row.words),
]


@pytest.mark.parametrize(("own", "word"), NAMES, ids=[word for _, word in NAMES])
def test_every_name_of_the_table_is_found_however_it_is_spelt(own: str, word: str) -> None:
    for spelt in (word, word.upper(), word.replace(" ", "-"), f"  {word.replace(' ', '   ')} "):
        assert [entry.name for entry in looked_up(spelt).found] == [own]


@pytest.mark.parametrize(
    ("typed", "own", "why"),
    [
        ("Coasters", "coaster step", "a plural"),
        ("heel switch", "heel switches", "one of them"),
        ("chassés", "chasse", "an accent and a plural"),
        ("Rondé", "ronde", "an accent"),
        ("kickball change", "kick ball change", "a blank left out"),
        ("pivot 1/2 turn left", "pivot turn", "a size and a side"),
        ("½ Monterey", "monterey", "a size in one character"),
        ("quarter monterey turn", "monterey", "a size in a word"),
        ("full turn left", "full turn", "a size that is its name"),
        ("travelling full turn left", "full turn", "a way besides"),
        ("back coaster", "coaster step", "a direction that no name has"),
        ("voltas", "volta", "a plural"),
        ("prissy walks", "prissy walk", "a plural"),
        ("K-step", "k step", "a hyphen"),
        ("syncopated rock steps", "syncopated rocks", "a word more"),
        ("paddle turns", "paddle turn", "a plural"),
        ("push turn", "paddle turn", "another name"),
        ("1/4 heel grind", "heel grind", "a size"),
        ("ball-steps", "ball step", "a hyphen and a plural"),
        ("heel swivel", "heel swivels", "one of them"),
        ("toe swivels", "toe swivels", "its own name"),
        ("applejacks", "applejack", "a plural"),
        ("full monterey", "monterey", "a size"),
        ("3/4 Monterey turn", "monterey", "a size"),
        ("spirals", "spiral", "a plural"),
        ("unwinds", "unwind", "a plural"),
        ("cross, unwind 1/2", "cross unwind", "a comma and a size"),
        ("rondés", "ronde", "an accent and a plural"),
        ("body rolls", "body roll", "a plural"),
        ("spot turns", "spot turn", "a plural"),
        ("chase turns", "chase turn", "a plural"),
        ("hip twists", "hip twists", "its own name"),
        ("claps", "clap", "a plural"),
        ("finger snaps", "snap", "another name"),
        ("figure of 8 vine", "figure of eight vine", "a number"),
    ],
)
def test_a_step_is_found_as_dancers_spell_it(typed: str, own: str, why: str) -> None:
    assert [entry.name for entry in looked_up(typed).found] == [own], why


def entry_of(name: str, foot: Foot | None = None) -> Entry:
    (entry,) = looked_up(name, foot).found
    return entry


def rows(entry: Entry, form: int = 0) -> list[str]:
    return [" ".join((s.count, s.foot, s.step, s.turn, s.weight)) for s in entry.forms[form].steps]


def test_a_figure_is_told_foot_by_foot() -> None:
    entry = entry_of("coaster step")
    assert (entry.kind, entry.short, entry.foot, entry.others) == ("figure", "COASTER", "R", ("coaster",))
    assert rows(entry) == ["1 R back  R", "& L together  L", "2 R forward  R"]
    assert entry.forms[0].counts == ("1&2", "1a2", "1-3", "&1&", "&a1")
    assert entry.forms[1].ways == ("forward",)
    assert entry.source == "3 published glossaries"
    assert entry_of("spot turn").source.endswith("from memory")


def test_the_size_and_the_side_in_a_name_are_shown() -> None:
    assert rows(entry_of("monterey"))[1] == "2 R together 1/2 right R"
    assert rows(entry_of("1/4 monterey left"))[1] == "2 L together 1/4 left L"
    assert rows(entry_of("pivot turn left")) == ["1 R forward  R", "2 L pivot 1/2 left L"]
    assert rows(entry_of("pivot turn right")) == ["1 L forward  L", "2 R pivot 1/2 right R"]
    assert rows(entry_of("left shuffle"))[0] == "1 L forward  L"


def test_a_foot_asked_for_is_the_one_that_starts() -> None:
    assert rows(entry_of("pivot turn left", Foot.LEFT))[0] == "1 L forward  L"
    assert entry_of("coaster step", Foot.LEFT).foot == "L"
    assert entry_of("heel split", Foot.LEFT).foot == "-"


def test_a_size_that_no_form_serves_is_said() -> None:
    assert entry_of("1/2 heel split").notes == ("No form of it turns 1/2.",)


def test_where_a_turn_falls_is_said() -> None:
    assert entry_of("1/4 jazz box").forms[0].falls[:2] == ("1/4 right on 3", "1/4 right on 2")
    assert entry_of("coaster step").forms[0].falls[-1] == "1/2 of it on 1, 1/2 of it on &"


def test_forms_that_the_name_alone_does_not_tell_apart_are_marked() -> None:
    assert [form.ambiguous for form in entry_of("paddle turn").forms] == [True, True]
    assert [form.ambiguous for form in entry_of("charleston").forms] == [True, True]
    assert not any(form.ambiguous for form in entry_of("coaster step").forms), "forward has to be said"


def test_part_of_a_name_lists_all_it_stands_in() -> None:
    found = [entry.name for entry in looked_up("kick ball").found]
    assert found[:4] == ["kick ball change", "kick ball step", "kick ball cross", "kick ball point"]
    assert "heel grind" in looked_up("heel").also


def test_a_name_put_together_of_steps_lists_them() -> None:
    assert [entry.name for entry in looked_up("heel hook").found] == ["heel", "hook"]


@pytest.mark.parametrize(
    ("typed", "near"), [("sailer", "sailor"), ("montery", "monterey"), ("botofogo", "botafogo"), ("coster", "coaster")]
)
def test_a_misspelling_is_answered_with_names_like_it(typed: str, near: str) -> None:
    answer = looked_up(typed)
    assert answer.found == ()
    assert answer.near[0] == near


@pytest.mark.parametrize("nothing", ["", "  ", "1/2", "?", "flumble"])
def test_what_is_no_name_finds_nothing(nothing: str) -> None:
    answer = looked_up(nothing)
    assert answer.found == answer.also == answer.near == ()


def test_the_families_hold_every_figure_and_every_move_once() -> None:
    listed = [name for names in families().values() for name in names]
    assert sorted(listed) == sorted([*figures(), *(move.value for move in moves())])


@pytest.mark.parametrize("name", [*figures(), *(move.value for move in moves())])
def test_every_step_says_where_it_is_from(name: str) -> None:
    assert entry_of(name).source


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=300))
def test_any_text_gives_an_answer(text: str) -> None:
    assert len(looked_up(text).near) <= 5
