"""What the sentences of a line have said so far, and what a statement takes from it."""

from dataclasses import dataclass, field, replace
from fractions import Fraction

from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Spec
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import INSERTS, Statement

_STRANGE = 2
"""So many words that no table knows, about walls of which nothing else is said, tell of something else."""


@dataclass(slots=True)
class Context:
    """What the sentences of a line have said so far."""

    unit: int = 0
    owner: int | None = None
    """The index of the extra whose heading is being read."""
    walls: Atom | None = None
    place: Spec | None = None
    faces: list[tuple[Fraction, bool]] = field(default_factory=list)
    """Facings told of walls of which nothing else was said yet."""
    acts: list[Atom] = field(default_factory=list)
    claims: list[list[Claim]] = field(default_factory=list)
    """The claims of the statements of this line, the latest last."""
    heads: list[Atom] = field(default_factory=list)
    """Acts of a heading above."""
    several: bool = False
    """The heading names several kinds of them, each of which some line below tells: "Tags and restarts"."""
    unclaimed: bool = False
    """The end of a wall was told last, and not yet what is done there: "a longer breath at the end of wall 5"."""
    open: bool = False
    """A place was told last, and not yet what is done there: "the band takes a breath after the second eight"."""
    reached: tuple[Sentence, Statement] | None = None
    """A sentence that told how far a wall goes, and not yet what comes then: "we get as far as the walks"."""
    listed: bool = False
    """Walls are told one after the other, some of them whole: one of which less is told ends there."""
    bare: list[Atom] = field(default_factory=list)
    """Walls named of which nothing else was said yet: "Wall 2 is a short one. So is wall 6."."""
    sentences: list[Sentence] = field(default_factory=list)
    """Those since the walls of `walls` were named."""
    short: bool = False
    """They were said to be short."""
    anew: bool = False
    """A new start was only told as what the dancers do, "return to section 1": it heads no lines below."""
    named: Atom | None = None
    """Walls of which it was only said that the music ends in them."""
    replaced: list[Body] = field(default_factory=list)
    """Steps that are not danced in the walls told of, where it is still to come what is."""
    sentence: Sentence | None = None
    """The sentence in which something was claimed last."""
    went_on: bool = False
    """The wall told of last was said to go on."""
    waiting: Statement | None = None
    """A statement whose walls are still to come."""

    def keep(self, sentence: Sentence, statement: Statement) -> None:
        """Take note of a sentence that speaks of walls, or of those that were named last."""
        if statement.walls is not None and statement.walls.walls:
            self.sentences = []
        self.went_on |= statement.goes_on and not statement.leave and bool(self.claims)
        if self.sentences[-1:] != [sentence]:
            self.sentences.append(sentence)


_COUNTED = ("counts", "beats", "steps", "bars", "bar", "measure")
"""What ends the words for an extra that has no name: "three extra counts"."""


def _as_headed(sentence: Sentence, statement: Statement) -> None:
    """Take counts that are put in for the extra whose name opens the statement: "BRIDGE, wall 2: put in 4 counts"."""
    head = next((act for act in statement.acts if act.act in "TG" and not act.vague and act.first <= 1), None)
    behind = [act for act in statement.acts if act.act == "T" and head is not None and act.first > head.last]
    put = [act for act in behind if act.vague or _words_of(sentence, act).endswith(_COUNTED)]
    if head is not None and put and len(statement.bodies) <= 1:
        counted = replace(head, counts=head.counts or put[0].counts)
        statement.acts = [counted if act is head else act for act in statement.acts if act not in put]


def _words_of(sentence: Sentence, act: Atom) -> str:
    first, last = sentence.lexemes[act.first].first, sentence.lexemes[act.last - 1].last
    return " ".join(token.low for token in sentence.tokens[first:last])


def borrow_acts(context: Context, sentence: Sentence, statement: Statement) -> None:
    """Give a statement what a heading or a sentence before says is done."""
    _as_headed(sentence, statement)
    heads = _meant(context, statement)
    kind = next((act.act for act in heads if act.act in "TGX"), "")
    if kind:
        # "BRIDGE, wall 3 only. After section 2 put in two counts: ..."
        statement.acts = [replace(act, act=kind, vague=False) if act.vague else act for act in statement.acts]
    whole = statement.place is not None and statement.place.share == 1
    at_end = statement.walls is not None and statement.walls.at == "end"
    restart = Atom("act", 0, 0, act="R")
    if statement.acts or statement.changes:
        # "CHANGE AND RESTART ... In place of 4-5-6 of the fourth six dance:", over the steps.
        placed = statement.place is not None or (context.owner is not None and statement.change is not None)
        inherits = any(act.act == "R" for act in context.heads) and placed and not whole
        if statement.changes and context.named is not None and statement.walls is context.named:
            # "The song stops in wall 6. Replace 15-16 with ..."
            statement.acts = statement.acts or [Atom("act", 0, 0, act="Q")]
        if inherits and not statement.leave and not statement.goes_on and not at_end:
            statement.acts = [*statement.acts, restart]
        return
    if whole and statement.bodies and context.owner is None:
        # "Dance all of it, and on the next 1 step forward", under "the ending".
        statement.acts = [replace(act, declares=False) for act in heads if act.act in INSERTS]
    if statement.measures:
        return
    in_list = context.listed and statement.place is not None and not whole and context.owner is None
    if (in_list or _is_shortened(context, sentence, statement)) and not at_end:
        statement.acts = [restart]
        return
    if whole or context.owner is not None or (statement.goes_on and statement.place is None):
        return
    # "Groups perform walls 3 to 6" is said of something else.
    # "Restart in wall 2 - direction 3 o'clock, and in wall 4 - direction 6 o'clock".
    listed = context.sentence is sentence and _goes_on_listing(context, sentence, statement)
    listed = listed or _is_next_in_the_list(context, sentence, statement)
    bare = heads and (listed or (not statement.faces and sentence.letters.count("?") < _STRANGE))
    if statement.place is not None or at_end or statement.bodies or bare:
        # "Then start again on your new wall." heads no steps told at the end of one.
        added = at_end and statement.bodies
        statement.acts = [replace(act, declares=False) for act in heads if not (added and act.act == "R")]
    short = statement.walls is not None and statement.walls.every == "short"
    poses = bool(statement.bodies) and statement.bodies[-1].bows and bool({"pose", "bow"} & statement.bodies[-1].texts)
    if not statement.acts and statement.place is not None and poses:
        # "On the eighth do the first 8 and pose."
        statement.acts = [Atom("act", 0, 0, act="Q")]
    # "Section 1, count 8: do not touch" tells what is changed there.
    ends = not (statement.replaced or statement.goes_on) and (statement.only or statement.skips or short)
    if not statement.acts and statement.place is not None and ends:
        # A part of a play that is danced short is left for the next one.
        of_a_play = statement.walls is not None and bool(statement.walls.part)
        statement.acts = [Atom("act", 0, 0, act="n") if short or of_a_play else restart]


def _meant(context: Context, statement: Statement) -> list[Atom]:
    """Return what a heading says is done; of several kinds restarts where no steps are told, else what is put in."""
    heads = context.acts or context.heads
    restarts = [act for act in heads if act.act == "R"]
    inserts = [act for act in heads if act.act in INSERTS]
    if not (context.several and restarts and inserts):
        return heads
    return inserts if statement.bodies else restarts


def _is_shortened(context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether a sentence behind others says of a further wall only what it lacks: what was put in above is not there.

    "After wall 2 add ...: sway R, L. Wall 3 leaves out sections 3 and 4"; "the tag comes on wall 5 only after 16
    counts" says where.
    """
    told = statement.skips or (statement.only and "A" not in sentence.letters)
    walls = statement.walls
    named = walls is not None and bool(walls.walls) and not {"w", "W", "t"}.isdisjoint(sentence.letters)
    further = named and context.sentence is not sentence and bool(context.claims)
    put_in = bool(context.acts) and all(act.act in INSERTS and act.act != "X" for act in context.acts)
    return further and told and put_in and statement.place is not None and not statement.bodies and not context.heads


def _goes_on_listing(context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether walls are listed each with the facing there, and none is only said to begin so."""
    walls = statement.walls
    joined = walls is not None and sentence.letters[max(walls.first - 1, 0) : walls.first] == "&"
    faced = bool(context.claims) and all(claim.facing is not None for claim in context.claims[-1])
    return joined and faced and bool(statement.faces) and not any(begins for _, begins in statement.faces)


def _is_next_in_the_list(context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether a sentence only adds a wall: "Restarts after part 2: in wall 3 (...; ...) and in wall 6 (...; ...)"."""
    walls, letters = statement.walls, sentence.letters
    opens = walls is not None and walls.first in (1, 2) and letters[0] == "&" and "?" not in letters
    return opens and bool(context.claims) and context.place is not None and not statement.bodies


def within_its_section(context: Context, statement: Statement, phrase: int) -> None:
    """Count from the section that was named last, of which no more was told: "Wall 5, phrase 4. Dance 1-4, ..."."""
    named, walls = context.place, statement.walls
    bare = named is not None and not (named.count or named.first or named.before or named.from_end or named.upto)
    if named is None or not (bare and (named.section is not None or named.named)):
        return
    told = any(claim.inserts or claim.change or claim.leave != "continue" for made in context.claims for claim in made)
    same = walls is None or (context.walls is not None and walls.walls == context.walls.walls)
    if told or not same or not (context.open or context.claims):
        return
    if statement.place is not None and _counts_within(statement.place, phrase):
        statement.place = replace(statement.place, section=named.section, named=named.named)
    if statement.change is not None and _counts_within(statement.change, phrase):
        statement.change = replace(statement.change, section=named.section, named=named.named)


def _counts_within(spec: Spec, phrase: int) -> bool:
    """Whether counts are told that any section may have, and not whose they are."""
    return spec.count is not None and spec.count <= phrase and spec.section is None and not spec.named
