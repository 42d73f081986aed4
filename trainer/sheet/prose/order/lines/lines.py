"""Which lines of a sheet speak of the order of walls, and which only carry a remark about it beside their steps."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.lexis.vocabulary import HINTS, JOINERS, ORDINALS, SONG_PARTS
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.left_open import names_a_section
from trainer.sheet.prose.order.lines.lengths_told import lengths_told
from trainer.sheet.prose.order.lines.wall_lists import starts_list, walls_listed
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

LETTERS = Names({letter.lower(): letter for letter in "ABCDEFG"}, {})
"""Parts of a dance that is not known yet."""
SONG = Names({**LETTERS.parts, **{word: word.capitalize() for word in SONG_PARTS}}, {})
"""The same, with those that are called as the song's."""
_PARTS = set("ABCDEFG")
_WALL_WORDS = {"wall", "walls", "w"}
_PASSES = {"after", "st", "nd", "rd", "th", *ORDINALS}
"""Words one of which tells a single pass of a part."""
_LONGEST = 300
_NAMED = 4
"""Words at most that only name what is done: "RESTART", "you start again"."""
_WIDE = 45
"""A line that ends beyond this column may have been broken there."""
_ENDS = {".", "!", "?", ":", ";"}
_OPENERS = {"(": ")", "[": "]", "{": "}"}
_STEPS_FIRST = re.compile(
    r"^[*\-(.]*n(?:[-&,n?.]*)[):.\-]*m|m[^.]*\([n&,-]+\)|^[*\-]*\(?[cs]n(?!I?(?:wn|ow))|"
    r"^[*\-]*I(?:cn|n[-&,U]*n)[-&,Un]*[?,:]{0,3}m"
)
"""Counts and what is danced on them: "7-8 walk, walk", "walk, walk (7-8)", "On 7 and 8 walk, walk"."""
_COUNTED = re.compile(
    r"m[^.n]{0,9}[Ij]n(?=[,.&;]).*[mH][^.n]{0,9}[Ij]n|m[^.nwWsc]{0,5}n[,;&]+[^.n]{0,3}m[^.nwWsc]{0,5}n(?=[,.&;]|$)|"
    r"nm[^.nwWsc]{0,6}[,;&]+nm[^.nwWsc]{0,6}[,;&]+nm|"
    r"(?:^|[.,;])[?JIj>&]*n[U&\-]n[?,:]{0,3}m[^.nwWsc]*[.,;&>][?JIj>&]*n[U&\-]n[?,:]{0,3}m|"
    r"[?m]{2}[Ij]n[,&>]+[?m>&D]{2,}[Ij]n[,&>]+[?m>&D]*[Ij]n"
)
"""Steps each of which is tied to its count in words: "rock back on seven, recover on eight", "stomp right 7, ...".

The numbers may stand bare, each at the end of its clause. Words that say nothing, each on its number, are steps that
cannot be read.
"""
_INSTEAD = re.compile(r"^[*\-]*(?:sn[,:]?)?(?:cn-n|cn)[:,]?V")
"""Counts and what is not danced on them: "section 1, count 4: instead of touching ..., step left and restart"."""
_ON_ONE_WALL = re.compile(
    r"^[*\-]*(?:s[nx]|o-?s|q),?(?:cn[-U]n|cn|n-n),?I?(?:wn|ow)u?,?[:,][mH]|"
    r"^[*\-]*(?:cn[-U]n|cn|s[nx]|o-?s|n)0,?I?(?:wn|ow)u?,?[:,]"
)
"""Counts of a section and the one wall in which they are danced so: "Fig. 8, counts 4-6, on wall 5 only: step R"."""
_IS_A_NUMBER = re.compile(r"^[*\-]*nm{1,2},?$")
"""How many steps there are, before their place and a colon: "Two stomps at the end of wall 3: stomp right, ..."."""
_CHANGED_FROM = re.compile(r"[>?I,]*[>?]?D(?=U|c?n|n-?c|on-?c)[^.]*[,>&][>,&]*(?:V|M)")
"""How far a wall is danced before its steps are changed: "Dance as far as count 6, then instead of the shuffle ..."."""
_DANCED = {"dance", "do", "danced"}
_OTHERS = {"instead", "place", "rather", "replace", "replacing", "change", "swap"}
_SHORT_PART = re.compile(r"^\W*(?:Sp|p\*):.*p-?n|[Lo]pD?S|p\*[D?&]*u?n-?c")
"""A part that is danced otherwise: "SHORT A: A1 and A2", "the last A is a short one", "A* has only eight counts"."""
_FACTS_FIRST = re.compile(r"n-?c.*n-?[wW](?!n)|n-?[wW](?!n).*n-?c")
"""The length of the dance and its walls, as a sheet's head states them."""
_IS_A_FACT = re.compile(r"^W[:=]n\.?$")
"""A sentence of the head that states how many walls there are: "Walls: 4."."""
_A_ROW = re.compile(r"^\(?wn[:,|\-].*c|^\(?(?:wn|ow|otU?)[:,|\-]?\(?[YIy]*f?\)?[:,|\-]*D?a(?:I|n-?[cs]?)?[.,]?$")
"""A wall and its counts in a list of the walls: "Wall 1: begin facing 12:00, counts 1 to 48."."""
_TELLS_A_SHORT_PART = re.compile(
    r"^\W*(?:the )?(?:short|shortened|shorter|cut) (?:[a-h]|" + "|".join(SONG_PARTS) + r") "
    r"(?:\w{2,}s|only|is|will|must|then)\b"
)
"""Opens a line on a part that is not danced whole: "The short Verse is the fourth one"."""
_BROKEN_AFTER = {
    "a",
    "an",
    "the",
    "and",
    "of",
    "to",
    "with",
    "in",
    "at",
    "on",
    "for",
    "from",
    "then",
    "after",
    "before",
}
_SHORTENED = {"dance", "short", "shortened", "shorter", "standing", "alone", "means", "half", "cut"}
"""With a part's letter these may tell how much of it is danced."""
_LETTERED = re.compile("p.*p")
_LETTERED_LAST = re.compile("[Lo]p")
_HEADS = re.compile(r"^[?Iljt:*\-#=&D]*[Wlw][?Iljtw:*\-#=&,|cyYED>.]*$")


_HEADS_THE_SHEET = re.compile(
    r"(?!.*\b(?:restarts?|tags?|bridges?|ending|again|top|then)\b)"
    r"\W*walls? ?[:=]? ?[1248] ?[,;/|\-] ?counts? ?[:=]? ?\d\d+\b(?! ?[-&])|"
    r"(?!.*\b(?:restarts?|tags?|bridges?|after|ends?|again|only)\b)(?:.* )?[1248] ?-? ?walls? ?(?:line )?(?:dance )?"
    r"\d\d+ ?-? ?(?:counts?|cts?|beats)\b|\W*[1248] ?w ?[-,/|]? ?\d\d+ ?c(?:ts?)?\b|"
    r"\W*counts? ?[:=]? ?\d\d+ ?[,;/|\-]? ?walls? ?[:=]? ?[1248]\W*$|"
    r"\W*(?:counts? ?[:=]? ?\d\d+ ?[,;/|\-]? ?walls? ?[:=]? ?[1248]|walls? ?[:=]? ?[1248] ?counts? ?[:=]? ?\d\d+)"
    r"\W*(?:level|absolute|beg|easy|imp|int|adv|high|low|novice|newcomer|music|choreo)"
)
"""The facts of a dance, its walls first: "Wall 4, Count 16, easy" and "4 wall 16 count" are no fourth wall."""


def is_order(tokens: Sequence[Token]) -> bool:
    """Return whether a line speaks of the order of walls, and is no line of steps or section heading with a remark."""
    line = tuple(tokens[:_LONGEST])
    if not _may_speak(line) or _HEADS_THE_SHEET.match(" ".join(token.low for token in line)):
        return False
    if walls_listed(line)[0] or _TELLS_A_SHORT_PART.match(" ".join(token.low for token in line)):
        return True
    rest, found = without_order(line)
    if found:
        kinds = [sentence_of(rest, LETTERS)] if rest else []
        words = [token for token in rest if token.kind == "word"]
        told = [atom for sentence in kinds for atom in sentence.atoms if not names_a_section(sentence, atom)]
        # "Jazz box to finish. Cross on 5, back on 6, ... and off you go again": what begins again is no ending.
        again = any(_restarts(atom) for atom in sentence_of(found, LETTERS).atoms)
        steps = again and any(_COUNTED.search(sentence.letters) for sentence in kinds)
        acts = ("T", "G", "R") if steps else ("T", "G", "X", "R")
        return not words or any(atom.kind == "walls" or atom.act in acts for atom in told)
    letters = ""
    for part in sentences(line):
        sentence = sentence_of(part, LETTERS)
        at = _evidence(sentence, part)
        if at is not None:
            before = letters + sentence.letters[:at]
            if _ON_ONE_WALL.match(sentence.letters):
                return True
            if _IS_A_NUMBER.match(before) and sentence.letters[at:].count(":"):
                return True
            return bool(_INSTEAD.match(before)) or not (_STEPS_FIRST.search(before) or _COUNTED.search(before))
        letters += sentence.letters + "."
    return _is_head(line) or _only_says_that(line)


def without_order(tokens: Sequence[Token]) -> tuple[tuple[Token, ...], tuple[Token, ...]]:
    """Part a line of steps, or a heading, from a remark about the order in brackets or at its end.

    Returns the line without the remark, and the remark; the remark is empty where there is none, or where the whole
    line speaks of the order.
    """
    line = tuple(tokens[:_LONGEST])
    if not _may_speak(line):
        return tuple(tokens), ()
    for first, last in _brackets(line):
        inside = line[first + 1 : last]
        if _speaks(inside) and len(inside) > 1 and not _is_told_before(line[:first]):
            return (*line[:first], *tokens[last + 1 :]), inside
    cut = _end_of_steps(line)
    if cut is None:
        return tuple(tokens), ()
    last = cut
    while last > 0 and line[last - 1].text in ("*", "-", "#", "<", ">", "(", "[", "|", "~", "=", "."):
        last -= 1
    return tuple(tokens[:last]), tuple(tokens[cut:])


def _end_of_steps(line: Sequence[Token]) -> int | None:
    """Where steps end and a remark on the order begins: with a sentence of its own, or with the word restart."""
    before = ""
    for part in sentences(line):
        sentence = sentence_of(part, LETTERS)
        if _CHANGED_FROM.match(sentence.letters):
            return None
        first = next(at for at, token in enumerate(line) if token is part[0])
        evidence = _evidence(sentence, part)
        if _INSTEAD.match(before + sentence.letters):
            return None
        told = _STEPS_FIRST.search(before) or _FACTS_FIRST.search(before) or _COUNTED.search(before)
        if told and evidence is not None:
            return first + (sentence.lexemes[evidence].first if _closes_steps(sentence, evidence) else 0)
        if evidence is not None and _FACTS_FIRST.search(before + sentence.letters[:evidence]):
            return first + sentence.lexemes[evidence].first
        at = next((atom.first for atom in sentence.atoms if _restarts(atom)), None)
        if at is not None and _STEPS_FIRST.search(before + sentence.letters[:at]):
            # "... coaster step <- wall 5 restarts here": the wall is named before what it does.
            named = [atom.first for atom in sentence.atoms if atom.kind == "walls" and atom.first < at]
            at = next((one for one in named if _STEPS_FIRST.search(before + sentence.letters[:one])), at)
            return first + sentence.lexemes[at].first
        before += sentence.letters + "."
    return None


def _closes_steps(sentence: Sentence, at: int) -> bool:
    """Whether a new start closes a sentence of steps: "on 7 point the left toe out, ..., and away you go again"."""
    walls = any(atom.kind == "walls" for atom in sentence.atoms)
    starts = any(_restarts(atom) and atom.first == at for atom in sentence.atoms)
    closes = re.fullmatch(r"R[?IR]*[.]?", sentence.letters[at:]) is not None
    return starts and closes and not walls and sentence.letters[:at].count("m") > 1


def _is_told_before(line: Sequence[Token]) -> bool:
    """Whether what is done stands right before the bracket that tells its wall: "coaster step   RESTART (3rd wall)"."""
    at = next((at for at in range(len(line) - 1, -1, -1) if line[at].text == BREAK), -1)
    words = [token for token in line[at + 1 :] if token.kind == "word"]
    if at < 0 or len(words) > _NAMED:
        return False
    return any(_restarts(atom) for atom in sentence_of(line[at + 1 :], LETTERS).atoms)


_EXTRAS = {"tag", "bridge", "ending", "finish", "restart", "intro"}


_ONCE_MORE = {"more", "again", "too", "also"}
_PLACED = {"at", "after", "in", "on", "behind", "during"}


def carries_on(before: Sequence[Token], after: Sequence[Token]) -> bool:
    """Return whether a line goes on with the sentence about the order that the line above it left unfinished."""
    if not before or not after or after[0].line != before[-1].line + 1 or before[-1].text in _ENDS:
        return False
    unfinished = before[-1].low in JOINERS or before[-1].kind == "amp"
    # "... of the second time through, and once more" over "at the end of the fifth".
    unfinished = unfinished or (before[-1].low in _ONCE_MORE and after[0].low in _PLACED)
    wide = before[-1].column + len(before[-1].text) > _WIDE
    if after[0].low in _WALL_WORDS and {before[0].low, before[-1].low} & set(_WALL_WORDS):
        return False
    if not unfinished and after[0].low in _EXTRAS - {before[0].low} and [token.text for token in after[1:2]] == [":"]:
        # "tag: sway R, L" tells of its own.
        return False
    if not (unfinished or wide) or not (_may_speak(before) or _may_speak(after)):
        return False
    opens = after[0]
    small = opens.kind == "number" or opens.text in ("(", "&") or opens.text[0].islower()
    # In capitals throughout a line broken after "put in a" goes on all the same.
    broken = before[-1].text.isupper() and before[-1].low in _BROKEN_AFTER
    small = small or (broken and opens.text.isupper() and len(opens.text) > 1)
    if not small:
        return False
    if unfinished and any(_CHANGED_FROM.match(sentence_of(part, LETTERS).letters) for part in sentences(before)):
        # "Dance as far as count 6, then instead of the / shuffle step back (7), ...": the steps are those changed.
        return True
    if _STEPS_FIRST.match(sentence_of(tuple(after[:20]), LETTERS).letters):
        return False
    if is_order(before):
        return unfinished or (wide and not is_order(after))
    return unfinished and is_order((*before, *after)) and not is_order(after)


def only_leaves(sentence: Sentence) -> bool:
    """Return whether a sentence only says that the dance begins again, there or facing so: "Begin again, at 3:00"."""
    acts = [atom.act for atom in sentence.atoms if atom.kind == "act"]
    others = {atom.kind for atom in sentence.atoms} - {"act", "face", "begins", "only"}
    told = any(atom.kind == "face" for atom in sentence.atoms) or any(
        token.low in ("there", "here", "then") for token in sentence.tokens
    )
    return acts == ["R"] and not others and told


def _may_speak(line: Sequence[Token]) -> bool:
    """A quick look: most lines are steps, and need no closer one."""
    if len(line) > 6 and all(token.kind in ("number", "mark") or token.text == "T" for token in line[:7]):
        return True
    letters = sum(len(token.text) for token in line if token.kind == "word" and set(token.text) <= _PARTS)
    if sum(token.low in SONG_PARTS for token in line) > 2:
        return True
    if letters > 3 or (letters and any(token.low in _PASSES | _SHORTENED for token in line)):
        return True
    lows = {token.low for token in line}
    if lows & _DANCED and lows & _OTHERS:
        return True
    return any(token.low in HINTS or (token.kind == "facing" and "wall" in token.low) for token in line)


def _restarts(atom: Atom) -> bool:
    return atom.kind == "act" and atom.act == "R" and not atom.declares


def _brackets(line: Sequence[Token]) -> list[tuple[int, int]]:
    found = []
    for first, token in enumerate(line):
        closer = _OPENERS.get(token.text)
        last = next((at for at in range(first + 1, len(line)) if line[at].text == closer), None) if closer else None
        if last is not None:
            found.append((first, last))
    return found


def _speaks(tokens: Sequence[Token]) -> bool:
    return any(_evidence(sentence_of(part, LETTERS), part) is not None for part in sentences(tokens))


def _evidence(sentence: Sentence, tokens: Sequence[Token]) -> int | None:
    """The index of the first lexeme of what speaks of the order, if anything does."""
    atoms = sentence.atoms
    if _IS_A_FACT.match(sentence.letters):
        return None
    if starts_list(tokens)[0] or _says_what_it_is(sentence):
        return 0
    acts = [atom for atom in atoms if atom.kind == "act" and not atom.declares]
    told = [atom for atom in acts if atom.act != "Q"]
    named = [
        atom
        for atom in atoms
        if atom.kind == "walls"
        and (
            atom.walls
            or (atom.every and atom.at == "end")
            or atom.every == "short"
            or (atom.every == "last" and atom.part and told)
        )
        and (told or not atom.vague)
        and not (_frames(atom, told, sentence) and not _A_ROW.match(sentence.letters))
        and not (_counts_walls(sentence, atom) and not told)
    ]
    restarts = [atom for atom in acts if atom.act == "R"]
    if _CHANGED_FROM.match(sentence.letters):
        return 0
    if match := _SHORT_PART.search(sentence.letters):
        return match.start()
    if re.match(r"[*\-]*wn:[^.]*y", sentence.letters) and any(one.kind == "face" for one in atoms):
        # "Wall 1: begin 12:00, counts 1 to 48" is a row of a list, the first wall's too.
        return 0
    if re.match(r"\(?ny[IU]?[fn]|wn,?y|wn\?f=", sentence.letters):
        return 0
    if any(not atom.part for atom in named) or restarts:
        opening = min(atom.first for atom in [*named, *restarts, *acts])
        # "Count 20 of wall 6: restart."
        straight = (atom.first for atom in atoms if atom.kind == "place" and atom.last == opening)
        return min(opening, next(straight, opening))
    placed = [atom for atom in atoms if atom.kind == "place" and atom.spec and not atom.spec.share]
    extras = [atom for atom in acts if atom.act in "TGX"]
    passes = [atom for atom in named if (atom.walls or atom.every in ("short", "last")) and (atom.at or placed or acts)]
    if passes:
        return min(atom.first for atom in [*passes, *placed, *acts])
    if extras and (named or (placed and re.match("A|E|Z|U|D|B", sentence.letters[placed[0].first :]))):
        return min(atom.first for atom in [*extras, *named, *placed])
    song = sentence if _LETTERED_LAST.search(sentence.letters) else None
    if song is None and any(token.low in SONG_PARTS for token in tokens):
        song = sentence_of(tokens, SONG)
    if song is not None and (at := _of_a_song(song)) is not None:
        return at
    at = _plays(sentence) if _LETTERED.search(sentence.letters) else _plays(sentence_of(tokens, SONG))
    return _lengths(sentence) if at is None else at


_IT_IS = re.compile(r"^[TG](?!.*[nwWRAED])[mH&,>]*,[mH&,>?]*[.]?$")


def _says_what_it_is(sentence: Sentence) -> bool:
    """Whether a sentence tells the steps of an extra without counts: "The tag is stomp right, clap, stomp left"."""
    if not _IT_IS.match(sentence.letters):
        return False
    after = sentence.tokens[sentence.lexemes[0].last :][:2]
    return bool(after) and after[0].low in ("is", "goes", "consists", "has")


def _of_a_song(sentence: Sentence) -> int | None:
    """Where a sentence tells what is danced at a part called as in a song: "the bridge after the second Chorus"."""
    acts = [one for one in sentence.atoms if one.kind == "act" and one.act in "TGXRn" and not one.declares]
    passes = [one for one in sentence.atoms if one.kind == "walls" and one.part and (one.walls or one.every)]
    if not passes:
        return None
    # "The last Chorus is cut short", "the third Verse is cut after 16 counts".
    cut = "K" in sentence.letters[passes[0].last :] or any(one.kind == "place" for one in sentence.atoms)
    placed = acts and any(one.at or one.every == "short" for one in passes)
    if not placed and not (cut and passes[0].every in ("", "last", "short")):
        return None
    return min(one.first for one in [*acts, *passes])


def _counts_walls(sentence: Sentence, walls: Atom) -> bool:
    """Whether it says how many walls there are, as a sheet's head does: "Walls 4", "Length 32, walls: 4"."""
    return len(walls.walls) == 1 and not walls.at and sentence.letters[walls.first] == "W"


def _frames(walls: Atom, told: Sequence[Atom], sentence: Sentence) -> bool:
    """Whether the first wall is named only for the facings ("clock times are for the first wall")."""
    danced = any(act.act in "RTGXn" or (act.act == "H" and act.counts) for act in told)
    changed = any(one.kind == "change" and one.spec for one in sentence.atoms) or re.match(
        "[:,]nm", sentence.letters[walls.last :]
    )
    return walls.walls == (1,) and not walls.at and not danced and not changed


def _lengths(sentence: Sentence) -> int | None:
    """Where the lengths of walls are listed: "Sequence: 32, 32, 16, 32", "32 - 32 - 16 - 32"."""
    letters = sentence.letters
    if lengths_told(sentence) is not None:
        return 0
    match = re.search(r"[lW]\??:(?=(?:[,\-/c&>TG)(R]*[nah]){3,}[,\-/c&>TG)(R]*$)", letters)
    if match:
        return match.start()
    counts = [one.number for one in sentence.lexemes if one.kind == "n"]
    listed = re.fullmatch(r"[n,\-/c&>TG)(R?]+", letters) and len(counts) > 3 and counts.count(max(counts)) > 1
    unknown = [sentence.words(at, at + 1) for at, letter in enumerate(letters) if letter == "?"]
    return 0 if listed and max(counts) >= 16 and set(unknown) <= {"T"} else None


def _plays(sentence: Sentence) -> int | None:
    """The index of the label of an order of play."""
    match = re.search(r"l[^.]*?[:\-=]?(?=[piT(][pTGinxkf,\-/&>)(:H?cuSh|]*p)", sentence.letters)
    if match and len(re.findall("p", sentence.letters[match.end() :])) >= 2:
        return match.start()
    match = re.search(r"l[^.p]{0,6}[:\-=]", sentence.letters)
    if match and sentence.letters[match.end() :].count("p") >= 3:
        return match.start()
    match = re.search(r"[>?]{0,2}D:?n?p(?=k|nt|,?&p|[^.]*p[^.]*p)", sentence.letters)
    if match and not re.search("[RwWs]", sentence.letters):
        return match.start()
    match = re.search(r"p(?:(?:\([^()]{1,5}\))?[,\-/&>| ]*[pTGX]){4,}", sentence.letters)
    return match.start() if match else None


def _is_head(line: Sequence[Token]) -> bool:
    """Whether a line heads a list of walls: "THE WALLS", "How the walls go"."""
    words = [token for token in line if token.kind == "word"]
    if not 1 <= len(words) <= 7 or any(token.kind in ("number", "clock", "facing") for token in line):
        return False
    lows = {token.low for token in words}
    if not lows & {"walls", "wall", "sequence", "order"}:
        return False
    return bool(_HEADS.match(sentence_of(line, LETTERS).letters))


def _only_says_that(line: Sequence[Token]) -> bool:
    """Whether a line says no more than that there are, or are not, tags and restarts, and no fact of the header."""
    sentence = sentence_of(line, LETTERS)
    declares = any((atom.kind == "act" and atom.declares) or atom.kind == "not" for atom in sentence.atoms)
    return declares and not re.search(r"n-?[cwW]|l:n|i:?n", sentence.letters)
