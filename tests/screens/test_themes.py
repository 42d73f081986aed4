"""Contrast of our colours with their grounds, by the formula of WCAG 2.2, success criteria 1.4.6 and 1.4.3."""

import pytest
from textual.color import Color

from trainer.screens.themes import DARK, LIGHT

READ_WHILE_DANCING = ("foreground", "primary", "warning", "accent", "error")


def luminance(text: str) -> float:
    """Relative luminance, WCAG 2.2."""
    channels = (value / 255 for value in Color.parse(text).rgb)
    linear = [value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_formula_against_its_own_ends():
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # the grey that just fails 4.5:1


@pytest.mark.parametrize("theme", [DARK, LIGHT], ids=lambda theme: theme.name)
def test_what_is_read_while_dancing_has_seven_to_one(theme):
    for role in READ_WHILE_DANCING:
        assert contrast(getattr(theme, role), theme.background) >= 7, role


@pytest.mark.parametrize("theme", [DARK, LIGHT], ids=lambda theme: theme.name)
def test_quiet_text_has_four_and_a_half_to_one(theme):
    assert contrast(theme.secondary, theme.background) >= 4.5
    assert contrast(theme.secondary, theme.surface) >= 4.5
