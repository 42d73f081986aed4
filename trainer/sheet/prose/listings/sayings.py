"""What may be said in a row of a list of walls, as patterns over its words parted by blanks.

`n` is a number in figures or words, `nth` an ordinal; `kind` and `name` are those of a plain extra. Common practice, no
source.
"""

import re

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS


def _longest_first(words: dict[str, int]) -> str:
    return "|".join(sorted(words, key=len, reverse=True))


NUMBER = rf"(?:\d{{1,3}}|{_longest_first(NUMBERS)})"
_N = rf"(?P<n>{NUMBER})"
_NTH = rf"(?P<nth>{_longest_first(ORDINALS)}|\d (?:st|nd|rd|th))"
_COUNTS = r"(?:counts?|cts?|beats?|steps)"
_MANY = r"(?:sections|figures|blocks|sets|phrases)"
_SECTIONS = r"(?:sections?|secs?|sects?|figures?|figs?|blocks?|sets?|phrases?|eights?|8 s|s)"
_UP_TO = (
    r"(?:(?:dance |do |go |danced |only |just |as far as |up to |to |until |through |the |and including |end of )*)"
)
_EXTRA = r"(?P<kind>tag|bridge)(?: (?P<name>\d|[a-d]|one|two|three))?"
RESTART = (
    r"(?:(?:dance )?re ?-? ?start(?:s|ed)?(?: the dance)?|r / s|rs|(?:start|begin|starts|begins|go)(?: it| the dance)? "
    r"(?:again|over|afresh|anew)(?: from the (?:top|start|beginning))?|"
    r"(?:again )?(?:(?:back to|from|to) (?:the )?|then |at the |= |> |and )(?:very )?"
    r"(?:top|beginning|start)(?: again)?)"
)
HOLD = (
    rf"(?:(?:hold|wait|pause)(?:s|ing)?(?: for)? {NUMBER}(?: more)?(?: {_COUNTS})?|"
    rf"{NUMBER}(?: {_COUNTS}(?: of)?)? (?:holds?|holding|waiting|wait|pauses?)(?: {_COUNTS})?)"
)
_BUT = (
    r"(?:all|everything|full|whole|(?:the )?whole dance) (?:but|except|minus|without) (?:for )?(?:the )?last "
    rf"{_N}(?: {_COUNTS})?"
)
_WHOLE = (
    r"(?:is |dance |danced |do )*(?:(?:(?:the|an?|one) )?(?:whole|full|entire|complete) (?:dance|wall|thing|lot)|"
    rf"all (?:of it|through|the way(?: through)?|the dance)|all \d+(?: {_COUNTS})?|"
    rf"all (?:the |of the )?(?:{NUMBER} )?(?:{_MANY[3:-1]}|eights|bars|parts)|start to finish|from start to finish|"
    r"as (?:written|usual|normal|above|taught)|(?:in )?full|all|everything|whole|complete(?:ly)?|entire(?:ly)?|"
    rf"the lot|normal(?:ly)?|straight through)(?: {_COUNTS})?(?: as (?:usual|written|normal))?"
)
_ENDS = (
    r"(?:and )?(?:we ' ?re done|we're done|we are done|that's it|the end|"
    r"(?:the )?(?:song|music|dance|track|record) (?:ends|stops)|(?:ends?|finish(?:es)?|stops?)(?= [,.;|!(]|$))"
    r"(?: here| there)?"
)
_CLOSE = "(?:end|ends|finish|finishes|close|closes)"
_REST = (
    r"(?:straight )?(?:(?:dance |do |finish |with )?(?:the rest|the remainder|what is left)(?: of (?:the )?"
    r"(?:dance|wall|it))?|carry on|carries on|go(?:es)? (?:straight )?on|continue)"
)
_NOTHING = (
    r"(?:straight (?:on|through)|carry on|carries on|go(?:es)? (?:straight )?on|none|nothing(?: extra)?|continue|"
    r"no (?:change|tag|restart|extra)s?)"
)
_GLUE = (
    r"(?:,|;|\.|\+|&|/|!|:|>|-|\)|and|then|plus|followed by|with|we|"
    r"after which(?: we(?: all)? (?:wait|hold|stand)(?= :))?|also|but|for|i \. ?e \.|that is|at the end|"
    r"before you (?:start|begin) the \w+(?: wall)?|"
    r"the (?:band|music|song|singer|fiddle) (?:stops|pauses|rests|breathes|waits)(?: here| there)?(?= ?[:;-])|"
    r"(?:you |it |we )?(?:comes?|coming|arriv(?:es?|ing)|reached)(?= (?:from|at|facing) )|"
    r"weight (?:on|stays on|still on) (?:the |your )?(?:left|right|l|r)(?: foot)?|only|long|\||=|an?|add|extra)"
)
_DANCED = rf"{_UP_TO}(?:(?:first|{_COUNTS}) )?(?:(?:1|one) (?:-|to|through) )?{_N}(?: {_COUNTS})?(?: only| long)?"
_NAMED = r"(?:only |just |dance )*(?:up to|as far as|to|until|through)(?: and including)? (?:the )?[a-z][^,;|.()+*]*"
_SAYINGS: tuple[tuple[str, str], ...] = (
    ("but", _BUT),
    ("whole", _WHOLE),
    ("eights", rf"{_UP_TO}(?:first )?{_N} (?:eights|8 s)(?: only)?"),
    ("first", rf"{_UP_TO}(?:first )(?:and |& )second {_SECTIONS}(?: only)?"),
    ("sections", rf"{_UP_TO}(?:first )?{_N} {_MANY}(?: only)?"),
    ("sections", rf"{_UP_TO}(?:only |just )?{_SECTIONS} (?P<n>1|one)(?: only| alone|(?= and then| then))"),
    ("sections", rf"{_UP_TO}{_SECTIONS} (?:1|one) (?:-|to|through|and|&) {_N}(?: only)?"),
    ("sections", rf"{_UP_TO}(?:end of |up to |to |as far as ){_SECTIONS} {_N}(?: only)?"),
    ("nth", rf"{_UP_TO}(?:end of )(?:the )?{_NTH} {_SECTIONS}"),
    ("nth", rf"{_UP_TO}(?:the )?(?P<nth>first) {_SECTIONS}(?: only)?"),
    ("half", r"(?:dance |do |only )*(?:the )?(?:first )?half(?: of)?(?: the dance| it)?(?: only)?"),
    ("hold", HOLD),
    ("counts", _DANCED),
    ("restart", rf"{RESTART}(?: here| there)?(?: (?:after|before|facing|at|as|with|towards|on) [^,;|.()+*]*)?"),
    ("inside", rf"(?:a |the |put in |do )*{_EXTRA} after {_SECTIONS} {_N}"),
    ("extra", rf"(?:a |an |the |do |dance |put in )*{_EXTRA}(?: at the end| afterwards| after it| here)?"),
    ("extra", rf"(?:{_CLOSE} with )?(?:a |an |the |do |dance )*(?P<kind>ending)(?P<name>)(?: here)?"),
    ("end", _ENDS),
    ("rest", _REST),
    ("nothing", _NOTHING),
    ("below", r"(?:see|told|as told|explained) below|(?:then |but )?(?:the )?changed(?: (?:counts?|steps?|ending))?"),
    ("named", _NAMED),
    ("glue", _GLUE),
)  # fmt: skip
PATTERNS = tuple((name, re.compile(pattern + r"(?= |$)")) for name, pattern in _SAYINGS)
END_WITH = re.compile(r"(?:and )?(?:ends?|finish|finishes) (?:with|by|on)(?: an?| the)?(?= )")
TELLING = re.compile(rf"\b(?:{RESTART}|tags?|bridges?|ending|skip|leave|omit|instead|replace)\b")
"""What changes the order: an aside that says it must be understood."""
