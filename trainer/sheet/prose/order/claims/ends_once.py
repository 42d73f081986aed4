"""Of several walls after which the dance is over, the last one: "do walls 6 and 7 right through and that is the end".

The others are danced whole, and what else is told of all of them, a tag, they keep.
"""

from collections.abc import Sequence

from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.extras import Ref


def end_only_the_last(made: Sequence[Claim], length: int) -> None:
    """Let only the last of the walls of one statement end the dance, where all of them are danced whole."""
    if any(claim.leave != "end" or claim.after != length for claim in made):
        return
    for claim in made[:-1]:
        claim.leave = "continue"
        claim.inserts = [one for one in claim.inserts if not (isinstance(one, Ref) and one.kind == "ending")]
