"""Which of a sheet's lines tell the order: parted from those of steps before the counts are sought.

A paragraph in flowing prose that opens with the order is told as one, however its lines were broken: what a sentence of
it leaves out stands in the one before. So is an order of play that stands one part a line under its heading.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.intros_counted import dances_an_intro
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.facing.faced import statement_end
from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.lexis.vocabulary import JOINERS, ORDINALS, SONG_PARTS
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.carried_lines import with_carried_steps
from trainer.sheet.prose.order.lines.changed_lines import changes_there, tells_of_walls, with_changed_steps
from trainer.sheet.prose.order.lines.counts_in_place import with_counts_in_place
from trainer.sheet.prose.order.lines.enumerated import unnumbered
from trainer.sheet.prose.order.lines.headed_sentences import with_headed_sentences
from trainer.sheet.prose.order.lines.leading_lines import with_leading_lines
from trainer.sheet.prose.order.lines.left_open import only_names_walls, tells_how_far
from trainer.sheet.prose.order.lines.lines import LETTERS, SONG, carries_on, is_order, only_leaves, without_order
from trainer.sheet.prose.order.lines.plain_steps import with_plain_steps
from trainer.sheet.prose.order.lines.rows import Rows
from trainer.sheet.prose.order.lines.told_counts import with_told_counts
from trainer.sheet.prose.order.lines.unnamed_heads import with_unnamed_heads
from trainer.sheet.prose.order.lines.wall_heads import with_headed_walls
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_NARROW = 30
_WIDE = 56
"""Columns; shorter lines without capitals are not broken at a margin."""
_FULL = 0.6
_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_TO_A_COUNT = {"on", "count", "counts", "of", "after", "for"}
_NAME = 6
"""More words are no name."""
_GO_ON = JOINERS - {"in", "on", "off", "up", "through"}
"""Words that end no sentence; those left out do: "16 counts in"."""
_SHORT = 8
"""Tokens of a heading."""
_EARLY = 3
"""A paragraph of the order says so in so many sentences."""
_HEAD = re.compile(r"^[?IjtwW:*\-#=&D]*l[?IjtwW:*\-#=&D]*$")
_ITEM = re.compile(r"^[>&\-*•]*[?SuaLh]{0,2}[pTGXiH](?:[&>,+\-(:*n?cuIahfU)EAkxTGXipS]|$){0,9}$")


_SHORT_PART = re.compile(
    r"^\W*(?:the )?(?:short|shortened|shorter|cut|half|part) (?:[a-h]|" + "|".join(SONG_PARTS) + r")\b"
)
"""Opens a sentence that tells of a part not danced whole: "The short A is the third A"."""


def gathered(lines: Sequence[Line]) -> tuple[list[Line], list[tuple[Token, ...]]]:
    """Part lines of steps and headings from what tells the order beside them; join broken lines that tell it.

    Lines that tell the order and may head the steps of an extra stay among the first.
    """
    kept: list[Line] = []
    beside: list[tuple[Token, ...]] = []
    rows = Rows()
    for group in map(_unwrapped, map(unnumbered, _paragraphs(with_counts_in_place(lines)))):
        if under := _under_a_name(group):
            kept.append(group[0])
            beside.append(under)
            continue
        danced = any(dances_an_intro(line.tokens) for line in group)
        rest, told = _flowing(group) if _flows(group) and not danced else (group, [])
        beside += told
        for line in _with_broken_steps(
            with_plain_steps(
                with_changed_steps(
                    with_carried_steps(
                        with_leading_lines(with_headed_walls(with_headed_sentences(with_told_counts(rest))))
                    )
                )
            )
        ):
            _take(line, kept, beside, rows)
    return with_unnamed_heads(kept), beside


def _under_a_name(group: Sequence[Line]) -> tuple[Token, ...]:
    """Return what stands right under the name of an extra where it tells a wall and how far that is danced.

    "THE FINISH" over "The last B starts at 12:00. In its second half stop after ... and step right (7), hold (8)."
    """
    if len(group) < 3 or len(group[0].tokens) > _EARLY or not extra_kind(group[0].tokens):
        return ()
    tokens = tuple(token for line in group[1:] for token in line.tokens)
    parts = sentences(tokens)
    counted = [part for part in parts if _counted(part)]
    walls = [atom for atom in sentence_of(parts[0], LETTERS).atoms if atom.kind == "walls"]
    placed = bool(counted) and bool(walls) and all(map(_stops_there, counted))
    return tokens if placed and _flows(group[1:]) else ()


def _stops_there(part: Sequence[Token]) -> bool:
    """Whether a sentence with counts says where the wall stops or is changed, too."""
    return any(atom.kind == "change" or atom.act == "Q" for atom in sentence_of(part, LETTERS).atoms)


def _with_broken_steps(lines: Sequence[Line]) -> list[Line]:
    """Return lines, the steps that begin at the end of one that tells the order joined with those of the next.

    "The third wall has six counts more, after set 2: step left and" over "sway (1), hold (2) ..." heads its steps.
    """
    done: list[Line] = []
    ahead: tuple[Token, ...] = ()
    for line, after in zip(lines, (*lines[1:], None), strict=False):
        line, ahead = replace(line, tokens=(*ahead, *line.tokens)), ()
        colon = next((at for at, token in enumerate(line.tokens) if token.text == ":"), 0)
        rest = line.tokens[colon + 1 :]
        if colon and rest and after is not None and _steps_go_on(line.tokens[: colon + 1], rest, after):
            line, ahead = replace(line, tokens=line.tokens[: colon + 1]), rest
        done.append(line)
    return done


def _steps_go_on(told: Sequence[Token], steps: Sequence[Token], after: Line) -> bool:
    """Whether steps without counts at a line's end, after what tells the order, go on in the line below with counts."""
    first = after.tokens[0]
    if first.line == steps[-1].line + 1 and _next_count(steps, after.tokens) and is_order(told) and not is_order(steps):
        return True
    small = first.kind == "word" and first.text[0].islower() and first.line == steps[-1].line + 1
    if not small or steps[-1].text in ".:;!?" or is_order(after.tokens) or not is_order(told):
        return False
    return not marks_in(steps, 0) and _counted(after.tokens) and not is_order(steps)


def _next_count(steps: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a line begins with the count after the last one of steps: "... 1 step left," over "2 draw right"."""
    marks, others = marks_in(steps, 0), marks_in(after, 0)
    if not marks or not others or marks[0].first or others[0].first or not marks[-1].end.number:
        return False
    return others[0].start.number == marks[-1].end.number + 1


def _take(line: Line, kept: list[Line], beside: list[tuple[Token, ...]], rows: Rows) -> None:
    """Take one line of its own: a row of a wall table, more of the line above, steps with a remark, or steps."""
    if rows.takes(line.tokens):
        beside.append(line.tokens)
        return
    if beside and rows.goes_on(line.tokens):
        beside[-1] = (*beside[-1], *line.tokens)
        return
    opens = _opens_with_counts(line) and not (kept and is_order(kept[-1].tokens) and _closes(kept[-1], line))
    listed = _is_listed(line) or (bool(kept) and _opens_an_item(kept[-1], line))
    if kept and not opens and not listed and _more_of(kept[-1].tokens, line.tokens):
        kept[-1] = replace(kept[-1], tokens=(*kept[-1].tokens, *line.tokens))
        return
    if kept and _is_bare_name(kept[-1], line):
        kept[-1] = replace(kept[-1], tokens=(*kept[-1].tokens, *line.tokens))
        return
    rest, remark = (line.tokens, ()) if is_order(line.tokens) else without_order(line.tokens)
    if remark:
        beside.append(remark)
        if _heads_a_change(rest, remark):
            rest = line.tokens
    if rest:
        kept.append(replace(line, tokens=rest))


def _is_listed(line: Line) -> bool:
    """Whether a mark of a list stands before a line: it goes on with no other."""
    return line.source.lstrip().startswith(("- ", "* ", "• ", "– ", "+ "))


def _is_bare_name(head: Line, line: Line) -> bool:
    """Whether a line says where the extra is danced whose name alone stands above: "TAG", "at the end of wall 5"."""
    if line.number != head.number + 1 or extra_kind(head.tokens) not in ("tag", "bridge"):
        return False
    if any(token.low in ("restarts",) for token in head.tokens):
        # "Tags and restarts" heads lines that tell each by itself.
        return False
    if len(head.tokens) > _EARLY and not _tells_it_all(head.tokens):
        return False
    acts = {atom.act for part in sentences(line.tokens) for atom in sentence_of(part, LETTERS).atoms if atom.act}
    return is_order(line.tokens) and not acts & set("RTGX") and not _opens_with_counts(line)


def _tells_it_all(tokens: Sequence[Token]) -> bool:
    """Whether a line names an extra and its steps, without counts of their own: "tag 4 cts: sway R L R L"."""
    colon = next((at for at, token in enumerate(tokens) if token.text == ":"), 0)
    named = 0 < colon < _NAME and extra_kind(tokens[:1]) is not None and colon + 1 < len(tokens)
    return named and tokens[-1].text != "." and not _counted(tokens[colon:])


def _heads_a_change(name: Sequence[Token], remark: Sequence[Token]) -> bool:
    """Whether a line names steps and says which counts they replace: "CLOSE FOR WALL SIX (in place of counts 5-8)"."""
    words = sum(token.kind == "word" for token in name)
    if not 0 < words < _NAME or extra_kind(name) or any(token.kind == "number" for token in name):
        return False
    return any(atom.kind == "change" and atom.spec for atom in sentence_of(remark, LETTERS).atoms)


def _more_of(before: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a line goes on with what the line above it tells of the order."""
    if carries_on(before, after) or _counts_on(before, after) or _states_where(before, after):
        return True
    if changes_there(before, after):
        return True
    if after[0].line != before[-1].line + 1 or before[-1].text == ":" or not is_order(before) or not is_order(after):
        return False
    told = [sentence_of(part, LETTERS) for part in sentences(after)]
    left_open = only_names_walls(sentence_of(list(sentences(before))[-1], LETTERS))
    # "... (weight on each)" over "and begin again. You look to 3."
    joined = after[0].text == "and" and bool(re.fullmatch("&>?R", told[0].letters))
    return joined or all(only_leaves(sentence) for sentence in told) or (left_open and tells_how_far(told[0]))


def _states_where(before: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a line only says where the dancer looks, below a whole sentence that tells the order without it.

    "... only sixteen counts, and start again from the top." over "You will be looking at twelve o'clock."
    """
    near = after[0].line == before[-1].line + 1 and before[-1].text in (".", "!") and after[-1].text in (".", "!")
    whole = near and len(after) > _EARLY and statement_end(after) == len(after)
    return whole and is_order(before) and not _counted(before)


def _counts_on(before: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a line goes on with the counts of an extra whose place and first steps the line above tells.

    "It comes once, after the second B. Point right (1), / right beside left (2)".
    """
    first = after[0]
    small = first.text[0].islower() or first.text == "("
    if first.line != before[-1].line + 1 or before[-1].text in ".:;!?" or not small or not is_order(before):
        return False
    told = [mark for mark in marks_in(before, 0) if mark.closed]
    more = [mark for mark in marks_in(after, 0) if mark.closed]
    numbers = [mark.start.number for mark in told]
    last = told[-1].end.number if told else None
    return bool(more) and 1 in numbers and last is not None and more[0].start.number == last + 1


def _opens_with_counts(line: Line) -> bool:
    """Whether a line begins with a count mark, and so can be no more of the sentence above it."""
    marks = marks_in(line.tokens, 0, 3)
    return bool(marks) and marks[0].first == 0 and marks[0].strength >= _SURE


def _begins_with_counts(before: Line | None, line: Line) -> bool:
    """Whether a line begins with counts of its own: not with those in brackets of words broken at the margin."""
    if not _opens_with_counts(line):
        return False
    if before is None or before.indent != line.indent or before.tokens[-1].kind != "word":
        return True
    # "... and the left" / "on four, weight on each" is one sentence, as is what stands before a bracket.
    return line.tokens[0].text not in ("(", "on")


def _closes(before: Line, line: Line) -> bool:
    """Whether counts in brackets at the start of a line are those of the words above: "touch right / (2), hold (3)"."""
    closing = next((at for at, token in enumerate(line.tokens) if token.text == ")"), len(line.tokens))
    goes_on = [token.text for token in line.tokens[closing + 1 : closing + 2]] == [","]
    return line.tokens[0].text == "(" and goes_on and before.tokens[-1].kind == "word"


def _ends_with_counts(line: Line) -> bool:
    """Whether the counts of a line stand at its end, in figures."""
    marks = marks_in(line.tokens, 0)
    return bool(marks) and marks[-1].last == len(line.tokens) and line.tokens[-1].kind == "number"


def _paragraphs(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """Yield runs of lines with no empty line between them; an order of play with a line for each part is one line."""
    group: list[Line] = []
    at = 0
    while at < len(lines):
        line = lines[at]
        if group and line.number > group[-1].tokens[-1].line + 1:
            yield group
            group = []
        items = _items_below(lines, at)
        if items:
            group.append(_as_one(line, items))
        else:
            group.append(line)
        at += 1 + len(items)
    if group:
        yield group


def _items_below(lines: Sequence[Line], at: int) -> list[Line]:
    """The lines below a heading such as "Running order" that name a part or an extra each."""
    if len(lines[at].tokens) > _SHORT or not _HEAD.match(sentence_of(lines[at].tokens, LETTERS).letters):
        return []
    items: list[Line] = []
    for line in lines[at + 1 :]:
        before = items[-1] if items else lines[at]
        short = len(line.tokens) < 12 and line.number <= before.tokens[-1].line + 2
        if not short or _opens_with_counts(line) or not _ITEM.match(sentence_of(line.tokens, SONG).letters):
            break
        items.append(line)
    named = sum("p" in sentence_of(line.tokens, SONG).letters for line in items)
    return items if named >= 2 and len(items) >= 3 else []


def _as_one(head: Line, items: Sequence[Line]) -> Line:
    tokens = list(head.tokens)
    for line in items:
        comma = replace(line.tokens[0], kind="mark", text=",", low=",", glued=True)
        tokens += [comma, *line.tokens]
    if not any(token.text == ":" for token in head.tokens):
        tokens[len(head.tokens)] = replace(tokens[len(head.tokens)], text=":", low=":")
    return replace(head, tokens=tuple(tokens))


def _flows(group: Sequence[Line]) -> bool:
    """Whether the lines of a paragraph are broken at the margin, or are its sentences."""
    if len(group) < 2 or any(token.text in (BREAK, "•") for line in group for token in line.tokens):
        return False
    if any(before.tokens[-1].line == after.tokens[0].line for before, after in pairwise(group)):
        return True
    ends = [line.tokens[-1].column + len(line.tokens[-1].text) - line.indent for line in group]
    if max(ends) < _NARROW or any(end < _FULL * max(ends) for end in ends[:-1]):
        return False
    small = all(line.tokens[0].text[0].islower() or line.tokens[0].kind == "number" for line in group)
    if small and max(ends) < _WIDE and not any(token.text == "." for line in group for token in line.tokens):
        # A sheet without capitals and full stops: its short lines are what it tells, one by one.
        return False
    if _ended_early(group, ends):
        return False
    opened = [
        line
        for before, line in zip((None, *group), group, strict=False)
        # "Finish with a stomp on / 7" is told on a count that the margin parts from its word.
        if _begins_with_counts(before, line) and not (before is not None and before.tokens[-1].low in _TO_A_COUNT)
    ]
    if opened or sum(map(_ends_with_counts, group)) > 1:
        return False
    broken = sum(
        _broken(before.tokens[-2:], after.tokens[0])
        for before, after in pairwise(group)
        if not (_is_labelled(after) or _opens_an_item(before, after))
    )
    return broken >= 0.5 * (len(group) - 1)


def _once_more(tokens: Sequence[Token]) -> bool:
    """Whether a line goes on with where else what was told above comes: "and once more at the end of wall 6"."""
    words = [token.low for token in tokens[:3]]
    return tokens[0].text == "and" and words[1:] in (
        ["once", "more"],
        ["once", "again"],
        ["again", "at"],
        ["again", "after"],
    )


def _unwrapped(group: Sequence[Line]) -> list[Line]:
    """Return the lines of a paragraph, what tells the order joined with more of it that the margin parted from it.

    The margin did so where a line has no mark at its end, and no room for the word that the next one begins with.
    """
    ends = [line.tokens[-1].column + len(line.tokens[-1].text) for line in group]
    named = len(group[0].tokens) <= _EARLY and extra_kind(group[0].tokens)
    if (
        named
        or len(group) < 2
        or max(ends) < _WIDE
        or any(t.text in (BREAK, "•") for line in group[1:] for t in line.tokens)
    ):
        return list(group)
    done: list[Line] = [group[0]]
    for end, line in zip(ends, group[1:], strict=False):
        before = done[-1]
        room = end + _first_word(line) < max(ends)
        closed = before.tokens[-1].text in ".:;!?|" or line.number != before.tokens[-1].line + 1
        opens = _opens_with_counts(line) or _is_labelled(line) or _is_listed(line) or is_order(line.tokens)
        opens = opens or not _may_go_on(before.tokens, line.tokens[0])
        if not closed and _once_more(line.tokens) and tells_of_walls(before.tokens):
            room = opens = False
        if room or closed or opens or _opens_an_item(before, line) or not tells_of_walls(before.tokens):
            done.append(line)
        else:
            done[-1] = replace(before, tokens=(*before.tokens, *line.tokens))
    return done


def _may_go_on(tokens: Sequence[Token], first: Token) -> bool:
    """Whether a sentence of the order may go on with a word: with a small letter, and not with an extra's steps."""
    colon = next((at for at in range(len(tokens) - 1, 0, -1) if tokens[at].text == ":"), len(tokens))
    steps = any(token.low in _FEET for token in tokens[colon:])
    return not steps and (first.text[0].islower() or first.text in ("(", "R", "L", "RF", "LF"))


_FEET = {"r", "l", "rf", "lf", "right", "left"}


def _ended_early(group: Sequence[Line], ends: Sequence[int]) -> bool:
    """Whether lines without marks at their ends were mostly ended though a word more had room: each stands alone."""
    if any(line.tokens[-1].text in (".", ",", ";", ":", "-") or line.tokens[-1].low in _GO_ON for line in group[:-1]):
        return False
    firsts = [_first_word(line) + 1 for line in group[1:]]
    return sum(end + first <= max(ends) for end, first in zip(ends, firsts, strict=False)) >= 0.5 * len(firsts)


def _first_word(line: Line) -> int:
    """Columns of the first word of a line with the marks that are glued to it."""
    last = next((at for at, token in enumerate(line.tokens[1:]) if not token.glued), len(line.tokens) - 1)
    return line.tokens[last].column + len(line.tokens[last].text) - line.tokens[0].column


def _is_labelled(line: Line) -> bool:
    """Whether a line begins with a label of its own, as a fact of the head does: "Start: feet together"."""
    return line.tokens[0].text[0].isupper() and [token.text for token in line.tokens[1:2]] == [":"]


def _opens_an_item(before: Line, line: Line) -> bool:
    """Whether a line without capitals begins with a wall, or an extra, of which it tells: "wall 6 is short"."""
    first, after = line.tokens[0], line.tokens[1:2]
    walls = first.low in ("wall", "w") and bool(after) and after[0].kind == "number"
    # "5th go gets four sways" below "3rd go is short".
    ordinal = re.match(rf"(?:the )?(?:\d+ (?:st|nd|rd|th)|{'|'.join(ORDINALS)}) {_TIMES}\b", _opening(line))
    walls = walls or (
        ordinal is not None and re.search(rf"^(?:the )?\S+(?: \S\S)? {_TIMES}\b", _opening(before)) is not None
    )
    extra = first.low in ("tag", "bridge", "restart", "ending", "finish") and [token.text for token in after] == [":"]
    # "Walls 1, 2 and 4: whole dance" ends with no word that goes on.
    return (walls or extra) and before.tokens[-1].text not in (",", "-") and before.tokens[-1].low not in _LEADS_ON


_TIMES = "(?:time|go|wall|round|one|turn)"


def _opening(line: Line) -> str:
    """Return the first words of a line."""
    return " ".join(token.low for token in line.tokens[:5])


_LEADS_ON = JOINERS - {"dance"}


def _broken(end: Sequence[Token], first: Token) -> bool:
    """Whether a line ends in the middle of a sentence."""
    if first.kind == "word" and first.text[0].islower():
        return True
    last = end[-1]
    if [token.low for token in end] == ["so", "on"]:
        return False
    return last.text not in ".:;!?" and (first.kind != "word" or last.low in JOINERS)


def _flowing(group: Sequence[Line]) -> tuple[list[Line], list[tuple[Token, ...]]]:
    """Return what of a flowing paragraph is steps or facts, and what tells the order."""
    tokens = tuple(token for line in group for token in line.tokens)
    parts = _with_ends(tokens)
    told = next((at for at, part in enumerate(parts[:_EARLY]) if is_order(part)), None)
    while told and _SHORT_PART.match(" ".join(token.low for token in parts[told - 1])):
        told -= 1
    if told is None or any(_counted(part) for part in parts[:told]) or tokens[-1].text == ":":
        return list(group), []
    before = [token for part in parts[:told] for token in part]
    order: list[Token] = []
    facts: list[tuple[Token, ...]] = [tuple(before)] if before else []
    for part in parts[told:]:
        if group[0].number < 12 and not is_order(part) and _states_facts(part):
            facts.append(part)
        else:
            order += part
    kept = [replace(group[0], number=part[0].line, tokens=part) for part in facts]
    return kept, [tuple(order)]


def _with_ends(tokens: Sequence[Token]) -> list[tuple[Token, ...]]:
    """Return the sentences of a paragraph with the marks that end them."""
    parts = sentences(tokens)
    starts = [next(at for at, token in enumerate(tokens) if token is part[0]) for part in parts]
    return [tuple(tokens[start:end]) for start, end in pairwise([*starts, len(tokens)])]


def _counted(tokens: Sequence[Token]) -> bool:
    return any(mark.strength >= _SURE for mark in marks_in(tokens, 0))


def _states_facts(tokens: tuple[Token, ...]) -> bool:
    """Whether a sentence states facts of a sheet's head."""
    facts = header_facts([tokens])
    return any(fact is not None for fact in (facts.wait, facts.tempo, facts.starts, facts.walls)) or bool(facts.level)
