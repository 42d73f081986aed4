"""Cards for tests: of bundled routines, of a sheet with every alphabet, of hostile texts, and far too long ones."""

from pathlib import Path

from trainer.cards.making import card_of
from trainer.cards.model import Card
from trainer.resources import folder
from trainer.sheet.opening import open_sheet, opened

BUNDLED = sorted(folder("routines").glob("*.sheet"))
PROSE = sorted((Path(__file__).parents[1] / "data" / "sheets").glob("*.txt"))
LATIN_GREEK_CYRILLIC = "Łódź Ağaç Žižkov Đặng Ünlü ñandú œuvre Αθήνα Чайка"


def bundled(name: str) -> Card:
    return card_of(open_sheet(folder("routines") / f"{name}.sheet").routine)


def made(text: str) -> Card:
    return card_of(opened(Path("small.sheet"), text).routine)


def alphabets() -> Card:
    return made(
        f"title: {LATIN_GREEK_CYRILLIC}\ntune: {LATIN_GREEK_CYRILLIC}\ncounts: 4\n"
        f"== 1: {LATIN_GREEK_CYRILLIC}\n1-4 R vine  ; {LATIN_GREEK_CYRILLIC}\n"
    )


HOSTILE = "<script>alert('x')</script> & \"[red]bold[/]\" </style> %(page)s {0} \\x"


def hostile() -> Card:
    """A card whose every text means harm to a page."""
    return made(
        f"title: {HOSTILE}\ntune: {HOSTILE}\nby: {HOSTILE}\nlevel: {HOSTILE}\nnote: {HOSTILE}\ncounts: 4\n"
        f"== 1: {HOSTILE}\n1-2 R walk, ??{quoted(HOSTILE)}  ; {HOSTILE}\n3-4 R walk, L walk\n"
        f"== tag {quoted(HOSTILE)}\n1-2 R walk, L touch\n"
        f"== order\nwall 2: after 4, tag {quoted(HOSTILE)}, continue  cue: {HOSTILE}\n"
    )


def quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def long(sections: int) -> Card:
    """A card of so many sections, and a wall list that is long."""
    rows = "1-2 R walk, L walk\n3&4 R shuffle forward\n5-6 L rock forward, R recover\n7&8 L coaster step ; like a cat\n"
    body = "".join(f"== {number}: round the harbour\n{rows}" for number in range(1, sections + 1))
    order = "".join(f"wall {number}: after 8, restart  cue: the drum stops\n" for number in range(2, 50, 2))
    return made(f"title: Long\ncounts: {8 * sections}\n{body}== order\n{order}")


def boundless() -> Card:
    """A card whose every text is far too long."""
    text = "over the harbour wall and round the lamp " * 30
    rows = "".join(f"{one}&  R walk ({text}), L walk ({text})  ; {text}\n" for one in range(1, 9))
    order = "".join(f"wall {number}: after 4, tag Bell, continue  cue: {text}\n" for number in range(1, 60))
    return made(
        f"title: {text}\ntune: {text}\nby: {text}\nlevel: {text}\nintro: 8 {text}\nnote: {text}\nnote: {'W' * 900}\n"
        f"counts: 8\n== 1: {text}\n{rows}== tag Bell: {text}\n{rows}== order\n{order}"
    )
