"""The program's own colours, dark and light.

Roles: primary is the body and its clocks, warning the foot and the next step, accent a turn, error a departure,
secondary what stays quiet.
Contrast with the ground (WCAG 2.2): 7:1 for what is read while dancing, 4.5:1 for quiet text; computed in the tests.
"""

from textual.theme import Theme

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
