"""How often what a play names is danced: "twice", "x 2", "three of each", "all of that again"; its joining words."""

import re

MULTI = {"once": 1, "twice": 2, "thrice": 3, "double": 2, "doubled": 2}
_TIMES = r"(?:(\d+) times|x (\d+)|(\d+) x(?! [(@])|(twice|thrice)|× (\d+))"
AFTER_ITEM = re.compile(
    r"^(?:\( )?(?:comes |goes |follows |is danced |is sung |done |again )*" + _TIMES + r"|"
    r"^(?:(?:[,-] )?(?:(?:and|which|that|you|we|one|is|are|to|be|this|it|first|#1|next|now|"
    r"dances?|danced|done|do|does|comes|goes|sung|sings?|go|goes|run|over|performed|perform|"
    r"again|here|now|played|being|through|whole|must|should|will) )*|: )"
    + _TIMES
    + r"(?! (?:the |of |part |parts )*[@$(])"
)
"""How often the part before it is danced."""
ALL = re.compile(
    r"(?:[,:)-] |and |all |that |this |lot |the |2 |both |them |of |pair |couple |together |as |a |1 |being |are |is |"
    r"danced |done |gone |through |taken |in |way |so |like |which |we |you |one |dance |do |these |those |unit |set )+"
    r"(?:(\d+) times|x (\d+)|(\d+) x|(twice|thrice))"
    r" ?(over|through|in all|altogether|round|running|in a row)?"
)
HEADED = re.compile(
    r"^(?:(?:then|and|now|the|a|this|order|:) )*(?:(\d+) times|(\d+) x|(twice|thrice)) [:-] |"
    r"^(?:each|both) (?:half|halves)(?: of the (?:dance|song))? (?:is|are|goes|has) "
)
"""Opens a sentence all of which is danced so often."""
SUBJECT = re.compile(
    r"\b(?:sequence|pattern|series|block|set|phrase|group|combination|string|unit|order)(?: of)?(?: :)? $"
)
"""Stands before parts that are danced again as one."""
AS_ONE = re.compile(
    r"\b(?:pair|couple|both|together|of them|the 2|these 2|those 2|unit|as 1|as one|this way|like this)\b"
)
"""Words that say that the parts before them are danced again as one."""
SAME = re.compile(
    r"\brepeat (?:all|that|everything|the lot|the same|this|these|it|both|the above|from the top)\b|"
    r"\b(?:all|the whole lot|everything|(?:the|that|this) whole (?:thing|lot|bit|row|sequence|pattern))(?: of)?"
    r"(?: that| this| it| these)?(?: once)? (?:more|again|over again)\b|"
    r"\bthe same (?:again|once more|once again|over again)|\bdo (?:it|that|this) (?:all )?(?:again|once more)"
)
IT_AGAIN = re.compile(
    r"\b(?:dance|do|danced|done|repeat|dances|does|sings?|plays?|hears?|gets?|takes?|has|have) "
    r"(?:it|this 1)(?: straight away| all| right)? "
    r"(?:again|once more|over again|(?:for )?(?:a|the) #2 time)\b"
)
"""The part told last is danced once more."""
TWICE_MORE = re.compile(r"(?:(\d+)|(twice)) more")
AFRESH = re.compile(
    r"\b(?:begun|begins?|start(?:s|ed)?|restart(?:s|ed)?|dance(?:d|s)?)(?: it| the part)?(?: all)? "
    r"(?:afresh|anew|over|again|from the (?:top|beginning|start))\b|\band restarts?\b"
)
JOINERS = {
    ",", "-", "/", "&", "and", "then", "+", ">", "|", "(", ")", "the", "a", "an", "plus", "followed", "by", ";", ":",
    "x", "once", "twice", "times", "counts", "count", "only", "first", "of", ".", "part", "to", "short", "*", '"',
    "half", "all", "=", "last", "whole", "again", "up", "just", "follows", "pair", "at", "with", "beats", "next",
}  # fmt: skip
_LABEL = re.compile(
    r"\b(?:order|sequence|phrasing|running|play|plays|routine|structure|pattern|layout|map|goes|dance|dances|parts|"
    r"follows)\b"
)


TO_BOTH = re.compile(
    r"(?:is |are )?(?:danced |done )?(?:once )?(?:from|to|at|facing) the (?:front|back|home)(?: wall)? ?,? "
    r"(?:and )?(?:then |once more |once |"
    r"again )+(?:from|to|at|facing) the (?:front|back|home)\b"
)
"""A part danced once from either wall: "A once from the front and once from the back"."""


SUM = re.compile(
    r"(?:(?:and|so|now|then) )*(?:that|this|it|which|altogether|you|we)(?:'s| is| makes?| gives?| have| adds up to)+ "
    r"(?:you |us )?(?:altogether |in all )?(\d+) (?:@(\d)|[a-z]+)(?! \d)"
    r"(?=.*\b(?:in all|altogether|in total|all told)\b)"
)
"""How many of a part the play has in all: "that makes five choruses in all, one, two and two"; of parts, or of one."""


def many_of(groups: tuple[str | None, ...]) -> int:
    """Return how often, as the groups of a match say."""
    told = next((group for group in groups if group), "1")
    return MULTI[told] if told in MULTI else min(max(int(told), 1), 12)


def is_label(text: str) -> bool:
    """Whether words before the first item head an order of play."""
    return bool(_LABEL.search(text))
