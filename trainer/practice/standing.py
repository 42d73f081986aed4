"""Where the dancer stands to the class: what is called then, and what the screen shows.

As the sheet says stand whoever dances alone, and a teacher with the back to the class: nothing is swapped. A teacher
who faces the class is shown their own feet and turns, while the calls stay those of the class. Who follows somebody
who faces them dances the mirror image and hears it called.
"""

from enum import StrEnum

from trainer.dance.opposite import facing_the_class, following
from trainer.dance.timeline import Timeline


class Standing(StrEnum):
    """The ways to stand, each by the words that say so on the screen."""

    AS_WRITTEN = ""
    FACING_CLASS = "facing the class"
    FOLLOWING = "following who faces you"

    @property
    def next(self) -> "Standing":
        """The next of them, in a round."""
        ways = list(Standing)
        return ways[(ways.index(self) + 1) % len(ways)]


def called_and_shown(timeline: Timeline, standing: Standing) -> tuple[Timeline, Timeline]:
    """Return what is called and what is shown of the dance as written; their beats and events are the same."""
    if standing is Standing.FACING_CLASS:
        return timeline, facing_the_class(timeline)
    called = following(timeline) if standing is Standing.FOLLOWING else timeline
    return called, called
