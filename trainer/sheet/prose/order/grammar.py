"""The phrases of the order: which walls, at which place, what is done, facing where.

A sentence is a text of letters, one for each lexeme (`vocabulary.py`), and each phrase a pattern over those letters, tried
in the order of `_PATTERNS` at each place. What fits none stays out of the atoms: it is a remark, or the steps of an extra.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from trainer.routine import Span
from trainer.sheet.prose.order.lexemes import Lexeme
from trainer.sheet.prose.order.places import Spec
from trainer.sheet.prose.words import Token

AtomKind = Literal["walls", "place", "loose", "act", "face", "begins", "not", "change", "onward", "only", "title"]

_MOST_NAMED = 9
"""A larger number after "restart" or "tag" is no name but a place."""


@dataclass(frozen=True, slots=True)
class Atom:
    """A phrase that says something of the order."""

    kind: AtomKind
    first: int
    """Index of its first lexeme."""
    last: int
    walls: tuple[int, ...] = ()
    at: str = ""
    """Of walls: "end", or empty: within them."""
    part: str = ""
    every: str = ""
    """Of walls: "every", "odd", "even", "last", instead of numbers."""
    nth: Fraction | None = None
    """Of walls: the numbers count the walls that begin at this facing."""
    spec: Spec | None = None
    """Of a place, a loose number (a place or a length), a change, or where the dance goes on."""
    act: str = ""
    """T tag, G bridge, H hold, X ending, R restart, Q stop, n next part, M change."""
    number: int = 0
    """Of a tag or bridge: its number; of a restart: the wall it leads to."""
    counts: int | None = None
    """Of an extra: its length as said."""
    times: int = 1
    declares: bool = False
    """It only says that there is one."""
    facing: Fraction | None = None
    starts: bool = False
    """Of a facing: that with which the wall begins."""


class Sentence:
    """A sentence with its lexemes, read once for its atoms."""

    def __init__(self, tokens: Sequence[Token], lexemes: Sequence[Lexeme]) -> None:
        self.tokens = tokens
        self.lexemes = lexemes
        self.letters = "".join(lexeme.kind for lexeme in lexemes)
        self.atoms = self._read()

    def _read(self) -> list[Atom]:
        atoms: list[Atom] = []
        at = 0
        while at < len(self.letters):
            for pattern, make in _PATTERNS:
                match = pattern.match(self.letters, at)
                if match and match.end() > at:
                    atoms += make(self, match)
                    at = match.end()
                    break
            else:
                at += 1
        return atoms

    def number(self, at: int) -> int:
        """Return the number of a lexeme."""
        return self.lexemes[at].number

    def words(self, first: int, last: int) -> str:
        """Return the words of some lexemes as written."""
        tokens = self.tokens[self.lexemes[first].first : self.lexemes[last - 1].last]
        return "".join((" " if index and not one.glued else "") + one.text for index, one in enumerate(tokens))

    def span(self, first: int, last: int) -> Span:
        """Return where some lexemes stand: from the first to the end of the last on its line."""
        start, end = self.tokens[self.lexemes[first].first], self.tokens[self.lexemes[last - 1].last - 1]
        length = end.column + len(end.text) - start.column if end.line == start.line else len(start.text)
        return Span(start.line, start.column, max(length, 1))


_CNT = r"(?P<cnt>cn-n|cn|on-?c|oc|n-n-?c|n-n|n-?c|n)"
_CNT_SURE = r"(?P<cnt>cn-n|cn|on-?c|oc|n-n-?c|n-?c)"
_SEC = r"(?P<sec>s[nx](?:[-&,/]s?[nx](?!-?[ctTG]))*|o(?:&o)*-?s|q(?:[-&,/]q)*|o?n-?s|Ls|on(?!-?[ctTG]))"
_BEFORE = r"(?P<pre>[AEUBDIuO>j]*)"
_W_ONE = r"w#?n(?:(?:[&/]I?w?|,&?I?w)#?n(?!-?[cstR(]))*"
_W_LIST = r"w#?n(?:(?:,#?n){2,}(?:,?&#?n)?|,#?n,?&#?n)(?!-?[cst])"
_W_ONE_MORE = r"w#?n(?:(?:[&/,]|,&)I?w#?n)+"
_W_MANY = r"W[:#]?n(?:(?:,&?|[&/]|-|U)[wWI]?#?n(?!-?[cst]))*"
_W_ORDINAL = r"o(?:(?:,&?|[&/-])I?o)*-?[wW]"
_W_TIMES = r"o(?:(?:,&?|[&/])o)*t(?![yYIUj]*f)(?:[IU]D)?"
_W_FACING = r"o(?:(?:,&?|[&/])o)*t?[yYIUj]*f"


def _walls(s: Sentence, match: re.Match[str]) -> list[Atom]:
    pre = match["pre"]
    inside = range(match.start("core"), match.end("core"))
    numbers = [s.number(at) for at in inside if s.letters[at] in "no"]
    letters = match["core"]
    if re.search(r"n[-U]n", letters) and len(numbers) == 2:
        numbers = list(range(numbers[0], min(numbers[1], numbers[0] + 40) + 1))
    at = "end" if set("AEBOZ") & set(pre) or match["post"] else ""
    if set("BO") & set(pre):
        numbers = [number - 1 for number in numbers]
    if "Z" in pre:
        numbers = numbers[:1]
    facing = next((s.lexemes[i].facing for i in inside if s.letters[i] == "f"), None)
    return [Atom("walls", match.start(), match.end(), tuple(numbers), at, nth=facing)]


def _every(s: Sentence, match: re.Match[str]) -> list[Atom]:
    words = s.words(match.start("core"), match.end("core")).lower()
    every = "every"
    if "odd" in words:
        every = "odd"
    elif any(word in words for word in ("even", "other", "alternat", "second", "2nd")):
        every = "even"
    elif "L" in match["core"]:
        every = "last"
    part = next((one.text for one in s.lexemes[match.start() : match.end()] if one.kind == "p"), "")
    at = "end" if set("AEB") & set(match["pre"]) else ""
    return [Atom("walls", match.start(), match.end(), at=at, every=every, part=part)]


def _passes(s: Sentence, match: re.Match[str]) -> list[Atom]:
    inside = range(match.start("core"), match.end("core"))
    numbers = tuple(s.number(at) for at in inside if s.letters[at] in "no")
    part = next(s.lexemes[at].text for at in inside if s.letters[at] == "p")
    at = "end" if set("AEB") & set(match["pre"]) else ""
    every = "" if numbers else "every"
    if "B" in match["pre"]:
        return [Atom("walls", match.start(), match.end(), numbers, "before", part, every)]
    return [Atom("walls", match.start(), match.end(), numbers, at, part, every)]


def _count_spec(s: Sentence, match: re.Match[str]) -> Spec:
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


def _section_spec(s: Sentence, match: re.Match[str]) -> Spec:
    """The section of a place; of several the last."""
    first, last = match.span("sec")
    letters = match["sec"]
    holders = [at for at in range(first, last) if s.letters[at] in "nxoq"]
    span = s.span(first, last)
    if letters == "Ls":
        return Spec(span, s.words(first, last), from_end=True)
    holder = holders[-1]
    # The words that name the last of several: "S5" of "S1-S5", "section ii" of "sections i and ii".
    text = s.words(first, last) if len(holders) == 1 else f"section {s.words(holder, holder + 1)}"
    if letters[-1] == "q":
        named = s.lexemes[holder].text
        return Spec(span, named, named=named)
    if re.fullmatch("on", letters):
        return Spec(s.span(holder, holder + 1), text, count=s.number(holder), block=s.number(first))
    return Spec(span, text, section=s.number(holder))


def _joined(s: Sentence, match: re.Match[str]) -> Spec | None:
    """The count and the section of a place, each where it is said."""
    groups = match.groupdict()
    spec = _section_spec(s, match) if groups.get("sec") else None
    if not groups.get("cnt"):
        return spec
    count = _count_spec(s, match)
    if spec is None:
        return count
    section = spec.block if spec.block and spec.count is not None else spec.section
    return replace(
        spec,
        section=section,
        block=0,
        count=count.count,
        count_span=count.span,
        suffix=count.suffix,
        first=count.first,
    )


def _place(s: Sentence, match: re.Match[str]) -> list[Atom]:
    pre = match["pre"]
    sectioned = bool(match.groupdict().get("sec"))
    spec = _joined(s, match)
    if spec is None:
        return []
    spec = replace(spec, before="B" in pre or "O" in pre, on=pre == "I" and not sectioned)
    last = [Atom("only", match.start(), match.end())] if set("Du") & set(pre) or match.group().endswith("u") else []
    return [Atom("place", match.start(), match.end(), spec=spec), *last]


def _between(s: Sentence, match: re.Match[str]) -> list[Atom]:
    """The place after the first of two, and the second as where the dance goes on."""
    holders = [at for at in range(match.start(), match.end()) if s.letters[at] in "noxq"]
    first, second = (_end_of(s, at, "c" in match.group()) for at in holders)
    return [
        Atom("place", match.start(), match.end(), spec=first),
        Atom("onward", match.start(), match.end(), spec=replace(second, before=True)),
    ]


def _end_of(s: Sentence, at: int, is_count: bool) -> Spec:
    span, words = s.span(at, at + 1), s.words(at, at + 1)
    if is_count:
        return Spec(span, words, count=s.number(at))
    named = s.lexemes[at].text if s.letters[at] == "q" else ""
    return Spec(span, named or f"section {words}", section=s.number(at), named=named)


def _skip(s: Sentence, match: re.Match[str]) -> list[Atom]:
    if match.groupdict().get("sec"):
        spec = replace(_section_spec(s, match), before=True)
        return [Atom("place", match.start(), match.end(), spec=spec, act="K"), Atom("only", match.start(), match.end())]
    if match.groupdict().get("rest"):
        at = match.start("rest")
        spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), from_end=True)
    else:
        spec = replace(_count_spec(s, match), from_end=True)
    return [Atom("place", match.start(), match.end(), spec=spec, act="K"), Atom("only", match.start(), match.end())]


def _share(s: Sentence, match: re.Match[str]) -> list[Atom]:
    share = Fraction(1) if "a" in match.group() else Fraction(1, 2)
    span = s.span(match.start(), match.end())
    atoms = [Atom("place", match.start(), match.end(), spec=Spec(span, share=share))]
    if share != 1 and set("Du") & set(match.group()):
        atoms.append(Atom("only", match.start(), match.end()))
    return atoms


def _here(s: Sentence, match: re.Match[str]) -> list[Atom]:
    span = s.span(match.start(), match.end())
    return [Atom("place", match.start(), match.end(), spec=Spec(span, here=span.line))]


def _titled(s: Sentence, match: re.Match[str]) -> list[Atom]:
    """ "After the jazz box": words that a section's heading may have."""
    words = tuple(s.tokens[one.first].low for one in s.lexemes[match.start() + 1 : match.end()])
    spec = Spec(s.span(match.start() + 1, match.end()), title=words)
    return [Atom("title", match.start(), match.end(), spec=spec)]


def _loose(s: Sentence, match: re.Match[str]) -> list[Atom]:
    return [
        Atom("loose", match.start(), match.end(), spec=_count_spec(s, match), act="c" if "c" in match.group() else "")
    ]


def _insert(s: Sentence, match: re.Match[str]) -> list[Atom]:
    groups = match.groupdict()
    at = match.start("act")
    length = next((s.number(match.start(name)) for name in ("len0", "len1") if groups.get(name)), None)
    number = next((s.number(match.start(name)) for name in ("num", "ord") if groups.get(name)), 0)
    times = 2 if "k" in match.group() else 1
    return [Atom("act", match.start(), match.end(), act=s.letters[at], number=number, counts=length, times=times)]


def _hold(s: Sentence, match: re.Match[str]) -> list[Atom]:
    name = "len0" if match["len0"] else "len1"
    return [Atom("act", match.start(), match.end(), act="H", counts=s.number(match.start(name)))]


def _declared(s: Sentence, match: re.Match[str]) -> list[Atom]:
    at = match.start()
    act = Atom("act", at, match.end(), act=match.group()[-1], declares=True)
    if s.number(at) <= _MOST_NAMED:
        return [act]
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), suffix=s.lexemes[at].suffix)
    return [Atom("loose", at, at + 1, spec=spec), replace(act, first=at + 1, declares=False)]


def _restart(s: Sentence, match: re.Match[str]) -> list[Atom]:
    number = s.number(match.start("num")) if match.groupdict().get("num") else 0
    act = Atom("act", match.start(), match.end(), act="R")
    if number <= _MOST_NAMED:
        return [act]
    at = match.start("num")
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=number, suffix=s.lexemes[at].suffix)
    return [replace(act, last=at), Atom("loose", at, at + 1, spec=spec)]


def _to_wall(s: Sentence, match: re.Match[str]) -> list[Atom]:
    return [Atom("act", match.start(), match.end(), act="R", number=s.number(match.end() - 1))]


def _next_part(s: Sentence, match: re.Match[str]) -> list[Atom]:
    return [Atom("act", match.start(), match.end(), act="n", part=s.lexemes[match.end() - 1].text)]


def _stop(s: Sentence, match: re.Match[str]) -> list[Atom]:
    return [Atom("act", match.start(), match.end(), act="Q")]


def _change(s: Sentence, match: re.Match[str]) -> list[Atom]:
    groups = match.groupdict()
    spec = None
    if groups.get("lastn") is not None:
        at = match.start("lastn")
        count = s.number(at + 1) if s.letters[at + 1] == "n" else 1
        spec = Spec(s.span(at, match.end("lastn")), count=count, from_end=True)
    elif groups.get("cnt"):
        spec = _count_spec(s, match)
    elif groups.get("pair"):
        numbers = [at for at in range(*match.span("pair")) if s.letters[at] == "n"]
        last = numbers[-1]
        spec = Spec(s.span(last, last + 1), count=s.number(last), first=s.number(numbers[0]))
    if groups.get("sec") and spec is not None:
        section = _section_spec(s, match)
        spec = replace(section, section=section.block or section.section, block=0, count=spec.count, first=spec.first)
    return [Atom("change", match.start(), match.end(), spec=spec)]


def _held(s: Sentence, match: re.Match[str]) -> list[Atom]:
    """ "Hold counts 31-32": counts changed to a hold, which stays to be read as their steps."""
    return [replace(_change(s, match)[0], first=match.start() + 1)]


def _onward(s: Sentence, match: re.Match[str]) -> list[Atom]:
    if not (match.groupdict().get("sec") or match.groupdict().get("cnt")):
        return [Atom("onward", match.start(), match.end())]
    spec = _place(s, match)[0].spec
    return [Atom("onward", match.start(), match.end(), spec=replace(spec, before=True) if spec else None)]


def _face(s: Sentence, match: re.Match[str]) -> list[Atom]:
    at = match.end() - 1 if s.letters[match.end() - 1] in "fn" else match.end() - 2
    lexeme = s.lexemes[at]
    facing = lexeme.facing if lexeme.kind == "f" else Fraction(lexeme.number % 12, 12)
    return [Atom("face", match.start(), match.end(), facing=facing, starts="y" in match.group())]


def _begins(s: Sentence, match: re.Match[str]) -> list[Atom]:
    return [Atom("begins", match.start(), match.end())]


def _not(s: Sentence, match: re.Match[str]) -> list[Atom]:
    return [Atom("not", match.start(), match.end())]


def _only(s: Sentence, match: re.Match[str]) -> list[Atom]:
    return [Atom("only", match.start(), match.end())]


_LENGTH = r"(?:[:,(\-]*I?(?P<len1>n)-?c\)?(?![jsq(]|I[sqo]|-?n))?"
_CHANGED = r"(?:(?P<lastn>Ln?-?c|Lm)|(?P<pair>c?n&n)|(?P<cnt>cn-n|cn|n-n|oc|n-?c))(?:I?(?P<sec>s[nx]|o-?s|on|q))?"

_Make = Callable[[Sentence, re.Match[str]], list[Atom]]
_PATTERNS: list[tuple[re.Pattern[str], _Make]] = [
    (re.compile(pattern), make)
    for pattern, make in (
        # "no tags, no restarts", "Tags: none", "without a restart"
        (r"[NK](?:I|n)?[TGRXHM](?:(?:,|&|/|,&)N?[TGRXM](?![wWAIDo:nU]))*|[TGRX][:\-]?N(?![TGRXH])", _not),
        # "then start wall 4", "go straight to wall 4", "straight to B"
        (r"(?:[>&]y|tU|tI|[>&],?U|>)[IUj]*wn(?=$|[,.)(&Y])", _to_wall),
        (r"(?:[>&]?t?[Uj]|[>&]t|>)p(?!n?t|\()", _next_part),
        # "between walls 2 and 3", "at the end of the 2nd and 4th wall", "on W3 & W6", "the third time through"
        (r"(?P<pre>Z)(?P<core>W?wn&w?n|Wn&n|o&o[wW])(?P<post>)", _walls),
        (
            rf"(?P<pre>[AEBOI>Dj]*)(?P<core>{_W_LIST}|{_W_ONE_MORE}|{_W_ONE}|{_W_MANY}|{_W_ORDINAL})(?P<post>[EQ](?=[:,\-(TGH>]|$))?",
            _walls,
        ),
        (rf"(?P<pre>[AEBOI>Dj]*)(?P<core>{_W_FACING}|{_W_TIMES})w?(?P<post>)", _walls),
        (r"(?P<pre>[AEBOI>Dj]*)(?P<core>(?:v|a|Io|o)o?[wW]|vn?o?[wt]|L[wWt])", _every),
        (r"(?P<pre>[AEBI>j]*)(?P<core>o(?:(?:,&?|&)o)*p|p,?\(?ot\)?|otIp|p#n)", _passes),
        (r"(?P<pre>[AEBI>j]*)(?P<core>[vL]p)", _every),
        (r"(?P<pre>[AEB])(?P<core>p)", _passes),
        # "4 count tag", "Tag 2 (8 counts)", "the first tag", "hold for 2 counts", "one tag"
        (r"(?<![wWscAIU#])n-?[TGRX](?![#n])", _declared),
        (rf"(?:(?P<len0>n)-?c-?)?S?(?:(?P<ord>o)-?)?(?P<act>[TGX])(?:#?(?P<num>n)(?!-?[ctn]))?{_LENGTH}k?", _insert),
        (r"(?P<len0>n)-?c-?(?:[?m]-?)?(?P<act>[TGX])", _insert),
        (r"(?P<len0>n)-?c-?H|HI?(?P<len1>n)-?[ct]?", _hold),
        (r"(?:o-?)?R(?:#?(?P<num>n)(?=[:,.()&\-]|[wWIAy]|$))?", _restart),
        # "replace counts 15-16 with", "instead of the last two counts", "counts 7-8 of section 2 become"
        (rf"(?:M|V|>M)I?{_CHANGED}(?:[IU]|b)?:?", _change),
        (r"(?:(?P<pair>c?n&n)|(?P<cnt>cn-n|cn|n-n))(?:I?(?P<sec>s[nx]|o-?s|on|q))?(?:I)?b", _change),
        (r"(?:V|b)[m?I]*?I(?P<cnt>cn-n|cn)", _change),
        (r"H(?P<cnt>cn-n|cn)", _held),
        (r"M", _change),
        # "carry on with count 17", "go on with section 3", "continue"
        (rf"J[IU>jA]*(?P<pre>){_SEC}", _onward),
        (rf"J[IU>jA]*(?P<pre>){_CNT_SURE}(?:I?{_SEC})?", _onward),
        (r"J", _onward),
        # "between sections 2 and 3", "leave out the last 8 counts", "skip section four"
        (r"Z(?:[sc][nx][&\-][sc]?[nx]|o&o-?s|q&q)", _between),
        (rf"KL?{_SEC}", _skip),
        (rf"[KN][LI]*{_CNT_SURE}(?:I[aw?])?|[KN]L(?P<rest>n)", _skip),
        # "count 8 of section 2", "section 2, count 8", "after the second eight", "dance up to count 32", "first 16 only"
        (rf"{_BEFORE}{_CNT}[Ij]{_SEC}u?", _place),
        (rf"{_BEFORE}{_SEC},?(?:[AU]*{_CNT_SURE})(?!-?[TGXH?m])u?", _place),
        (rf"{_BEFORE}{_SEC}u?", _place),
        # "begins at 6", "facing 12", "(you face the back)"
        (r"(?:y[IYU:]*|[IU]?Y[IU,:]*|[IU])f", _face),
        (r"f", _face),
        (r"(?:y[IYU]+|Y[I,:]?)n(?!-?[ct\-])", _face),
        (r"y", _begins),
        (rf"(?P<pre>[AEUBDuO>I]*[AEUBDuO]){_CNT}(?!-?c?-?[TGX])u?", _place),
        (r"(?P<pre>I*)(?P<cnt>cn-n|cn|on-?c|oc|n-n-?c|on)u?", _place),
        (r"(?P<pre>[I>]*)(?P<cnt>n-?c)(?=j|[Ij]w|u)u?", _place),
        (r"[AEUDIu]*h(?!-?m)(?:I[aw?D])?|[AEDUu]*a(?!m|-?t)", _share),
        (r"[AEIU]?@", _here),
        (r"[AE][m?][m?]{0,4}(?=[,:)(RTGwWIj>&]|$)", _titled),
        (r"I?(?P<cnt>n-?c|n)", _loose),
        (r"Q|E", _stop),
        (r"u", _only),
    )
]
