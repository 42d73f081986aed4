"""Lines for those who would rather not turn: "If turns make you giddy, leave them out and shuffle forward on 3&4".

They give another way to dance some counts: where no wall is named they are neither steps of the dance nor its order.
"""

import re

_WHO = (
    r"(?:if|should|anyone|anybody|those|people|dancers|beginners|whoever|(?:the )?(?:dizzy|giddy)|not|"
    r"for (?:those|anyone|anybody|people|dancers|beginners|all)|do you|don't|no head for|"
    r"(?:feeling |getting )?(?:dizzy|giddy))"
)
_TURNS = r"\b(?:turns?|turning|spins?|spinning|dizzy|giddy|dizziness)\b"
_RATHER_NOT = (
    r"\b(?:dizzy|giddy|dizziness|unsteady|wobbly|queasy|seasick|rather|prefer|fond|fancy|like|love|enjoy|keen|"
    r"mad about|(?:can|may|could) (?:also |all )?(?:skip|leave|miss|drop|omit)|happy with|sure about|manage|"
    r"struggle|troubles?|bothers?|upsets?|hates?|dislikes?|can't|cannot|not allowed)\b"
)
_HURTS = r"(?:bad|sore|stiff|dodgy|weak|tender|troublesome) (?:knees?|hips?|backs?|ankles?|feet|foot|legs?)"
_ANOTHER_WAY = (
    r"\b(?:leave|leaves|leaving|skip|skips|miss|drop|omit|without|instead|just|simply|no turns?|can|may|could|do|dance|"
    r"replace|walk|shuffle|march|step|stay|keep|use)\b"
)
_DIZZY = r"(?:dizzy|giddy|unsteady|wobbly|queasy|seasick|light - ?headed)"
_TURNING = r"(?:rolling|rolls?|turning|spinning|spins?|twirling|twirls?|spiralling|pivoting)"
"""What makes so: "No rolling if you get dizzy:", "Instead of the rolling vine:"."""
_SPARED = re.compile(
    rf"^\W*(?=.*{_TURNS})(?=[^.]{{0,90}}{_RATHER_NOT})(?=.*{_ANOTHER_WAY}){_WHO}\b|"
    rf"^\W*{_WHO}\b[^.]{{0,20}}\b{_HURTS}\b(?=.*{_ANOTHER_WAY})|"
    r"^\W*(?:you (?:may|can|could) (?:also |always )?|feel free to |it is fine to |it's fine to )"
    r"(?:leave|skip|miss|drop|omit|take|do|dance)\b[^.]{0,30}\bturns?\b|"
    r"^\W*(?:leave|skip|miss|drop|omit)\b[^.]{0,20}\bturns?\b[^.]{0,12}\bif you\b|"
    r"^\W*(?:(?:both|all|the|these|either) ){1,3}(?:(?:quarter|half|full) )?turns? (?:of \w+ \w+ )?"
    r"(?:can|may|could) (?:also |always |both |all )?be (?:left|skipped|missed|dropped|omitted|replaced|danced)\b|"
    r"^\W*without (?:the |any |its )?turns?\b|"
    rf"^\W*(?:[a-z']+ ){{0,5}}(?:if|when|whenever) (?:you|your head|any ?one|it|that|this)(?: [a-z']+){{1,3}}? "
    rf"{_DIZZY} ?:|"
    rf"^\W*(?:too |feeling |getting |going )?{_DIZZY}(?: (?:for|from|of|with|after) [a-z' ]{{1,24}})? ?[?:]|"
    rf"^\W*(?:no|not|without|skip|leave out|instead of|rather than) (?:any |the |that |a |all )?"
    rf"(?:[a-z]+ )?{_TURNING}(?: [a-z']+){{0,3}} ?[:?]"
)
_ON_A_WALL = re.compile(r"\bwalls?\b|\b(?:restart|restarts|tag|bridge)\b")


def spares_turns(words: str) -> bool:
    """Return whether a line's words are for those who would rather not turn."""
    return bool(_SPARED.match(words)) and not _ON_A_WALL.search(words)
