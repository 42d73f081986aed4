"""Contrast of our colours with their grounds, by the formula of WCAG 2.2, success criteria 1.4.6 and 1.4.3."""

from itertools import product
from typing import get_args

import pytest
from rich.color import Color, ColorSystem
from textual.color import Color as Mixed

from trainer.practice.settings import Colours
from trainer.screens import themes
from trainer.screens.themes import DARK, DARK_ONE, LIGHT, LIGHT_OF_SIXTEEN, LIGHT_ONE, theme_for

OWN = (DARK, LIGHT, DARK_ONE, LIGHT_ONE, LIGHT_OF_SIXTEEN)
READ_WHILE_DANCING = ("foreground", "primary", "warning", "accent", "error")
GROUNDS = ("background", "surface", "panel")

Channels = tuple[int, int, int]

PALETTES: dict[str, list[Channels]] = {
    # ctlseqs and XTerm-col.ad of xterm; the palette of VGA text modes, as the Linux console has it.
    "xterm": [
        (0, 0, 0), (205, 0, 0), (0, 205, 0), (205, 205, 0), (0, 0, 238), (205, 0, 205), (0, 205, 205), (229, 229, 229),
        (127, 127, 127), (255, 0, 0), (0, 255, 0), (255, 255, 0), (92, 92, 255), (255, 0, 255), (0, 255, 255),
        (255, 255, 255),
    ],
    "VGA": [
        (0, 0, 0), (170, 0, 0), (0, 170, 0), (170, 85, 0), (0, 0, 170), (170, 0, 170), (0, 170, 170), (170, 170, 170),
        (85, 85, 85), (255, 85, 85), (85, 255, 85), (255, 255, 85), (85, 85, 255), (255, 85, 255), (85, 255, 255),
        (255, 255, 255),
    ],
}  # fmt: skip


def luminance(channels: Channels) -> float:
    """Relative luminance, WCAG 2.2."""
    linear = [
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (channel / 255 for channel in channels)
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Channels, other: Channels) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def rgb(text: str) -> Channels:
    return Mixed.parse(text).rgb


def test_the_formula_against_its_own_ends():
    assert contrast((255, 255, 255), (0, 0, 0)) == pytest.approx(21)
    assert contrast(rgb("#777777"), (255, 255, 255)) == pytest.approx(4.48, abs=0.01)  # the grey that just fails 4.5:1


@pytest.mark.parametrize("theme", OWN, ids=lambda theme: theme.name)
def test_what_is_read_while_dancing_has_seven_to_one(theme):
    for role in READ_WHILE_DANCING:
        assert contrast(rgb(getattr(theme, role)), rgb(theme.background)) >= 7, role


@pytest.mark.parametrize("theme", OWN, ids=lambda theme: theme.name)
def test_quiet_text_has_four_and_a_half_to_one_on_every_ground(theme):
    for ground in GROUNDS:
        assert contrast(rgb(theme.secondary), rgb(getattr(theme, ground))) >= 4.5, ground


@pytest.mark.parametrize("theme", [DARK_ONE, LIGHT_ONE], ids=lambda theme: theme.name)
def test_in_one_colour_every_role_that_is_read_is_that_colour(theme):
    assert {getattr(theme, role) for role in READ_WHILE_DANCING} == {theme.foreground}


@pytest.mark.parametrize("theme", OWN, ids=lambda theme: theme.name)
def test_in_256_colours_large_letters_keep_their_four_and_a_half(theme):
    ground = brought_down(theme.background, ColorSystem.EIGHT_BIT)
    for role in (*READ_WHILE_DANCING, "secondary"):
        assert contrast(brought_down(getattr(theme, role), ColorSystem.EIGHT_BIT), ground) >= 4.5, role


@pytest.mark.parametrize(("palette", "colours"), [*product(PALETTES, get_args(Colours))])
def test_in_sixteen_colours_large_letters_keep_their_four_and_a_half(palette, colours):
    """4.5:1 is what WCAG asks of large letters in 1.4.6; which sixteen they are is the terminal's affair."""
    theme = theme_for(colours, sixteen=True)
    ground = PALETTES[palette][number_of(theme.background)]
    for role in (*READ_WHILE_DANCING, "secondary"):
        shown = PALETTES[palette][number_of(getattr(theme, role))]
        assert contrast(shown, ground) >= 4.5, role


def test_every_theme_is_there_to_be_chosen():
    chosen = {theme_for(colours).name for colours in get_args(Colours)}
    assert chosen == {theme.name for theme in (DARK, LIGHT, DARK_ONE, LIGHT_ONE)}
    assert all(theme_for(colours, none=True) is themes.PLAIN for colours in get_args(Colours))
    assert len({theme.name for theme in themes.ALL}) == len(themes.ALL)


def brought_down(text: str, system: ColorSystem) -> Channels:
    return tuple(Color.parse(text).downgrade(system).get_truecolor())


def number_of(text: str) -> int:
    number = Color.parse(text).downgrade(ColorSystem.STANDARD).number
    assert number is not None
    return number
