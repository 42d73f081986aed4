from string import ascii_uppercase, digits

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.screens import blocks, pixels
from trainer.screens.room import Region

rows_of_text = st.integers(1, 26)
texts = st.text(alphabet=ascii_uppercase + digits + "ae&+-/:.% ←→↑↓", max_size=14)


class TestSize:
    @settings(max_examples=60, deadline=None)
    @given(text=texts, rows=rows_of_text, letter=st.integers(3, 40))
    def test_all_lines_are_as_wide_as_width_of_says(self, text: str, rows: int, letter: int) -> None:
        lines = blocks.render(text, rows=rows, letter=letter)
        assert [len(line) for line in lines] == [blocks.width_of(text, rows=rows, letter=letter)] * rows
        assert set("".join(lines)) <= set(pixels.GLYPHS)

    @settings(max_examples=60, deadline=None)
    @given(text=st.text(max_size=30), rows=rows_of_text, columns=st.integers(1, 200))
    def test_any_text_stays_within_its_room(self, text: str, rows: int, columns: int) -> None:
        lines = blocks.render(text, rows=rows, columns=columns)
        assert len(lines) == rows
        assert len({len(line) for line in lines}) == 1
        assert len(lines[0]) == min(columns, blocks.width_of(text, rows=rows, columns=columns))

    @settings(max_examples=40, deadline=None)
    @given(text=texts, rows=rows_of_text, columns=st.integers(1, 200))
    def test_more_room_never_makes_letters_narrower(self, text: str, rows: int, columns: int) -> None:
        narrow = blocks.width_of(text, rows=rows, columns=columns)
        assert blocks.width_of(text, rows=rows, columns=columns + 1) >= narrow

    @settings(max_examples=40, deadline=None)
    @given(text=texts.filter(str.strip), rows=st.integers(2, 20), data=st.data())
    def test_letters_stand_between_the_half_rows_kept_blank(self, text: str, rows: int, data: st.DataObject) -> None:
        top = data.draw(st.integers(0, rows - 1))
        height = data.draw(st.integers(1, 2 * rows - top))
        picture = pixels.picture(blocks.render(text, rows=rows, height=height, top=top))
        lit = [y for y, row in enumerate(picture) if any(row)]
        assert top <= min(lit)
        assert max(lit) < top + height

    def test_thirteen_letters_fit_eighty_columns_five_wide(self) -> None:
        assert blocks.width_of("N" * 13, rows=5, letter=5) == 77
        assert blocks.width_of("N" * 13, rows=5, columns=80) == 77

    @pytest.mark.parametrize(
        ("text", "columns", "fits"),
        [
            ("10:30", 19, True),  # the clock beside the dial in the smallest window
            ("1 1/2", 19, True),
            ("FULL", 19, True),
            ("10:30", 18, False),
            ("RESTART 16", 47, True),  # the longest departure there
        ],
    )
    def test_what_must_fit_does(self, text: str, columns: int, fits: bool) -> None:
        assert blocks.fits(text, columns=columns, rows=4) is fits

    @pytest.mark.parametrize("rows", [4, 5, 6, 8, 11, 13, 17, 26])
    def test_a_short_name_stops_growing_before_it_is_as_wide_as_high(self, rows: int) -> None:
        assert blocks.width_of("H", rows=rows, columns=500) == blocks.width_of("H", rows=rows)
        assert blocks.width_of("H", rows=rows) * 8 < rows * 17

    def test_a_pen_of_ones_own(self) -> None:
        assert blocks.render("I", rows=3, letter=5, stroke=1, bar=1) == ["▀█▀", " █ ", "▄█▄"]
        assert blocks.render("L", rows=2, letter=6, stroke=1.5, bar=2) == ["█▌    ", "██████"]
        assert blocks.render("II", rows=3, letter=5, stroke=1, bar=1, gap=2)[1] == " █    █ "


class TestShape:
    @pytest.mark.parametrize("rows", [3, 4, 5, 8, 11, 26])
    @pytest.mark.parametrize("letter", [5, 6, 9, 12, 20])
    def test_even_letters_are_mirror_images_of_themselves(self, rows: int, letter: int) -> None:
        # A stem of whole columns can stand in the middle of whole columns.
        for character in "AHMOTUVWX08":
            for row in pixels.picture(blocks.render(character, rows=rows, letter=letter, stroke=max(1, letter // 5))):
                if character in "TVMWX" and (letter - max(1, letter // 5)) % 2:
                    continue
                assert row == row[::-1], character

    @pytest.mark.parametrize("rows", [4, 5, 8, 11, 17, 26])
    def test_no_letter_has_a_hole_in_its_stem(self, rows: int) -> None:
        for character in "BDEFHKLMNPR":
            picture = pixels.picture(blocks.render(character, rows=rows))
            assert all(row[0] for row in picture), character

    @pytest.mark.parametrize("rows", [4, 5, 8, 11, 17, 26])
    def test_what_tells_letters_apart(self, rows: int) -> None:
        foot = {character: pixels.picture(blocks.render(character, rows=rows))[-1] for character in "RBL1"}
        middle = len(foot["R"]) // 2
        assert not foot["R"][middle - 1], "R is open below"
        assert all(foot["B"]), "B is closed below, to its corners"
        assert all(foot["L"]), "L has a foot"
        assert not foot["1"][0], "1 has none"

    def test_every_point_of_the_master_lies_on_the_lattice(self) -> None:
        for character, strokes in blocks._strokes().items():
            assert len(character) == 1
            for stroke in strokes:
                assert len(stroke) >= 2, character
                assert all(0 <= x <= 4 and 0 <= y <= 6 for x, y in stroke), character

    def test_the_master_has_all_that_the_floor_shows(self) -> None:
        assert set(ascii_uppercase + digits + "ae&+-/:.%←→↑↓'") <= set(blocks._strokes())


class TestText:
    @pytest.mark.parametrize(
        ("text", "same", "why"),
        [
            ("Sailor", "SailoR", "small letters are capitals"),
            ("PAsO", "PASO", "small letters are capitals"),
            ("É", "E", "accents are left out"),
            ("ß", "SS", "two capitals"),
            ("½", "1/2", "a fraction in one character"),
            ("1\t2", "1 2", "any blank is a blank"),
            ("漢", "?", "not in the master"),
            ("🕛", "?", "not in the master"),
        ],
    )
    def test_characters_stand_for_others(self, text: str, same: str, why: str) -> None:
        assert blocks.render(text, rows=5) == blocks.render(same, rows=5), why

    def test_a_and_e_of_a_count_are_small(self) -> None:
        for small, capital in (("a", "A"), ("e", "E")):
            picture = pixels.picture(blocks.render(small, rows=8))
            assert not any(any(row) for row in picture[:4])
            assert blocks.render(small, rows=8) != blocks.render(capital, rows=8)

    def test_no_text_is_blank(self) -> None:
        assert blocks.render("", rows=3) == ["", "", ""]
        assert blocks.width_of("", rows=3) == 0
        assert set("".join(blocks.render("  ", rows=3))) == {" "}


class TestSolids:
    @settings(max_examples=30, deadline=None)
    @given(text=texts, rows=st.integers(1, 9))
    def test_turning_pixels_over_twice_changes_nothing(self, text: str, rows: int) -> None:
        lines = blocks.render(text, rows=rows)
        assert blocks.inverse(blocks.inverse(lines)) == lines

    @pytest.mark.parametrize(("rows", "below"), [(6, 1), (9, 1), (13, 1), (5, 0)])
    def test_the_word_is_cut_out_of_a_solid(self, rows: int, below: int) -> None:
        picture = pixels.picture(blocks.slab("RESTART", rows=rows, columns=80, below=below))
        solid, rest = picture[: 2 * rows - below], picture[2 * rows - below :]
        assert all(solid[0])
        assert all(solid[-1])
        assert all(row[0] and row[-1] for row in solid)
        assert sum(not dot for row in solid for dot in row) > 200
        assert not any(any(row) for row in rest)

    def test_a_word_fills_a_region(self) -> None:
        region = Region(left=3, top=1, columns=30, rows=4, inset=1, below=1)
        for align, edge in (("left", 0), ("right", -1)):
            lines = blocks.render_in("HH", region, align)  # type: ignore[arg-type]
            assert [len(line) for line in lines] == [30] * 4
            assert lines[1][edge] == "█"
        assert [line.strip() for line in blocks.render_in("H", region, "centre")] == [
            line.strip() for line in blocks.render("H", rows=4, height=6, top=1)
        ]
