"""Verses of the song, and rounds, that a story tells by their numbers: where their items begin, and which are alike."""

import re

from trainer.sheet.prose.plays.symbols import Text
from trainer.sheet.prose.plays.told_items import Play

_ROUND = r"(?:round|verse|time|pass|block|set|go|stanza|lap|turn)"
_NTH_ROUND = re.compile(rf"(?:(?:and|then|so|in|on|for|during) )*(?:the )?#(\d) {_ROUND}\b")
STANZA = re.compile(
    r"(?:(?:and|then|so|but|now|in|on|for|during|here|comes) )*(?:the )?(?:(?:verse|stanza|strophe) (\d)|"
    r"#(\d) (?:verse|stanza|strophe)(?: of the song)?)\b"
)
"""Opens a sentence on a verse of the song, where no part is called so: "Verse three is the odd one"."""
_LIKE_ROUND = re.compile(
    rf"\bthe #(\d) (?:{_ROUND} )?(?:(?:is|goes|runs|again|exactly|just|danced|much|,|the|same|as) )*(?:like|"
    rf"as) the #(\d)\b"
)
"""A round told by another: "the third round is like the first, and the fourth like the second"."""


def come_to_a_stanza(text: Text, play: Play) -> None:
    """Keep where the verse of the song begins that a sentence comes to, where the verse before it was told in turn."""
    opened = STANZA.match(text.text)
    if opened is None:
        return
    number = int(opened[1] or opened[2])
    if number == max(play.stanzas, default=0):
        return
    play.stanza = len(play.items) if number - 1 in play.stanzas and play.items else None
    play.stanzas.add(number)


def keep_round(text: Text, play: Play, first: int) -> None:
    """Keep what a sentence tells of a numbered round, from an item on."""
    if (opened := _NTH_ROUND.match(text.text)) is not None and play.items[first:]:
        play.numbered[int(opened[1])] = (first, len(play.items) - first)


def dance_like_others(text: Text, play: Play) -> bool:
    """Dance the rounds that are said to be like others; return whether the sentence says so of any."""
    before = len(play.items)
    for found in _LIKE_ROUND.finditer(text.text):
        first, many = play.numbered.get(int(found[2]), (0, 0))
        if many:
            play.numbered[int(found[1])] = (len(play.items), many)
            play.items += [item.again() for item in play.items[first : first + many]]
    return len(play.items) > before
