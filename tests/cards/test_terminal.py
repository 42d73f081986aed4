"""The card and a step that was looked up, as a terminal shows them."""

from io import StringIO

import cards
from rich.console import Console, RenderableType

from trainer.cards.making import card_of
from trainer.cards.step_text import families_text, looked_up_text
from trainer.cards.terminal import as_text
from trainer.practice.lookup import families, looked_up
from trainer.routine import Part, Routine, Section


def shown(what: RenderableType, width: int = 80) -> list[str]:
    console = Console(file=StringIO(), width=width, highlight=False)
    console.print(what)
    assert isinstance(console.file, StringIO)
    return [line.rstrip() for line in console.file.getvalue().splitlines()]


def test_a_card_in_the_terminal() -> None:
    lines = shown(as_text(cards.bundled("tide-under-the-door")), 120)
    assert lines[0] == "Tide Under the Door"
    assert "danced intro  8 counts  from 3:00" in lines
    assert "1 the tide comes in  from 12:00" in lines
    assert "  6a7   L behind, R forward ¼ right, L rock forward                      12:00" in lines
    order = lines[lines.index("the order, wall by wall") + 1 :]
    assert order[0] == "  intro   3:00  8 counts"
    assert " ".join(order[7].split()) == "7 12:00 1–16 ending Ebb, 4 counts 12:00 the piano is alone again"


def test_hostile_texts_are_only_texts() -> None:
    text = "".join("".join(shown(as_text(cards.hostile()), 400)).split())
    assert text.count("".join(cards.HOSTILE.split())) >= 8


def test_a_routine_that_came_as_json_sends_no_commands_to_the_terminal() -> None:
    section = Section(name="\x1b[2J", title="\x1b]0;title\x07", counts=0)
    routine = Routine(title="\x1b[31mRed", notes=("\x9b5m",), parts=(Part(sections=(section,)),))
    text = "".join(shown(as_text(card_of(routine))))
    assert not set(text) & {"\x1b", "\x07", "\x9b"}
    assert "[31mRed" in text


def test_a_step_is_told_foot_by_foot() -> None:
    lines = shown(looked_up_text(looked_up("1/4 monterey left")))
    assert lines[:4] == [
        "monterey  MONTEREY",
        "also called: monterey turn",
        "one of: turns",
        "turns 1/2 left, where the sheet does not say how far",
    ]
    assert "  2  L  together    1/4 left  weight L" in lines
    assert "  the turn: 1/4 left on 2" in lines
    assert "source: 2 published glossaries" in lines


def test_a_move_says_what_it_does_to_the_weight() -> None:
    lines = shown(looked_up_text(looked_up("body rolls")))
    assert "weight: open until the next step settles it; without a note it stays" in lines


def test_forms_are_told_apart_or_said_to_be_open() -> None:
    coaster = shown(looked_up_text(looked_up("coaster")))
    assert [line.rpartition(" · ")[2] for line in coaster if line.startswith("on ")] == ["going back", "going forward"]
    paddle = shown(looked_up_text(looked_up("paddle turn")))
    assert sum("open: the name alone may mean another form" in line for line in paddle) == 2


def test_several_steps_are_listed() -> None:
    lines = shown(looked_up_text(looked_up("kick ball")))
    assert lines[0] == "Several steps have that name; look one of them up:"
    assert [line.split("  ")[1] for line in lines[1:3]] == ["kick ball change", "kick ball step"]


def test_all_steps_are_listed_by_their_groups() -> None:
    lines = shown(families_text(families()), 200)
    assert lines[0] == "shuffles and triples"
    assert lines[1].startswith("  shuffle, chasse, ")
