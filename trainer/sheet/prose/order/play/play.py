"""The order of the parts of a phrased dance: "Order of play: A A B A A B Tag B", "A(first 16)", "Verse, Chorus, Verse".

A line that only says how long the parts are ("A (32), B (16)") is none: each part once, each with its own length.
"""

import re
from fractions import Fraction

from trainer.routine import Span
from trainer.sheet.prose.lexis.facings_told import WAYS
from trainer.sheet.prose.order.claims.extras import KINDS, Ref
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Fault, Found, Ruler
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.order.play.narration import is_narrated, next_item
from trainer.sheet.prose.order.play.run import Run, Step
from trainer.sheet.prose.order.play.shares import after_part, before_part, counts_of, opening_sections

_BETWEEN = set(",-/&>)*:(|.;u")
_REPEATS = {"repeat", "repeats", "etc", "repeated", "forever"}


def run_of(sentence: Sentence, known: Known) -> Run | None:
    """Return the order of play that a sentence tells, if any."""
    letters = sentence.letters
    if letters.count("p") < 2 or "=" in letters:
        return None
    reader = _Reader(sentence, known)
    start = next(at for at, letter in enumerate(letters) if letter == "p")
    while start > 0 and (letters[start - 1] in "iTGn(),-&>" or reader.token(start - 1) == "x"):
        start -= 1
    head = sentence.tokens[: sentence.lexemes[start].first]
    start = next((at for at in range(max(start - 3, 0), start) if before_part(sentence, at)), start)
    reader.narrated = is_narrated(letters[:start], head)
    reader.read(start)
    reader.run.labelled = "l" in letters[:start] or any(token.low in ("phrased", "phrase") for token in head)
    words = {token.low for token in sentence.tokens}
    reader.run.repeats = bool(words & _REPEATS) or ("so" in words and "on" in words)
    return reader.run if len(reader.run.parts) >= 2 else None


class _Reader:
    """Goes through the lexemes of a sentence and stops where the list ends."""

    def __init__(self, sentence: Sentence, known: Known) -> None:
        self.run = Run()
        self.narrated = False
        """It is told in sentences: words between two items may say where they lead."""
        self._share: Atom | None = None
        """How much is danced of the part that comes next."""
        self._s = sentence
        self._known = known
        self._lengths = dict(known.parts)
        self._times = 1

    def read(self, at: int) -> None:
        """Take items from a lexeme on."""
        lexemes = self._s.lexemes
        while at < len(lexemes) and not self._is_denied(at) and not self._is_over(at):
            kind = lexemes[at].kind
            share = before_part(self._s, at)
            if kind == "A" and self.run.steps and self._is_told_again(at):
                at += 3 if self._s.letters[at + 1] == "o" else 2
            elif share is not None:
                self._share, at = share
            elif kind == "p":
                at = self._part(at)
            elif kind == "q" and (opening := opening_sections(self._s, at, self._known)) is not None:
                part, counts, at = opening
                self.run.steps.append(Step(part, self._span(at - 1), cut=counts, short=True))
            elif kind in "TGX":
                at = self._extra(at)
            elif kind == "H":
                at = self._hold(at)
            elif kind == "i":
                at = self._skip_bracket(at + 1)
            elif kind in _BETWEEN or self.token(at) in ("x", "k"):
                at += 1
            elif kind == "n" and (self._after_x(at) or self._s.letters[at + 1 : at + 2] == "p"):
                self._times = max(lexemes[at].number, 1)
                at += 1
            else:
                beyond = self._beyond(at)
                if beyond is None:
                    at = self._ending_by_its_step(at)
                    break
                at = beyond
        self.run.read = lexemes[min(at, len(lexemes)) - 1].last if at else 0

    def _is_over(self, at: int) -> bool:
        """Whether a wait is told behind the ending: "Wait 8, then dance the Intro" says when to begin."""
        last = self.run.steps[-1].ref if self.run.steps else None
        return self._s.letters[at] == "H" and last is not None and last.kind == "ending"

    def _ending_by_its_step(self, at: int) -> int:
        """Take the last item of a list that names the ending by a word of its heading: "A - B - stomp"."""
        last = self._s.tokens[self._s.lexemes[at].first :]
        last = last[:-1] if last and last[-1].text in (".", "!") else last
        heads = [tokens for kind, _, _, tokens in self._known.extras if kind == "ending"]
        listed = at > 0 and self._s.letters[at - 1] in ",-&>" and self.run.steps
        if not listed or len(last) != 1 or len(heads) != 1 or last[0].low not in {token.low for token in heads[0]}:
            return at
        self.run.steps.append(Step("", self._span(at), Ref("ending", self._span(at))))
        return len(self._s.lexemes)

    def _is_denied(self, at: int) -> bool:
        """Whether an extra is named that there is not: "A (12:00), B (6:00). No tags, no restarts."."""
        return self._s.letters[at] in "TGX" and at > 0 and self._s.letters[at - 1] == "N"

    def _beyond(self, at: int) -> int | None:
        """Where the list goes on after what names no item: the number of one, or words between two of them."""
        if re.match(r"n[.)][pTGXH]", self._s.letters[at:]):
            return at + 2
        if self.token(at) in ("pair", "couple"):
            self._times = 2
            return at + 1
        if self._leads_on(at):
            return at + 1
        if not self.narrated or not self.run.steps:
            return None
        beyond = next_item(self._s.letters, self._s.lexemes, self._s.tokens, at)
        if beyond is None:
            return None
        return next((share for share in range(at + 1, beyond) if before_part(self._s, share)), beyond)

    def _leads_on(self, at: int) -> bool:
        """Whether a word belongs to the item after it: "short A", "half A", "verse 1 (A)"; or to no item at all."""
        letters = self._s.letters
        return letters[at : at + 2] in ("Sp", "hp") or letters[at : at + 3] == "n(p" or self._goes_on(at)

    def _goes_on(self, at: int) -> bool:
        """Whether words between two items say nothing of the list: "then the Middle, which looks at the front"."""
        letters = self._s.letters
        if letters[at] not in "?IYyUDzfomA" or not self.run.steps or letters[at - 1 : at + 1] == ".I":
            # "On the short A leave out ..." opens a sentence that speaks of the list.
            return False
        ahead = re.match(r"[?IYyUDzfomA,]{1,6}(?:\.?[>&]+|[,>&]|\.(?=A))*(?=[pTGHXSA(]|n\()", letters[at:])
        return ahead is not None and (letters[at] != "A" or self._is_told_again(at))

    def _is_told_again(self, at: int) -> bool:
        """Whether "after the Middle" names the part or the extra just listed; a number it has not is a fault."""
        after = self._s.lexemes[at + 1] if at + 1 < len(self._s.lexemes) else None
        beyond = self._s.lexemes[at + 2] if at + 2 < len(self._s.lexemes) else None
        if after is not None and after.kind == "o" and beyond is not None and beyond.kind == "p":
            if beyond.text != self.run.steps[-1].part:
                return False
            danced = self.run.parts.count(beyond.text)
            if after.number > danced:
                message = f"There is no {self._s.words(at + 1, at + 3)} yet: the order has {danced} before this"
                self.run.faults.append(Fault(message, self._span(at + 1)))
            return after.number >= danced
        last = self.run.steps[-1]
        if after is not None and last.ref is not None and after.kind in KINDS:
            return last.ref.kind == KINDS[after.kind]
        return after is not None and after.kind == "p" and last.part == after.text

    def token(self, at: int) -> str:
        """Return the first word of a lexeme."""
        return self._s.tokens[self._s.lexemes[at].first].low

    def _after_x(self, at: int) -> bool:
        """Whether a number says how often: "2 x A"."""
        return at + 1 < len(self._s.lexemes) and self.token(at + 1) in ("x", "times")

    def _span(self, at: int) -> Span:
        return self._s.span(at, at + 1)

    def _part(self, at: int) -> int:
        lexeme = self._s.lexemes[at]
        length = self._lengths.get(lexeme.text, 0)
        cut, starts, times, last = self._tail(at + 1, lexeme.text, length)
        if at and self._s.lexemes[at - 1].kind == "h":
            cut = length // 2
        share, self._share = self._share, None
        if cut is None and share is None and (told := after_part(self._s, last)):
            share, last = told
        if share is not None:
            cut = self._counted(share, lexeme.text)
        many = max(times, self._times)
        self._times = 1
        marked = self._s.letters[at - 1 : at] == "S" or self._starred(at) or self._s.letters[at + 1 : at + 4] == "(S)"
        for _ in range(min(many, 16)):
            self.run.steps.append(Step(lexeme.text, self._span(at), cut=cut, starts=starts, short=marked))
        return last

    def _counted(self, share: Atom, part: str) -> int | None:
        counts = counts_of(share, self._known, part)
        if isinstance(counts, Fault):
            self.run.faults.append(counts)
            return None
        return None if counts == self._lengths.get(part) else counts

    def _starred(self, at: int) -> bool:
        """Whether a mark glued to a part's name makes it another form of it: "A*", "A-"."""
        letters, tokens = self._s.letters, self._s.tokens
        if letters[at + 1 : at + 2] not in ("*", "-"):
            return False
        mark = self._s.lexemes[at + 1].first
        apart = mark + 1 >= len(tokens) or not tokens[mark + 1].glued or tokens[mark + 1].kind == "mark"
        return letters[at + 1] == "*" or (tokens[mark].glued and apart)

    def _facing_at(self, at: int) -> tuple[Fraction | None, int]:
        """A facing after a part's name, and the index after it: "Verse from the front", "Chorus back"."""
        lexemes = self._s.lexemes
        named = at + 1 < len(lexemes) and lexemes[at].kind == "I" and lexemes[at + 1].kind == "f"
        if named:
            return lexemes[at + 1].facing, at + 2
        if lexemes[at].kind == "f":
            return lexemes[at].facing, at + 1
        return (WAYS.get(self.token(at)), at + 1) if lexemes[at].kind == "m" else (None, at)

    def _tail(self, at: int, part: str, length: int) -> tuple[int | None, Fraction | None, int, int]:
        """What stands after a part's name: how much of it, facing where, how often."""
        lexemes = self._s.lexemes
        cut, starts, times = None, None, 1
        if at < len(lexemes) and lexemes[at].kind == "n":
            glued = self._s.tokens[lexemes[at].first].glued
            if glued:
                cut, at = lexemes[at].number, at + 1
        while at < len(lexemes):
            facing, last = self._facing_at(at)
            if facing is not None:
                starts, at = facing, last
            elif self._s.letters[at : at + 2] in ("*(", "-("):
                at += 1
            elif lexemes[at].kind == "n" and at + 1 < len(lexemes) and lexemes[at + 1].kind == "t":
                times, at = lexemes[at].number, at + 2
            elif lexemes[at].kind == "(":
                end = self._closing(at)
                inside = lexemes[at + 1 : end]
                cut = self._cut(at + 1, end, part) if cut is None else cut
                faced = WAYS.get(self.token(at + 1)) if [one.kind for one in inside] == ["m"] else None
                starts = next((one.facing for one in inside if one.kind == "f"), faced or starts)
                if any(self._s.tokens[one.first].low in ("x", "×") or one.kind == "k" for one in inside):
                    times = next((one.number for one in inside if one.kind == "n"), 2)
                    cut = None
                at = end + 1
            elif self.token(at) == "x" and at + 1 < len(lexemes) and lexemes[at + 1].kind == "n":
                times, at = lexemes[at + 1].number, at + 2
            elif lexemes[at].kind == "k":
                times, at = 2, at + 1
            else:
                break
        if cut == length:
            cut = None
        return cut, starts, times, at

    def _cut(self, first: int, last: int, part: str) -> int | None:
        """How much of a part is danced, as a bracket after it says."""
        letters = self._s.letters[first:last]
        if "h" in letters:
            return self._lengths.get(part, 0) // 2
        for atom in self._s.atoms:
            if first <= atom.first and atom.last <= last and atom.kind in ("place", "loose") and atom.spec is not None:
                found = Ruler(self._known, part).find(atom.spec)
                if isinstance(found, Found):
                    return found.after
                if isinstance(found, Fault):
                    self.run.faults.append(found)
        return None

    def _closing(self, at: int) -> int:
        lexemes = self._s.lexemes
        return next((end for end in range(at, len(lexemes)) if lexemes[end].kind == ")"), len(lexemes))

    def _skip_bracket(self, at: int) -> int:
        if at < len(self._s.lexemes) and self._s.lexemes[at].kind == "(":
            return self._closing(at) + 1
        return at

    def _extra(self, at: int) -> int:
        lexemes = self._s.lexemes
        if lexemes[at].kind == "X" and self.token(at) == "to":
            # "... and B three times to finish" names no ending.
            return at + 1
        if re.match("XIp", self._s.letters[at:]) and self.token(at + 1) == "with":
            # "... and we finish with B": nor here.
            return at + 2
        kind = KINDS[lexemes[at].kind]
        span = self._span(at)
        number, last = 0, at + 1
        listed = re.match(r"n[.)][pTGXH]", self._s.letters[last:])
        if last < len(lexemes) and lexemes[last].kind == "n" and not self._after_x(last) and not listed:
            number, last = lexemes[last].number, last + 1
        self.run.steps.append(Step("", span, Ref(kind, span, number)))
        return self._skip_bracket(last)

    def _hold(self, at: int) -> int:
        lexemes = self._s.lexemes
        end = next((i for i in range(at + 1, min(at + 5, len(lexemes))) if lexemes[i].kind == "n"), None)
        if end is None:
            return at + 1
        self.run.steps.append(Step("", self._span(at), hold=lexemes[end].number))
        last = end + 1
        while last < len(lexemes) and lexemes[last].kind in "c)":
            last += 1
        return last
