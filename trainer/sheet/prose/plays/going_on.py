"""Whether a sentence goes on with a play that a list seems to have told: "Then one extra B"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.paragraphs import Sentence
from trainer.sheet.prose.plays.symbols import Named, symbols, text_of
from trainer.sheet.prose.plays.told_items import Play

_CONTINUES = re.compile(
    r"(?:and |so |there |here |now )?(?:then|next|follows?|comes?|(?:is|are) then|once more|again|now|"
    r"finally|to finish|last|lastly|followed by|hereupon|thereupon|hereafter|thereafter|afterwards|subsequently|"
    r"secondly|thirdly|fourthly|#[2-9] @\d|"
    r"after (?:that|those|these|this|them|"
    r"the #\d+ @\d+ [@$]))\b|"
    r"(?:and )?(?:finish|end|close|conclude)(?: (?:the|dance|it|all|off|up|with|by|on|a|\d+|more|last|single|"
    r"part|whole))* @|"
    r"(?:the |a |another )?[@$]\S+ is (?:then |now )?(?:danced|done) "
    r"(?:\d+ times |twice |once more |again )*to (?:finish|end|close)\b|"
    r"(?:(?:a|the|another|and|single|whole|full|more|\d+) )*[@$]\S+ (?:\d+ times |twice )?"
    r"(?:closes?|ends?|finish(?:es)?|concludes?|completes?|follows?|comes? (?:last|next|then|after)) "
)
_ONE_MORE = re.compile(
    r"(?:and )?then (?:we |you |all |dance |do |comes? |there is |put |add )*(?:1 |a |the |another |yet )*"
    r"(?:extra|more|last|final|additional|further|other|another) @"
)
"""Goes on even with a list that a colon seems to close: "Then one extra B"."""
_SO_MANY = re.compile(r"(?:and |then )?(?:\d+|another)(?: (?:more|further|single|extra|whole|last|final))* @")
"""Opens a sentence of a story told by numbers, each of which is a list: "Two A's and a B. One A by itself"."""
_NEXT = re.compile(r"(?:(?:and|but|then|on|for|of|in) )*(?:the |your |our )?#(\d+) @(\d+)\b")


def goes_on(text: str) -> bool:
    """Whether a sentence opens with what goes on: "then", "after that", "to finish"."""
    return _CONTINUES.match(text) is not None


def goes_on_with(text: str, play: Play, told: Sequence[Sentence], named: Named) -> bool:
    """Whether a sentence goes on with a play, which the sentences `told` have told so far."""
    if play.closed and not _ONE_MORE.match(text):
        return False
    return goes_on(text) or _counts_on(text, play, told, named) or _names_next(text, play)


def _counts_on(text: str, play: Play, told: Sequence[Sentence], named: Named) -> bool:
    """Whether a sentence tells how many of a part are danced next, as the first one of the story does."""
    if play.labelled or not told or not _SO_MANY.match(text):
        return False
    return bool(_SO_MANY.match(text_of(symbols(told[0].tokens, named)).text))


def _names_next(text: str, play: Play) -> bool:
    """Whether a sentence begins with the next pass of a part: "The third A is cut off ..." after two of them."""
    named = _NEXT.match(text)
    told = sum(item.part == int(named[2]) for item in play.items) if named is not None else 0
    return named is not None and told > 0 and int(named[1]) == told + 1
