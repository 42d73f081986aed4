"""What the app asks of some of its pages, whichever they are."""

from typing import Protocol, runtime_checkable


@runtime_checkable
class Displayed(Protocol):
    """A page that asks how long its pictures take."""

    def displayed(self) -> None:
        """Take in that what was changed has been sent to the terminal."""


@runtime_checkable
class HoldingText(Protocol):
    """A page that may hold text that is nowhere else."""

    @property
    def holds_text(self) -> bool:
        """Whether text would be lost."""

    def action_leave(self) -> None:
        """Go back, after a question."""
