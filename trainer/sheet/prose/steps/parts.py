"""Parts of the body beside right and left: they make a foot, a gesture of the knee, or styling of them."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex
from trainer.terms import Foot, Move

_LOOKING = {
    "look", "looking", "looks", "lean", "leaning", "angle", "angled", "angling", "face", "facing", "opening", "open",
    "head", "turn head", "head turn",
}  # fmt: skip
"""Words of the body after which right and left are no feet."""


def with_parts(lexes: Sequence[Lex]) -> list[Lex]:
    """Join a side with the part of the body after it: "right foot", "left knee" are feet, "right hand" is styling."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        lex = lexes[at]
        part = lexes[at + 1] if at + 1 < len(lexes) and lexes[at + 1].kind == "part" else None
        arms, taken = _arms(lexes, at, done)
        if arms is not None:
            done.append(arms)
            at += taken
            continue
        if lex.kind == "task" and lex.value == "both":
            named = part is not None or "feet" in lex.low or any(one.kind == "move" for one in done[-2:])
            done.append(lex._replace(kind="foot", value=Foot.BOTH) if named else lex._replace(kind="glue"))
            if part is not None and part.value == "foot":
                at += 1
        elif lex.kind == "side" and at + 1 < len(lexes) and lexes[at + 1].low in ("wall", "walls"):
            done.append(lex._replace(kind="glue"))
        elif lex.kind == "side" and part is not None and part.value == "foot":
            done.append(lex._replace(kind="foot"))
            at += 1
        elif _opens_a_foot(lexes, at, done):
            done.append(lex._replace(kind="move", value=Move.STEP))
        elif lex.low in _LOOKING:
            seen, at = _seen(lexes, at)
            done.append(seen)
            continue
        elif lex.kind == "side" and part is not None and part.value == "arm":
            done.append(lex._replace(kind="style", value="arm"))
            at += 1
        elif lex.kind == "side" and part is not None:
            done.append(lex._replace(kind="foot"))
        elif lex.kind == "part" and (lex.value in ("arm", "foot") or (lex.value == "knee" and not _footed(done))):
            done.append(lex._replace(kind="style"))
        else:
            done.append(lex)
        at += 1
    return done


_OPENS = {"open", "opening", "opens"}
_ITSELF = {"opens", "passes"}
"""What a foot does that steps somewhere."""


def _opens_a_foot(lexes: Sequence[Lex], at: int, done: Sequence[Lex]) -> bool:
    """Whether what opens is a foot: it steps; but "the third eight opens with a sailor"."""
    if lexes[at].low in _ITSELF and lexes[at].kind != "move" and done and done[-1].kind == "foot":
        return True
    if lexes[at].low not in _OPENS:
        return False
    foot = [lex for lex in lexes[at + 1 : at + 4] if lex.low not in ("the", "your", "my")][:2]
    return len(foot) == 2 and foot[0].kind == "side" and foot[1].kind == "part" and foot[1].value == "foot"


def _arms(lexes: Sequence[Lex], at: int, done: Sequence[Lex]) -> tuple[Lex | None, int]:
    """Return words of arms as styling, and how many they are: "both arms", "left hand" with "up" after it."""
    lex = lexes[at]
    following = lexes[at + 1] if at + 1 < len(lexes) else None
    if lex.low == "stay" and any(one.kind == "style" and one.value == "arm" for one in done[-5:]):
        # "Let the left arm float up and stay there".
        return lex._replace(kind="glue"), 1
    if lex.low in _MOVES_ARMS and (raised := _arms_after(lexes, at + 1)):
        return lex._replace(kind="style", value="arm"), raised - at
    before = next((one for one in reversed(done[-2:]) if one.kind != "unknown"), None)
    if lex.kind == "way" and before is not None and before.kind == "style" and before.value == "arm":
        # "Both arms up", "let the left arm float up".
        return lex._replace(kind="glue"), 1
    if following is not None and lex.low in ("left-hand", "right-hand") and following.low in _RAISED:
        return lex._replace(kind="style", value="arm"), 1
    both = lex.kind == "task" and lex.value == "both"
    if following is not None and both and following.kind == "part" and following.value == "arm":
        return lex._replace(kind="style", value="arm"), 2
    return None, 0


_MOVES_ARMS = {
    "lift", "lifts", "lifting", "raise", "raises", "raising", "swing", "swings", "swinging", "drop", "drops", "lower",
}  # fmt: skip
"""What is done with arms as with a foot: "stomp forward and lift your arms"."""


def _arms_after(lexes: Sequence[Lex], at: int) -> int:
    """Return the index behind "your arms", "both arms", "the left hand"; 0 where no such words follow."""
    while at < len(lexes) and (lexes[at].kind in ("glue", "side") or lexes[at].value == "both"):
        at += 1
    is_arm = at < len(lexes) and lexes[at].kind == "part" and lexes[at].value == "arm"
    return at + 1 if is_arm else 0


_RAISED = {"up", "down", "out", "high", "low"}
"""What a hand does, and a wall does not: "left hand up", "left hand wall"."""


def _seen(lexes: Sequence[Lex], at: int) -> tuple[Lex, int]:
    """Return a word of looking with the index after what it looks at: "look left" poses, the rest is styling."""
    lex, look = lexes[at], at + 1
    while look < len(lexes) and (lexes[look].kind in _SIGHTS or lexes[look].low in ("to", "on")):
        look += 1
    poses = lex.low.startswith(("look", "lean", "turn head", "head turn")) and any(
        one.kind == "side" for one in lexes[at + 1 : look]
    )
    if poses:
        return lex._replace(kind="move", value=Move.POSE, ing=lex.low == "looking"), look
    return lex._replace(kind="style"), look


_SIGHTS = {"glue", "style", "side", "part", "prep", "way"}


def _footed(done: Sequence[Lex]) -> bool:
    """Whether a foot stands just before: "right knee in" is a gesture of the right."""
    return bool(done) and done[-1].kind == "foot"
