"""Sentences that lead to the ending of a phrased dance without a name for it: "To finish, we step right forward"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.bodies import body_in, mostly_steps
from trainer.sheet.prose.plays.paragraphs import speaks_of_steps
from trainer.sheet.prose.plays.symbols import Named, symbols, text_of
from trainer.sheet.prose.words import Token

_CLOSE = r"(?:finish|end|close|conclude|round (?:it |things )?off|wind up|bow out|finale)"
_WAYS_IN = (
    rf"(?:to|for) (?:the |a |our )?{_CLOSE}(?: (?:off|up|with|the|our|this|dance|it|all|everything|there))*",
    r"at the (?:very |bitter )?end",
    r"(?:finally|lastly|last of all|at (?:the )?last)",
    r"(?:we|you|the dance|it)(?: all)? (?:finish|finishes|end|ends|close|closes)(?: (?:it|off|up))*"
    r"(?: (?:so|thus|like this|as follows|(?:in )?this way|with (?:this|these)|here))?(?= ?[:,-])",
)
_LED = re.compile(
    rf"^(?:(?:and|so|then|now|,) )*(?:{'|'.join(_WAYS_IN)}) ?[,:-]? "
    r"(?:(?:we|you|they|everybody|everyone|all|just|please|then) )*"
)


def ending_led(tokens: Sequence[Token], named: Named) -> tuple[Token, ...]:
    """Return the steps of the ending that a sentence leads to; none where it does not.

    Of parts that it speaks of the play tells: what ends the dance are no steps alone then.
    """
    given = symbols(tokens, named)
    led = _LED.match(text_of(given).text)
    if led is None or any(one.part >= 0 or one.extra is not None for one in given[1:]):
        return ()
    rest = [one.token for one in given[led[0].count(" ") :]]
    return body_in(rest) if rest and speaks_of_steps(rest[0]) and mostly_steps(rest) else ()
