"""Names of a part and the number of its section are read in whatever marks a teacher puts around them."""

import pytest

from trainer.sheet.prose.habits.part_labels import with_part_labels
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.symbols import Named
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.reading import read

_PAGE = """TWO MILE DRIFT
An A/B dance. A: 2 x 8 counts. B: 2 x 8 counts.
Count 16, then off on the right foot.

Order:  {order}

{A1}
(1 2)    walk fwd R, L
(3&4)    shuffle fwd R L R
(5 6)    rock fwd L, recover R
(7&8)    shuffle back L R L
{A2}
(1 2)    R to side, L beside R
(3 4)    R to side, touch L beside R
(5 6)    L to side, R beside L
(7 8)    L to side, touch R beside L

{B1}
(1 2)    stomp R, hold
(3 4)    stomp L, hold
(5 6)    walk back R, L
(7 8)    walk back R, L
{B2}
(1 2)    point R to side, close R beside L
(3 4)    point L to side, close L beside R
(5 6)    R heel fwd, R beside L
(7 8)    L heel fwd, L beside R

<Tag>  after the second B
(1 2)    rock fwd R, recover L
"""
_WORDS = {"1": "first", "2": "second"}
_MARKS = (
    "<{0}/{1}>  Walks and more", "[{0}/{1}]  Walks and more", "[{0}{1}]  Walks and more", "{{{0}.{1}}}  Walks",
    "({0}-{1})  Walks", "<{0}/{1}>", "<<{0}{1}>> Walks", "|{0}{1}| Walks", "/{0}{1}/ Walks", "~{0}{1}~ Walks",
    "*{0}{1}* Walks", ":: {0} {2} ::", "{0} {2}", "[{0}, {2}] Walks", "{0} {2}: walks", "-- {0}/{1} -- Walks",
    ">> {0}{1} Walks", "# {0}/{1} Walks", "<{1}{0}> Walks", '"{0}{1}" Walks', "{0}_{1}  Walks", "<{2} of {0}> Walks",
)  # fmt: skip
_ORDERS = (
    "A - B - A - B - Tag - short A (A/1) - B",
    "A, B, A, B, Tag, short A (A1 only), B",
    "A - B - A - B - Tag - A (8) - B",
    "A - B - A - B - Tag - the first half of A - B",
)
_PLAY = ["A", "B", "A", "B", "Tag", "A", "B"]


def _page(mark: str, order: str) -> str:
    heads = {part + number: mark.format(part, number, _WORDS[number]) for part in "AB" for number in "12"}
    return _PAGE.format(order=order, **heads)


@pytest.mark.parametrize("mark", _MARKS)
def test_any_marks(mark: str) -> None:
    """A label in any marks opens its section of its part."""
    routine, problems = read(_page(mark, _ORDERS[0]))
    assert [(part.name, part.counts) for part in routine.parts] == [("A", 16), ("B", 16)]
    assert [item.name for item in routine.play] == _PLAY
    assert [one.message for one in problems if one.level != "note"] == []


@pytest.mark.parametrize("order", _ORDERS)
def test_orders_with_dashes(order: str) -> None:
    """A play whose items stand between dashes is no key to short forms, and a name in it cuts its part."""
    routine, _ = read(_page(_MARKS[0], order))
    assert [item.name for item in routine.play] == _PLAY
    cuts = [(line.passes, line.part, [one.after for one in line.departures]) for line in routine.order]
    assert ((3,), "A", [8]) in cuts


def test_a_list_of_sections_with_a_plus() -> None:
    """A plus lists sections as "and" does: the words behind "A1 + A2" of a part of four."""
    named = Named(("A", "B"), (32, 16), ((8, 8, 8, 8), (8, 8)))
    assert [cut_in(words, 0, named) for words in ("1 + @0 2", "1 and @0 2", "1 , 2 , 3")] == [16, 16, 24]


@pytest.mark.parametrize(
    "lines",
    [
        "A first\nB first",
        "a 1  run\na 2  run\na 3  run",
        "A1\nA3\nB1",
        "A, first eight\nA, second eight\nB, first eight",
    ],
    ids=["too few", "one letter", "out of order", "eights, known as they are"],
)
def test_what_is_no_label(lines: str) -> None:
    """Only names in order, of two parts, are labels."""
    clean = clean_lines(lines)
    assert with_part_labels(clean) == clean


@pytest.mark.parametrize("mark", ["A1:", "A1.", "A1 -", "A1", "<A/1>", "(A1)", "A.1", "A, 1 =", "A1 |"])
def test_the_steps_in_the_line_of_the_label(mark: str) -> None:
    """Steps may follow their label at once, each before its counts."""
    text = "TWO MILE DRIFT\nPart A has 16 counts, part B has 16.\n\n"
    for part in "AB":
        for number in "12":
            text += mark.replace("A", part).replace("1", number) + " walk fwd R, L [1 2], shuffle fwd R L R [3 & 4], "
            text += "rock fwd L, recover R [5 6], shuffle back L R L [7 & 8]\n"
    routine, problems = read(text + "\nOrder A B, A B\n")
    assert [(part.name, part.counts) for part in routine.parts] == [("A", 16), ("B", 16)]
    assert [one.message for one in problems if one.level != "note"] == []


@pytest.mark.parametrize("row", ["{0} | {1} | {2}", "| {0} | {1} | {2} |", "{0}\t{1}\t{2}", "{0};{1};{2}"])
def test_each_row_of_a_table_says_its_section(row: str) -> None:
    """A label may stand in a cell of every row of its section; it heads the first."""
    steps = {
        "1-2": "walk fwd R, L",
        "3-4": "rock fwd R, recover L",
        "5-6": "R to side, touch L",
        "7-8": "L side, touch R",
    }
    heads = ["Part", "Counts", "Steps"]
    rows = [(part, *one) for part in ("A1", "A2", "B1", "B2") for one in steps.items()]
    table = "\n".join(row.format(*cells) for cells in (heads, *rows))
    routine, problems = read(f"TWO MILE DRIFT\nA = 16 counts, B = 16 counts\nOrder: A - B - A - B\n\n{table}\n")
    assert [(part.name, part.counts) for part in routine.parts] == [("A", 16), ("B", 16)]
    assert [item.name for item in routine.play] == ["A", "B", "A", "B"]
    assert [one.message for one in problems if one.level != "note"] == []
