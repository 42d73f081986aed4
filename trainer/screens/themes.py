"""The program's own colours: dark, light, either in one colour, and what is left of them in poorer terminals.

Roles: primary is the body and its clocks, warning the foot and the next step, accent a turn, error a departure,
secondary what stays quiet.
Contrast with the ground (WCAG 2.2): 7:1 for what is read while dancing, 4.5:1 for quiet text; computed in the tests. A
terminal of 256 or 16 colours takes the nearest that it has: there 4.5:1 is held, which WCAG asks of large letters.
"""

from dataclasses import replace

from textual.theme import BUILTIN_THEMES, Theme

from trainer.practice.settings import Colours

DARK = Theme(
    name="callahead-dark",
    primary="#7ad6ff",
    secondary="#8a949e",
    warning="#ffd75e",
    accent="#ff9850",
    error="#ff8080",
    success="#9be09b",
    foreground="#f4f6f8",
    background="#0e1116",
    surface="#151a21",
    panel="#1c232c",
    dark=True,
)

LIGHT = Theme(
    name="callahead-light",
    primary="#00507f",
    secondary="#5c6670",
    warning="#5f4700",
    accent="#7c3300",
    error="#9c0f24",
    success="#0f5c1f",
    foreground="#101418",
    background="#fbfbf8",
    surface="#f1f1ec",
    panel="#e6e6df",
    dark=False,
)

LIGHT_OF_SIXTEEN = Theme(
    name="callahead-light-of-sixteen",
    primary="#0000aa",
    secondary="#000000",
    warning="#000000",
    accent="#0000aa",
    error="#aa0000",
    success="#000000",
    foreground="#000000",
    background="#ffffff",
    surface="#ffffff",
    panel="#ffffff",
    dark=False,
)
"""In sixteen colours only blue and red stand off white; the other roles are told by their shape and place."""

PLAIN = replace(BUILTIN_THEMES["ansi-dark"], name="callahead-plain")
"""For a terminal in which no colour is written at all, only its own two (NO_COLOR, see no-color.org)."""


def in_one(theme: Theme) -> Theme:
    """Return a theme in which whatever is read has one colour; quiet text stays quiet."""
    own = theme.foreground
    return replace(theme, name=f"{theme.name}-one", primary=own or "", warning=own, accent=own, error=own, success=own)


DARK_ONE, LIGHT_ONE = in_one(DARK), in_one(LIGHT)
_OF_SIXTEEN = {LIGHT.name: LIGHT_OF_SIXTEEN, LIGHT_ONE.name: in_one(LIGHT_OF_SIXTEEN)}

ALL = (DARK, LIGHT, DARK_ONE, LIGHT_ONE, *_OF_SIXTEEN.values(), PLAIN)

_CHOSEN: dict[Colours, Theme] = {
    "dark": DARK,
    "light": LIGHT,
    "dark in one colour": DARK_ONE,
    "light in one colour": LIGHT_ONE,
}


def theme_for(colours: Colours, *, sixteen: bool = False, none: bool = False) -> Theme:
    """Return the theme of the colours chosen, in a terminal that may have `sixteen` of them or shall show `none`."""
    if none:
        return PLAIN
    theme = _CHOSEN[colours]
    return _OF_SIXTEEN.get(theme.name, theme) if sixteen else theme
