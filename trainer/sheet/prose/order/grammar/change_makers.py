"""What the patterns of changes and of counts left out make of the letters that they fit."""

import re
from dataclasses import replace

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.makers import count_spec, number_spec, place, section_spec
from trainer.sheet.prose.order.grammar.places import Spec


def change(s: Letters, match: re.Match[str]) -> list[Atom]:
    groups = match.groupdict()
    spec = None
    if groups.get("lastn") is not None:
        at = match.start("lastn")
        count = s.number(at + 1) if s.letters[at + 1] == "n" else 1
        spec = Spec(s.span(at, match.end("lastn")), count=count, from_end=True)
    elif groups.get("cnt"):
        spec = count_spec(s, match)
    elif groups.get("pair"):
        numbers = [at for at in range(*match.span("pair")) if s.letters[at] == "n"]
        last = numbers[-1]
        spec = Spec(s.span(last, last + 1), count=s.number(last), first=s.number(numbers[0]))
    if groups.get("sec") and spec is not None:
        section = section_spec(s, match)
        number = -1 if section.from_end else section.block or section.section
        where = replace(section, section=number, block=0, count=spec.count, first=spec.first, count_span=spec.span)
        spec = replace(where, from_end=spec.from_end)
    return [Atom("change", match.start(), match.end(), spec=spec)]


def change_of_a_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts of a section, the wall told between: "change to figure 2 in wall 4, counts 7-8"."""
    core, last = match.span("core")
    number = next(s.number(at) for at in range(core, last) if s.letters[at] in "no")
    changed = change(s, match)[0]
    return [replace(changed, last=core), Atom("walls", core, match.end(), (number,), span=s.span(core, last))]


def counts_of_section(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts of a section by two of their numbers: changed where the sentence changes steps, else a place."""
    changed = change(s, match)
    held = s.letters[: match.start()].endswith("H") or re.match("H(?!I?n)", s.letters[match.end() :])
    if set("VbMN") & set(s.letters) or held:
        # "Hold on 7 and 8 of the fourth eight".
        return changed
    return [replace(atom, kind="place") for atom in changed]


def change_of_two(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Two counts that follow each other, or the first alone: "in place of 47, 48 touch R", "instead of 8, 1 to 4"."""
    first, last = (at for at in range(*match.span("listed")) if s.letters[at] == "n")
    if s.number(last) != s.number(first) + 1:
        return [Atom("change", match.start(), first + 1, spec=number_spec(s, first))]
    spec = replace(number_spec(s, last), first=s.number(first))
    return [Atom("change", match.start(), match.end(), spec=spec)]


def weak_change(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts with a colon ("counts 15-16: touch, hold"): a change, but in a tag no more than its counts."""
    return [replace(change(s, match)[0], declares=True)]


def in_its_place(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A section for which an extra is danced: the extra's place, where no other is told before it."""
    if set("scoq") & set(s.letters[: match.start()]):
        return []
    return [Atom("place", match.start(), match.end(), spec=replace(section_spec(s, match), before=True))]


def held(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts changed to a hold ("hold counts 31-32"), which stays to be read as their steps."""
    return [replace(change(s, match)[0], first=match.start() + 1)]


def is_changed(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts that are something else ("count 32 is a touch"), or a place with steps after it."""
    after = s.lexemes[match.end() - 1].last
    if after < len(s.tokens) and s.tokens[after].low in ("is", "are"):
        return change(s, match)
    if match["sec"] and match["cnt"] and count_spec(s, match).first and set("wW") & set(s.letters):
        # "Wall 3: on counts 7-8 of section 2 stomp, hold".
        return weak_change(s, match)
    return place(s, match) if match["cnt"] else []


def counts_on(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Counts with their steps straight after them: "dance to count 2 of D. On counts 3 and 4 step right, left".

    They open their sentence, or go on from where it said that the dance is left.
    """
    before = s.letters[: match.start()]
    told = change(s, match)
    spec = told[0].spec
    if spec is None or not spec.first or not spec.count or spec.count <= spec.first or set("TGX") & set(before):
        return None
    left = set("UAE") & set(before) and spec.first - 1 in [s.number(at) for at, one in enumerate(before) if one == "n"]
    if not left and (set(before) - set(">,&?") or spec.first == 1):
        return None
    return [replace(told[0], declares=True)]


def are_changed(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Counts of a section that are other steps: "in section 4, counts 5-8 are step right"; None: no such words."""
    after = s.lexemes[match.end() - 1].last
    told = after < len(s.tokens) and s.tokens[after].low in ("is", "are")
    return change(s, match) if told else None


def section_changed(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A whole section that is danced otherwise: "dance Figure 8 like this"."""
    return [Atom("change", match.start(), match.end(), spec=section_spec(s, match))]


def skip(s: Letters, match: re.Match[str]) -> list[Atom]:
    if match.groupdict().get("cnt") and count_spec(s, match).first:
        told = count_spec(s, match)
        spec = replace(told, count=told.first, first=None, before=True, upto_count=told.count)
    elif match.groupdict().get("sec"):
        last = section_spec(s, match)
        spec = replace(section_spec(s, match, 0), before=True, upto=last.section)
        if last.block and last.count is not None:
            # "Leave out the second and third eight".
            first = s.number(match["sec"].index("o") + match.start("sec"))
            spec = replace(spec, block=first, upto_count=last.block * last.count)
    elif match.groupdict().get("rest"):
        at = match.start("rest")
        spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), from_end=True)
    else:
        spec = replace(count_spec(s, match), from_end=True)
    return [Atom("place", match.start(), match.end(), spec=spec, act="K"), Atom("only", match.start(), match.end())]


def short_by(s: Letters, match: re.Match[str]) -> list[Atom]:
    """So many counts left out at the end: "8 counts shorter", "short by 8 counts"."""
    at = match.start("rest") if match["rest"] else match.start("by")
    if match["by"] and s.words(at - 1, at).lower() != "by":
        return []
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), from_end=True)
    return [Atom("place", match.start(), match.end(), spec=spec, act="K"), Atom("only", match.start(), match.end())]


def cut_to(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A wall that is cut to so many counts."""
    return [*place(s, match), Atom("only", match.start(), match.end())]


def of_a_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts with their steps straight after them, said of a wall: "wall 4: 29-32 stomp R, hold"; else a number."""
    before = s.letters[: match.start()]
    if set("wW") & set(before) and not set("TGX") & set(before):
        return weak_change(s, match)
    return [Atom("loose", match.start(), match.end(), spec=count_spec(s, match))]


def skip_sections(s: Letters, match: re.Match[str]) -> list[Atom]:
    """So many sections left out at the end."""
    spec = Spec(s.span(*match.span()), s.words(*match.span()), from_end=True, sections=s.number(match.start("many")))
    return [Atom("place", match.start(), match.end(), spec=spec, act="K"), Atom("only", match.start(), match.end())]
