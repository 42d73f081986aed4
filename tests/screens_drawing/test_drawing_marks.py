import pytest

from trainer.screens import blocks, marks, pixels


def test_the_free_foot_is_its_letter_over_a_block() -> None:
    assert marks.foot("L", columns=7, rows=11) == [
        *blocks.render("L", rows=5, columns=7),
        "       ",
        *["███████"] * 5,
    ]


def test_a_foot_that_waits_has_a_hollow_block() -> None:
    solid, hollow = (marks.foot("R", columns=7, rows=11, waiting=waiting) for waiting in (False, True))
    assert hollow[:6] == solid[:6]
    assert hollow[6:] == ["█▀▀▀▀▀█", "█     █", "█     █", "█     █", "█▄▄▄▄▄█"]


@pytest.mark.parametrize("rows", [11, 13, 17, 26])
def test_a_foot_fills_its_region(rows: int) -> None:
    for letter in "RLB":
        assert [len(line) for line in marks.foot(letter, columns=9, rows=rows)] == [9] * rows


def test_counts_go_out_from_the_right() -> None:
    assert marks.counts_left(3, 4, columns=30, rows=3) == [
        "██████  ██████  ██████  █▀▀▀▀█",
        "██████  ██████  ██████  █    █",
        "██████  ██████  ██████  █▄▄▄▄█",
    ]


@pytest.mark.parametrize("left", range(5))
def test_as_many_blocks_are_solid_as_counts_are_left(left: int) -> None:
    middle = marks.counts_left(left, 4, columns=60, rows=5, inset=1)[2]
    assert [set(block) == {"█"} for block in middle.split("  ") if block.strip()][:left] == [True] * left
    assert middle.count("█") == left * 13 + (4 - left) * 2


def test_blocks_keep_their_inset_blank() -> None:
    picture = pixels.picture(marks.counts_left(2, 4, columns=60, rows=5, inset=2))
    assert not any(any(row) for row in picture[:2])
    assert all(any(row) for row in picture[2:])


def test_the_rule_leaves_a_half_row_of_air() -> None:
    assert marks.rule(5) == ["▀▀▀▀▀"]
    assert marks.rule(5, rows=2) == ["█████", "▀▀▀▀▀"]
