"""What each pattern of `grammar.py` makes of the letters that it fits: atoms with their numbers, places and facings.

A maker takes the sentence's letters and the match of its pattern. Groups of the patterns: `pre` the words before,
`core` what names walls, `cnt` a count, `sec` a section, `num` and `ord` a number, `len0` and `len1` a length.
"""

import re
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.places import LAST, Spec

_MOST_NAMED = 9
"""A larger number after "restart" or "tag" is no name but a place."""
_DENIED = re.compile(r"N[?mD]{0,2}$")
"""What stands before a facing that is denied: "never", "you don't ever"."""
_PUT_IN_PASSIVE = (
    "slip", "squeez", "fit", "throw", "slot", "tuck", "stuck", "pop", "add", "insert", "put", "tack", "followed",
)  # fmt: skip
_PUT_IN = ("add", "insert", "put", "squeeze", "fit", "slip", "stick", "tack")
"""What opens words that put counts in."""


def count_spec(s: Letters, match: re.Match[str]) -> Spec:
    """The count of a place, without its section."""
    first, last = match.span("cnt")
    inside = [at for at in range(first, last) if s.letters[at] in "no"]
    numbers = [s.number(at) for at in inside]
    block = 0
    count = numbers[-1]
    if re.fullmatch("on-?c", match["cnt"]):
        block = numbers[0]
    ranged = len(numbers) > 1 and not block
    return Spec(
        s.span(inside[-1], inside[-1] + 1),
        s.words(first, last),
        count=count,
        suffix=s.lexemes[inside[-1]].suffix,
        first=numbers[0] if ranged else None,
        block=block,
    )


def section_spec(s: Letters, match: re.Match[str], which: int = -1) -> Spec:
    """The section of a place; of several the last, or another."""
    first, last = match.span("sec")
    letters = match["sec"]
    holders = [at for at in range(first, last) if s.letters[at] in "nxoq"]
    span = s.span(first, last)
    if letters == "Ls":
        return Spec(span, s.words(first, last), from_end=True)
    if re.fullmatch(r"(?:on?(?:,&?|[&U]))*on", letters):
        # "The first eight", "the first and second eight": the last of them.
        return Spec(s.span(last - 1, last), s.words(last - 2, last), count=s.number(last - 1), block=s.number(last - 2))
    holder = holders[which]
    # The words that name one of several: "S5" of "S1-S5", "section ii" of "sections i and ii".
    text = s.words(first, last) if len(holders) == 1 else f"section {s.words(holder, holder + 1)}"
    if letters[-1] == "q":
        named = s.lexemes[holder].text
        title = tuple(s.words(holder, holder + 1).lower().split())
        return Spec(span, named, named=named, title=title if _names_steps(title) else ())
    return Spec(span, text, section=s.number(holder))


def _names_steps(words: tuple[str, ...]) -> bool:
    """Whether a section was named by steps that its heading names, perhaps some of several: "after the kick"."""
    return all(word in STEP_WORDS or word.removesuffix("s") in STEP_WORDS for word in words)


def section_in(spec: Spec, *, title: tuple[str, ...], before: bool) -> Spec:
    """A section in which steps are danced, whose words `title` are."""
    section = -1 if spec.from_end else spec.block if spec.block and spec.count is not None else spec.section
    return replace(spec, section=section, from_end=False, block=0, count=None, title=title, before=before)


def joined_spec(s: Letters, match: re.Match[str]) -> Spec | None:
    """The count and the section of a place, each where it is said."""
    groups = match.groupdict()
    spec = section_spec(s, match) if groups.get("sec") else None
    if not groups.get("cnt"):
        return spec
    count = count_spec(s, match)
    if spec is None:
        return count
    section = spec.block if spec.block and spec.count is not None else spec.section
    return replace(
        spec,
        section=-1 if spec.from_end else section,
        from_end=False,
        block=0,
        count=count.count,
        count_span=count.span,
        suffix=count.suffix,
        first=count.first,
    )


def said_twice(s: Letters, match: re.Match[str]) -> list[Atom]:
    """What the phrase after it says again: the end of the wall before another begins."""
    return []


_MIDDLE = ("middle of", "middle of the", "midway through", "midway through the")
"""Before a section that is left in its middle."""


def place(s: Letters, match: re.Match[str]) -> list[Atom]:
    pre = match["pre"]
    sectioned = bool(match.groupdict().get("sec"))
    spec = joined_spec(s, match)
    if spec is None:
        return []
    lead = s.words(match.start(), match.start() + len(pre)).lower() if pre else ""
    if sectioned and spec.count is None and lead.endswith(_MIDDLE) and not spec.from_end:
        spec = replace(spec, share=Fraction(1, 2))
    led, follows = s.letters[: match.start()], s.letters[match.end() : match.end() + 1]
    apart = not pre and (led[-1:] in ("", ",", "(", ".") or (led[-1:] == "?" and follows == ":"))
    apart = apart and not set("KN") & set(led[-2:])
    if spec.from_end and sectioned and (match.groupdict().get("cnt") or pre.endswith("I") or apart):
        # "The first four counts of the last eight", "in the last section", "wall 6, last eight, ...".
        spec = replace(spec, from_end=False, section=LAST)
    inside = ("on", "at", "for") if pre == "I" else ()
    at = sectioned and spec.count is not None and s.words(match.start(), match.start() + 1).lower() in inside
    at |= bool(re.search("[,:]In$", match.group()))
    spec = replace(spec, before="B" in pre or "O" in pre, on=pre == "I" and not sectioned, at=at)
    stops = [Atom("act", match.start(), match.start() + 1, act="Q")] if re.match("E+A", pre) else []
    last = [Atom("only", match.start(), match.end())] if set("Du") & set(pre) or match.group().endswith("u") else []
    return [*stops, Atom("place", match.start() + len(stops), match.end(), spec=spec), *last]


def count_reached(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """A count of a section, where it is no run of sections: "section 3 up to 4&a", "sections 1, 2, 3 as far as 2"."""
    holders = [at for at in range(match.start(), match.end("sec")) if s.letters[at] in "nx"]
    numbers = [s.number(at) for at in holders]
    count = match.start("cnt")
    plain = not s.lexemes[count].suffix and s.number(count) > numbers[-1]
    if (plain and len(numbers) == 1) or numbers != list(range(numbers[0], numbers[-1] + 1)):
        return None
    return place(s, match)


_PHRASES = (6, 8)
"""Counts by which sections are called: "the third eight"."""


def between(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The place after the first of two, and the second as where the dance goes on."""
    holders = [at for at in range(match.start(), match.end()) if s.letters[at] in "noxq"]
    if "on" in match.group():
        # "The second eight and the third eight".
        if any(s.letters[at] == "n" and s.number(at) not in _PHRASES for at in holders):
            return None
        holders = [at for at in holders if s.letters[at] == "o"]
    first, second = (_end_of(s, at, "c" in match.group()) for at in holders)
    return [
        Atom("place", match.start(), match.end(), spec=first),
        Atom("onward", match.start(), match.end(), spec=replace(second, before=True)),
    ]


def _end_of(s: Letters, at: int, is_count: bool) -> Spec:
    span, words = s.span(at, at + 1), s.words(at, at + 1)
    if is_count:
        return Spec(span, words, count=s.number(at))
    named = s.lexemes[at].text if s.letters[at] == "q" else ""
    return Spec(span, named or f"section {words}", section=s.number(at), named=named)


def share(s: Letters, match: re.Match[str]) -> list[Atom]:
    quarters = next((s.number(at) for at in range(*match.span()) if s.letters[at] == "h"), 0) or 2
    share = Fraction(1) if "a" in match.group() else Fraction(quarters, 4)
    span = s.span(match.start(), match.end())
    atoms = [Atom("place", match.start(), match.end(), spec=Spec(span, share=share))]
    short = set("Du") & set(match.group()) or s.letters[match.end() : match.end() + 1] in ("w", "W")
    # "Wall 3: half", a row of a list
    row = re.search("wn[:=-]?$", s.letters[: match.start()]) and re.match(r"[.]?$", s.letters[match.end() :])
    if share != 1 and (short or row):
        atoms.append(Atom("only", match.start(), match.end()))
    return atoms


def first_half(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Only the first half of a wall."""
    if s.number(match.start()) != 1:
        return []
    spec = Spec(s.span(match.start(), match.end()), share=Fraction(1, 2))
    return [
        Atom("place", match.start(), match.end(), spec=spec),
        Atom("only", match.start(), match.end()),
    ]


def from_one(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A new start told by its count: "begin at count one again"."""
    if s.number(match.end() - 1) == 1:
        return [Atom("act", match.start(), match.end(), act="R")]
    return [Atom("begins", match.start(), match.start() + 1)]


def here(s: Letters, match: re.Match[str]) -> list[Atom]:
    # A mark at the steps may stand for the word: then it is of the line that is marked.
    pointed = s.span(match.end() - 1, match.end())
    spec = Spec(s.span(match.start(), match.end()), here=pointed.line, column=pointed.column)
    return [Atom("place", match.start(), match.end(), spec=spec)]


def loose(s: Letters, match: re.Match[str]) -> list[Atom]:
    return [
        Atom("loose", match.start(), match.end(), spec=count_spec(s, match), act="c" if "c" in match.group() else "")
    ]


def extra(s: Letters, match: re.Match[str]) -> list[Atom]:
    groups = match.groupdict()
    at = match.start("act")
    if s.letters[at - 1 : at] == "A" and s.words(at, at + 1).lower() in ("last one", "the last one"):
        # "Sway right, left, right, left, weight on the left after the last one."
        return []
    length = next((s.number(match.start(name)) for name in ("len0", "len1") if groups.get(name)), None)
    number = next((s.number(match.start(name)) for name in ("num", "ord") if groups.get(name)), 0)
    times = 2 if "k" in match.group() else 1
    if groups.get("num") and s.tokens[s.lexemes[match.start("num")].first - 1].low in ("is", "are", "was"):
        # "The tag is four sways" numbers its steps.
        return [Atom("act", match.start(), match.start("num"), act=s.letters[at])]
    return [Atom("act", match.start(), match.end(), act=s.letters[at], number=number, counts=length, times=times)]


def unnamed(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts that are put in, their steps after a colon: a tag; after a mere "then" they are counts of the dance."""
    at = match.start("len0") if match["len0"] else match.start("len0b")
    # Without steps after it the sentence must say where: "at the end of wall 4, add four beats:".
    placed = match.end() + 1 < len(s.letters) or set("w@") & set(s.letters[: match.start()])
    if placed and s.words(match.start(), match.start() + 1).lower().startswith(_PUT_IN):
        return [Atom("act", match.start(), match.end(), act="T", counts=s.number(at), vague=True)]
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), suffix=s.lexemes[at].suffix)
    return [Atom("loose", at, at + 1, act="c", spec=spec)]


_MORE = {"more", "extra", "additional", "further"}


def unnamed_more(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Counts that come after those of the wall: "and then three more: step left, hold"; None without such a word."""
    if not (_MORE | {"last", "final", "closing", "other"}) & set(s.words(*match.span()).lower().split()):
        return None
    if not {"then", "and", "add"} & set(s.words(match.start(), match.start() + 1).lower().split()):
        # "Slip in four more counts there: ..." tells of the bridge named before.
        return None
    return [Atom("act", match.start(), match.end(), act="T", counts=s.number(match.start("len0")), vague=True)]


def more_at_the_end(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Counts that walls have at their end: "walls 2 and 6 have at the end 4 counts more"."""
    if s.words(match.end() - 1, match.end()).lower() not in _MORE:
        return None
    counts = s.number(match.start("len0"))
    them = Atom("walls", match.start(), match.start(), at="end", every="them")
    return [them, Atom("act", match.start(), match.end(), act="T", counts=counts, vague=True)]


def unnamed_put(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Counts that are put in, told with a plain verb: "you put four counts: two steps"; None of another verb."""
    told = s.words(match.start(), match.start() + 1).lower().startswith(_PUT_IN)
    at = match.start("len0")
    return [Atom("act", match.start(), match.end(), act="T", counts=s.number(at), vague=True)] if told else None


def unnamed_passive(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts that are put in, as it is said after them: a tag, "four counts are slipped in: ..."."""
    told = next(at for at in range(*match.span()) if s.letters[at] == ">")
    word = s.words(told, told + 1).lower()
    if not word.startswith(_PUT_IN_PASSIVE):
        return []
    return [Atom("act", match.start(), match.end(), act="T", counts=s.number(match.start("len0")), vague=True)]


def counted_there(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps of a section with the count of the dance that ends them: "the four counts of heels in S3 (count 20)"."""
    spec = count_spec(s, match) if s.number(match.start("cnt") + 1) > _PHRASE else joined_spec(s, match)
    return [Atom("place", match.start(), match.end(), spec=spec)]


_PHRASE = 8


def sections_listed(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Sections of which only those are danced that are named: "the opening eight and the middle eight only"."""
    spec = section_spec(s, match)
    return [
        Atom("place", match.start(), match.end(), spec=spec),
        Atom("only", match.start(), match.end()),
    ]


def unnamed_steps(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps that are put in, named before they are told one by one: a tag."""
    if s.words(match.start(), match.start() + 1).lower().startswith(_PUT_IN) and "w" in s.letters:
        return [Atom("act", match.start(), match.end(), act="T", vague=True)]
    return []


def declared(s: Letters, match: re.Match[str]) -> list[Atom]:
    at = match.start()
    if not s.number(at):
        # "1 restart, 0 tags".
        return negation(s, match)
    length = s.number(match.start("len0")) if match["len0"] else None
    act = Atom("act", at, match.end(), act=match["act"], counts=length, declares=True)
    if s.number(at) <= _MOST_NAMED:
        return [act]
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), suffix=s.lexemes[at].suffix)
    return [Atom("loose", at, at + 1, spec=spec), replace(act, first=at + 1, declares=False)]


def restart(s: Letters, match: re.Match[str]) -> list[Atom]:
    led = s.words(match.start() - 1, match.start()).lower() if match.start() else ""
    if led in ("when", "whenever"):
        # "... and you will still be at 12:00 when you start again".
        return [Atom("not", match.start(), match.end())]
    number = s.number(match.start("num")) if match.groupdict().get("num") else 0
    act = Atom("act", match.start(), match.end(), act="R")
    if number <= _MOST_NAMED:
        return [act]
    at = match.start("num")
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=number, suffix=s.lexemes[at].suffix)
    return [replace(act, last=at), Atom("loose", at, at + 1, spec=spec)]


def from_section(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """A new start "from section 1" is no more than one; from another section it says where."""
    act = Atom("act", match.start(), match.start() + 1, act="R")
    if match["sec"] == "q":
        # "The dance is then restarted from the first eight."
        first = s.lexemes[match.start("sec")].text in ("1", "A1")
        return [replace(act, last=match.end())] if first else None
    at = next(at for at in range(*match.span("sec")) if s.letters[at] in "no")
    if s.number(at) == 1:
        return [replace(act, last=match.end())]
    counted = match["sec"] == "cn"
    spec = Spec(s.span(at, at + 1), s.words(*match.span("sec")), count=s.number(at) if counted else None)
    spec = replace(spec, on=True) if counted else replace(spec, section=s.number(at))
    return [act, Atom("place", match.start("sec"), match.end(), spec=spec)]


def next_part(s: Letters, match: re.Match[str]) -> list[Atom]:
    return [Atom("act", match.start(), match.end(), act="n", part=s.lexemes[match.end() - 1].text)]


def number_spec(s: Letters, at: int) -> Spec:
    return Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at))


def onward(s: Letters, match: re.Match[str]) -> list[Atom]:
    if not (match.groupdict().get("sec") or match.groupdict().get("cnt")):
        return [Atom("onward", match.start(), match.end())]
    spec = place(s, match)[0].spec
    return [Atom("onward", match.start(), match.end(), spec=replace(spec, before=True) if spec else None)]


def onward_to_the_end(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Where the dance goes on after an extra: "then section 3 to the end"."""
    at = match.start("end")
    if not s.words(at, at + 1).lower().startswith("to"):
        return [*place(s, match), Atom("act", at, at + 1, act="X")]
    return onward(s, match)


def face(s: Letters, match: re.Match[str]) -> list[Atom]:
    at = match.end() - 1 if s.letters[match.end() - 1] in "fn" else match.end() - 2
    lexeme = s.lexemes[at]
    after = [token.low for token in s.tokens[lexeme.last : lexeme.last + 1]]
    no_hour = lexeme.kind == "n" and (after == ["of"] or lexeme.number % 3 != 0)
    if no_hour or _DENIED.search(s.letters[: match.start()]):
        # "Begins at one of the two sides", "never begins at the front" name no facing.
        return [Atom("begins", match.start(), match.end())]
    facing = lexeme.facing if lexeme.kind == "f" else Fraction(lexeme.number % 12, 12)
    return [Atom("face", match.start(), match.end(), facing=facing, starts="y" in match.group())]


def faced_after(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The hour that a wall is left to: "8a of section 1, restart to 6"; None of a count, or where no place is told."""
    placed = re.search(r"cn|n-?c|s[nx]|o-?s|on|q|wn.*,", s.letters[: match.start()])
    hour = s.number(match.end() - 1) % 3 == 0 and s.number(match.end() - 1) <= _NOON
    words = s.words(match.start(), match.start() + 1).lower()
    return face(s, match) if placed and hour and words == "to" else None


_NOON = 12


def begins(s: Letters, match: re.Match[str]) -> list[Atom]:
    return [Atom("begins", match.start(), match.end())]


def negation(s: Letters, match: re.Match[str]) -> list[Atom]:
    return [Atom("not", match.start(), match.end())]


def not_so_many(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """How many there are in every other wall: "two eights instead of four"."""
    numbers = [one.number for one in s.lexemes[: match.start()] if one.kind == "n"]
    return negation(s, match) if numbers and numbers[-1] < s.number(match.end() - 1) else None


def after_sections(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Sections that are over: "when two eights are done"."""
    return [Atom("place", match.start(), match.end(), spec=section_spec(s, match))]


def no_more(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """None beside those that were told: "wall 6 onwards: no more restarts"."""
    return negation(s, match) if s.words(*match.span()).lower().split()[1] in ("more", "further", "other") else None


def only(s: Letters, match: re.Match[str]) -> list[Atom]:
    return [Atom("only", match.start(), match.end())]
