"""Numbers in words and in Roman letters; the layout of a page asks for them as well as its words do."""

_ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
)
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety hundred"
_PLACES = (
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth "
    "sixteenth seventeenth eighteenth nineteenth twentieth"
)
NUMBERS = {word: number for number, word in enumerate(_ONES.split())} | {
    word: number for number, word in zip(range(20, 110, 10), _TENS.split(), strict=True)
}
ORDINALS = {word: number for number, word in enumerate(_PLACES.split(), 1)}
_NUMERALS = "i ii iii iv v vi vii viii ix x xi xii xiii xiv xv xvi xvii xviii xix xx"
ROMAN = {numeral: number for number, numeral in enumerate(_NUMERALS.split(), 1)}


def numeral(word: str) -> int:
    """Return the number that a word in small letters is, as "three", "third" or "iii"; 0 where it is none."""
    return ORDINALS.get(word) or NUMBERS.get(word) or ROMAN.get(word, 0)
