"""Statements that claim nothing: remarks, what only says that there is a tag, and how a song ends."""

from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.extras import KINDS, Ref
from trainer.sheet.prose.order.claims.same import goes_as_ever
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.statement import Statement

_STRANGE = 2
"""So many words that no table knows tell of something else than the dance."""
_SILENTLY = {"yourself", "aloud", "loud", "silently", "head"}
_ADVISING = {"say", "shout", "think", "listen", "watch", "practise", "practice", "remember", "mind", "call"}


def is_advice(sentence: Sentence, statement: Statement) -> bool:
    """Whether one is only told to say or to mind something: "Say it out loud BEFORE the heels, not after."."""
    more = statement.walls or statement.acts or statement.changes
    lows = {token.low for token in sentence.tokens}
    counts = sentence.tokens[0].low == "count" and bool(lows & _SILENTLY)
    return (sentence.tokens[0].low in _ADVISING or counts or _is_small_talk(sentence, statement)) and not more


def _is_small_talk(sentence: Sentence, statement: Statement) -> bool:
    """Whether hours and numbers are those of an evening: "Tea from half past nine", "class from eight till ten"."""
    letters = sentence.letters
    placed = statement.place is not None and "nUn" not in letters
    more = placed or statement.bodies or statement.again or statement.title or statement.onward
    return not more and letters.count("?") >= _STRANGE and not set("YycswWtU@") & set(letters.replace("nUn", "n-n"))


def is_of_the_rest(context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether it only says that all walls but those told of go as ever: "in every other wall the kick remains"."""
    walls = statement.walls
    if walls is None or statement.acts or statement.changes or statement.place:
        return False
    if goes_as_ever(sentence, statement) and not any(atom.kind == "loose" for atom in sentence.atoms):
        # "The fourth round then follows in the ordinary way."
        return True
    if walls.every != "even":
        return False
    words = sentence.words(walls.first, walls.last).lower().split()
    return "other" in words and any(context.claims)


def only_begins_again(context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether no more is said than that the dance begins anew: "you're on the left wall and off you go again"."""
    walls = statement.walls
    bare = not (statement.place or statement.bodies or statement.changes or statement.inserts or statement.title)
    faced = walls is not None and walls.nth is not None and walls.vague and not walls.every
    again = any(act.act == "R" and not act.declares for act in statement.acts)
    if (
        bare
        and again
        and walls is not None
        and walls.part
        and walls.every == "last"
        and sentence.letters.startswith("RI")
    ):
        # "Begin again with the last A of the list."
        return True
    return faced and bare and again and not context.heads and not context.claims


def only_says_that(context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether a sentence after what was told of a wall begins on another extra: "There is also a tag"."""
    done = context.claims and any(claim.inserts or claim.leave != "continue" for claim in context.claims[-1])
    bare = not (statement.walls or statement.place or statement.bodies or statement.leave or statement.changes)
    if not done or not bare or not statement.inserts:
        return False
    words = [token.low for token in sentence.tokens]
    after = words[words.index("there") + 1 :][:1] if "there" in words else []
    says = "there's" in words or after in (["is"], ["are"], ["'"])
    return says and words[-1] not in ("there", "here", "then")


def only_defines(context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether a sentence after a list of walls says what the tag is: "W1 all, W2 all + tag. Tag: ..."."""
    if not (statement.bodies and statement.inserts) or statement.place is not None or statement.change is not None:
        return False
    act = statement.inserts[0]
    kind = KINDS.get(act.act)
    refs = [one for made in context.claims for claim in made for one in claim.inserts if isinstance(one, Ref)]
    called = any(ref.kind == kind and ref.number == act.number > 0 for ref in refs)
    heads = act.first == 0 and sentence.letters[act.last : act.last + 1] in (":", "=")
    return (context.listed or called) and heads


def only_fades(context: Context, statement: Statement) -> bool:
    """Whether no more is said than in which wall the music ends; how is told after."""
    more = statement.place or statement.title or statement.bodies or statement.changes or statement.loose
    within = statement.walls is not None and statement.walls.at != "end" and context.owner is None
    return within and not more and [act.act for act in statement.acts] == ["Q"]


def is_called_restart(sentence: Sentence, act: Atom) -> bool:
    """Whether the word of the trade is used: "Return to section 1 on the new wall" closes every wall."""
    return sentence.words(act.first, act.last).lower().startswith(("restart", "re-start", "re start", "rs", "r/s"))


def is_noun(sentence: Sentence, act: Atom) -> bool:
    """Whether a restart is a thing told of: "Start again!" below the steps is none."""
    first = sentence.lexemes[act.first].first
    before = sentence.tokens[first - 1].low if first else ""
    return sentence.tokens[first].low == "restarts" or before in ("a", "one", "the", "another", "that", "this")
