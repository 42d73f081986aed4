"""Lines that give another way to dance some counts: "Option for 3-4:", "(easy: no turns ...)", "Who gets dizzy ..."."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.heads.turns_spared import spares_turns
from trainer.sheet.prose.words import Token

_WHOM = (
    r"(?:who(?:ever)?|(?:those|people|dancers|all|any ?one|any ?body)(?: of (?:you|us))?(?: who)?) (?:easily )?"
    r"(?:gets?|is|are|feels?|(?:does|do) not|doesn't|don't|cannot|can't|fears?|dislikes?|hates?|finds?|has|have|with)"
    r"(?= (?:[a-z']+ ){0,5}(?:dizzy|giddy|dizziness|unsteady|turns?|turning|spins?|spinning|knees?|hips?|ankles?|"
    r"legs?|balance)\b)"
)
"""For whom the other way is."""
_EASIER = (
    r"(?:eas(?:y|ier)|simpl(?:e|er)|softer|gentler?|slower|flat|plain|lazy|beginners?|newcomers|learners|tired|"
    r"bad (?:knees|hips|backs?)|(?:no|without|non|less|fewer) ?-? ?(?:the )?(?:turns?|turning|spins?|spinning))"
    r"(?: (?:way|version|one|ones|dancers|feet|legs|people))?(?= ?:| (?:for|on) (?:counts? )?\d[^:]{0,12}:)"
)
"""What the other way is called, before a colon: "Easy way for 3-4: ..."."""
_HARDER = (
    r"(?:challenge|challengers|rest|fast|faster|strong|keen|experts?|improvers|experienced|advanced|brave|energetic|"
    r"lively|harder|tougher|fancy|seated|chair|sitting) (?:group|dancers|version|way|ones|people|row)(?= ?:)"
)
"""Another way for some of the class: "CHALLENGE GROUP: ..."."""
_TOO_MUCH = (
    r"(?:if|when) (?:that|this|it|all that|all this)(?: (?:is|gets|feels|goes|turns))?"
    r"(?= (?:far |much )?too (?:much|fast|quick|hard|many)\b)"
)
_SOME = (
    r"(?:beginners|newcomers|learners|novices|gents|gentlemen|ladies|men|women|some|others|everyone|anyone|anybody|"
    r"seniors|children|kids|the (?:young|old|tired|brave|lazy|keen)(?: ones)?|dancers|those)(?: who \w+)?"
)
_MAY = r"(?:may|can|could|might|should feel free to)"
_DO = r"(?:march|step|walk|rock|do|dance|replace|swap|leave|skip|use|take|stay|keep|make|add|clap|put|just)\b"
_OPTION = re.compile(
    r"^\W*(?:easy |easier |simpler |no turn |non turning |low impact |an? |the )?(?:option|options|optional|"
    r"alternative|alternatively|easier|variation|"
    r"if you (?:do not|don't|prefer|would rather|can't|cannot)|"
    r"if (?:your|the|a) (?:knees?|hips?|back|feet|foot|legs?|ankles?|balance|floor|hall|room|turns?|spins?|spinning)|"
    r"if (?:you (?:are|feel|get|have) )?(?:a )?(?:dizzy|giddy|unsteady|tired|unsure|sore|bad|in doubt|turning)|"
    r"(?:if|when|whenever)(?= (?:(?!walls?\b)[a-z']+ ){1,7}[:,].*\binstead\b)|"
    r"(?=(?:(?!walls?\b)[a-z']+ ){1,5}\? .*\binstead\b)[a-z']+|"
    rf"(?:for )?{_WHOM}|"
    r"(?:for )?(?:the |anyone |those )?(?:dizzy|giddy|unsteady)(?= (?:dancers?|people|ones?|heads?|among|of)\b)|"
    r"instead of (?:the )?(?:turn|full|spin|spiral)|"
    rf"(?:(?:for|the) )?(?:{_EASIER}|{_HARDER})|"
    rf"{_TOO_MUCH}|"
    rf"(?:(?:for|the|our|all|any|some) )?{_SOME} {_MAY}(?: (?:also|just|simply|always))?(?= {_DO})|"
    rf"(?:if you (?:like|wish|want|prefer),? )?you {_MAY} (?:also|just|simply|always|instead|of course)(?= {_DO})|"
    r"when(?:ever)? (?:in doubt|you (?:feel|get|are) (?:dizzy|giddy|tired|unsteady|unsure|lost))|"
    r"should (?:you|anyone|that|this) (?:feel|get|be|find)\b|"
    r"should (?:your|the) (?:knees?|hips?|back|feet|legs?|ankles?)|"
    r"(?:for )?(?:tired|sore|bad|stiff|old|weak|dodgy) (?:knees?|hips?|backs?|feet|legs?|ankles?)(?= ?(?:[:,?]|$))|"
    r"(?:(?:bars?|counts?|section|figure|block|steps?|the) (?:[a-z0-9&-]+ ){1,3}?)(?:may|can|could) (?:also |just )?be "
    r"(?:danced|done|taken|walked) (?:without|with no|plain)|"
    r"or ?,? (?=(?:without|with no|for (?:less|no)|if you|to save)\b)|"
    r"no turn|for no turn|styling|style|tip|(?:hands|arms|hands and arms|arms and hands|fingers|attitude)(?= ?:)|"
    r"note :? ?(?:keep|use|let))\b"
)
_REPLACES = re.compile(r"\b(?:replac(?:es|ing|e)|(?:in|at) (?:the )?place of|instead of)\b")
_ON_A_WALL = re.compile(
    r"\b(?:walls? \d|(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|last|st|nd|rd|th) wall)\b"
)


def is_option(tokens: Sequence[Token]) -> bool:
    """Return whether a line gives another way to dance some counts, or a tip.

    What replaces counts on a wall that is named is no choice: "ALTERNATIVE CLOSE (wall 6; replaces counts 5-8)".
    """
    words = " ".join(token.low for token in tokens)
    if spares_turns(words):
        return True
    if not _OPTION.match(words):
        return False
    replaces = _REPLACES.search(words) or extra_kind(tokens) == "change"
    return not (replaces and _ON_A_WALL.search(words))
