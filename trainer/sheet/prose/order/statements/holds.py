"""Words around a hold that are no steps: who pauses, how one stands meanwhile, and with what the dance goes on."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Ruler
from trainer.sheet.prose.order.statements.bodies import Body, body_of
from trainer.sheet.prose.order.statements.statement import Statement
from trainer.sheet.prose.words import Token

_STANDING = {"with", "in", "on"}
"""What leads to how one stands: "hold 2 with the left foot in the air"."""
_POSED = {
    "weight", "air", "free", "stays", "stay", "feet", "knees", "arms", "hands", "head", "chin", "eyes", "pointed",
    "lifted", "raised", "bent", "crossed", "extended", "stretched", "hooked", "hitched",
}  # fmt: skip
_FEW = 4
"""So many words of steps at most say with what the dance goes on."""


def steps_beside_holds(sentence: Sentence, bodies: Sequence[Body]) -> list[Body]:
    """Return the steps of a sentence without what is only said around its holds."""
    kept: list[Body] = []
    for body in bodies:
        hold = _hold_before(sentence, body)
        if hold is not None and _only_stands(sentence, body, hold):
            after = _after_standing(sentence, body)
            if after is None:
                continue
            body = after
        if not (_only_waits(sentence, body) or _goes_on(sentence, body, hold) or _explains(sentence, body)):
            kept.append(body)
    return kept


def _hold_before(sentence: Sentence, body: Body) -> Atom | None:
    """The hold of so many counts that was told last before steps."""
    holds = [atom for atom in sentence.atoms if atom.act == "H" and atom.counts and atom.last <= body.first]
    return holds[-1] if holds else None


def _only_waits(sentence: Sentence, body: Body) -> bool:
    """Whether words only say that there is a pause, and are no extra's steps: "a pause comes at the end of wall 2"."""
    lows = {token.low for token in body.tokens}
    plain = not set("n(") & set(sentence.letters[body.first : body.last])
    if plain and {"feet", "foot", "hands"} & lows and {"stay", "stays", "may"} & lows:
        # "The hands may go to the hat, but the feet stay where they are".
        return True
    letters = sentence.letters[body.first : body.last]
    extra = any((atom.kind == "act" and atom.act in "TGX") or atom.kind == "change" for atom in sentence.atoms)
    # "Do not touch on 8, hold instead" tells what is danced.
    instead = bool(set("bNV") & set(sentence.letters))
    return "m" not in letters and "n" not in letters and not extra and not instead


def _only_stands(sentence: Sentence, body: Body, hold: Atom) -> bool:
    """Whether words after a hold say how one stands, or what one may do with the hands."""
    between = sentence.letters[hold.last : body.first]
    if between in ("(", ",(") or (between in ("", ",") and sentence.letters[body.first] == "("):
        return True
    said = sentence.letters[body.first : body.last]
    if set(between) <= set(",?I") and "," in between and re.fullmatch("[?]?H[?ImN,]*[B>&]?", said):
        # "A pause of four counts is observed, the dancers standing still upon the left foot".
        return True
    lows = {token.low for token in body.tokens}
    led = sentence.words(body.first - 1, body.first).lower().split()[:1]
    stands = between[-1:] == "I" and bool(set(led) & _STANDING) and body.tokens[0].kind == "word"
    return set(between) <= set(",?I(") and (stands or bool(lows & _POSED))


def _after_standing(sentence: Sentence, body: Body) -> Body | None:
    """The steps that follow with "then" after how one stands."""
    then = next((at for at in range(body.first, body.last) if sentence.letters[at] == ">"), None)
    first = None if then is None else next((at for at in range(then, body.last) if sentence.letters[at] == "m"), None)
    return None if first is None else body_of(sentence, first, body.last)


def _goes_on(sentence: Sentence, body: Body, hold: Atom | None) -> bool:
    """Whether steps are those with which the dance goes on: "carry on with the heels", "then pivot as usual"."""
    plain = not any(token.kind == "number" or token.text == "," for token in body.tokens)
    if plain and re.search("J[IUj>?]+$", sentence.letters[: body.first]):
        return True
    onward = re.match(r"[,&>?]*J", sentence.letters[body.last :])
    then = re.search("[>&]D?$", sentence.letters[: body.first])
    usual = onward is not None and sentence.words(body.last, body.last + 1).lower().startswith("as ")
    return bool(plain and onward and then and (hold is not None or usual))


def _explains(sentence: Sentence, body: Body) -> bool:
    """Whether words in brackets say which step a place is, a hold being told after: "24 (the second pivot), hold 4"."""
    opened = sentence.letters[body.first] == "(" or sentence.letters[body.first - 1] == "("
    before = next((atom for atom in reversed(sentence.atoms) if atom.last <= body.first), None)
    placed = before is not None and before.kind in ("place", "title", "loose") and before.last >= body.first - 1
    if placed and re.search(r"\(\??(?:cn|nc?)[IU]$", sentence.letters[: body.first]):
        # "After the first vine (that's count 4 with the touch)".
        return True
    closed = sentence.letters.find(")", body.first)
    return opened and placed and closed > 0 and "H" in sentence.letters[closed : body.last]


_HANDS = {"clap", "claps", "clapping", "snap", "snaps", "snapping", "click", "clicks", "clicking"}


def between_hold_and(sentence: Sentence, hold: Atom, body: Body) -> str:
    """Return the letters from a hold to the steps after it, with a mark or "and" that their words begin with."""
    opens = sentence.letters[body.first : body.first + 1]
    return sentence.letters[hold.last : body.first] + (opens if opens in (",", "&", ":") else "")


def only_hands(body: Body) -> bool:
    """Whether steps are no more than claps or snaps: they may come on each count of a hold."""
    spoken = {token.low for token in body.tokens if token.low in STEP_WORDS}
    return bool(spoken & _HANDS) and spoken <= _HANDS | {"hands", "fingers", "hold"}


def hold_filled(sentence: Sentence, statement: Statement, body: Body) -> Atom | None:
    """Return the hold that steps may fill: "the band stops for 4: stomp, stomp, hold, hold", "stand for 4 and clap".

    Steps told with "then", or after no more than a comma, come after it.
    """
    holds = [act for act in statement.acts if act.act == "H" and act.counts and act.last <= body.first]
    between = between_hold_and(sentence, holds[-1], body) if holds else ""
    fills = between in (":", "&", ",&") or (between == "," and only_hands(body))
    return holds[-1] if fills else None


def only_leads_on(body: Body, ruler: Ruler, after: int, sentence: Sentence) -> bool:
    """Whether steps told after a hold are those of the dance there: "hold 2, then do your two claps"."""
    spoken = [token.low for token in body.tokens if token.low in STEP_WORDS]
    done = re.search("D[n?]*$", sentence.letters[: body.first]) is not None
    return (done or len(spoken) <= _FEW) and ruler.dances(spoken, after)


def only_says_there_is(statement: Statement) -> bool:
    """Whether no more is said than that a wall has a hold, its place and length being told after."""
    walls = statement.walls
    more = statement.place or statement.title or statement.bodies or statement.changes or statement.loose
    bare = [act.act == "H" and act.counts is None for act in statement.acts]
    return walls is not None and walls.at != "end" and not more and len(bare) == 1 and bare[0]


def holds_told_once(sentence: Sentence, statement: Statement) -> list[Atom]:
    """Return what a statement does, a hold that is told twice only once: "the band waits for 4, so we hold for 4".

    A hold without a length only heads one of so many counts: "Hold: on wall 5 ... hold 4".
    """
    told = any(act.act == "H" and act.counts for act in statement.acts)
    acts = [act for act in statement.acts if not _stops_to_hold(sentence, statement, act)]
    kept: list[Atom] = []
    for act in acts:
        if act.act == "H" and ((told and act.counts is None) or _is_told(sentence, statement, kept, act)):
            continue
        kept.append(act)
    return kept


_STOP = {"stop", "stops", "stopping", "halt", "halts"}


def _stops_to_hold(sentence: Sentence, statement: Statement, act: Atom) -> bool:
    """Whether a stop is no more than the hold told straight after it: "after 24 counts stop, hold for four counts"."""
    if act.act not in "QR" or act.first >= len(sentence.lexemes) or act.last <= act.first:
        return False
    stops = sentence.tokens[sentence.lexemes[act.first].first].low in _STOP
    holds = [one for one in statement.acts if one.act == "H" and one.counts and one.first >= act.last]
    between = sentence.letters[act.last : holds[0].first] if holds else "-"
    after = sentence.letters[holds[0].last :] if holds else ""
    return stops and set(between) <= set(",>&") and set(">J") & set(after) != set()


_ANOTHER = {"another", "more", "again", "further", "extra", "additional", "second"}


def _is_told(sentence: Sentence, statement: Statement, before: Sequence[Atom], hold: Atom) -> bool:
    """Whether a hold is the one told before it: as long, with no steps, "then" or "another" between them."""
    first = next((one for one in reversed(before) if one.act == "H"), None)
    if first is None or first.counts != hold.counts or first.last > hold.first:
        return False
    letters = sentence.letters[first.last : hold.first]
    apart = ">" in letters or (letters in ("&", ",&", ",", "+") and _are_alike(sentence, first, hold))
    if apart or any(first.last <= body.first < hold.first for body in statement.bodies):
        return False
    return not any(token.low in _ANOTHER for token in _between(sentence, first.first, hold.last))


def _are_alike(sentence: Sentence, one: Atom, other: Atom) -> bool:
    """Whether two holds are told with the same word, as in a list: "hold 2, hold 2"."""
    return (
        sentence.tokens[sentence.lexemes[one.first].first].low
        == sentence.tokens[sentence.lexemes[other.first].first].low
    )


def _between(sentence: Sentence, first: int, last: int) -> Sequence[Token]:
    return sentence.tokens[sentence.lexemes[first].first : sentence.lexemes[last - 1].last]


def hold_instead(sentence: Sentence, statement: Statement) -> None:
    """Let a hold be what is danced for steps that are said not to be."""
    holds = [act for act in statement.acts if act.act == "H"]
    if len(holds) != 1 or holds != statement.inserts or statement.bodies:
        return
    first, last = holds[0].first, holds[0].last
    body = body_of(sentence, first, last) if sentence.letters[first : first + 1] == "H" else None
    if body is None:
        return
    statement.acts = [act for act in statement.acts if act.act != "H"]
    statement.bodies = [body]
    if statement.place is not None and statement.place.first:
        statement.change, statement.place, statement.changes = statement.place, None, True
        statement.skips = statement.only = False
