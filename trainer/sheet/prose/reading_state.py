"""What is known while a sheet is read, and what its extras are called."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from trainer.problems import Problem
from trainer.sheet.prose.items.phrases import Gloss, item_readings, last_said
from trainer.sheet.prose.items.references import with_references
from trainer.sheet.prose.items.regrouping import regrouped
from trainer.sheet.prose.items.said_twice import with_mirrored_halves
from trainer.sheet.prose.order.told import Facts, is_order
from trainer.sheet.prose.page.blocks import Block
from trainer.sheet.prose.page.pages import Page
from trainer.sheet.prose.words import Item, Reading
from trainer.terms import ExtraKind, Weight


@dataclass(slots=True)
class Reader:
    """What is known while a sheet is read."""

    page: Page
    facts: Facts
    gloss: Gloss
    problems: list[Problem] = field(default_factory=list)
    starts: Weight = "L"

    def extras(self) -> list[Block]:
        """Return the blocks of extras; a sentence that only speaks of one ("And the ending?") is none."""
        return [block for block in self.page.blocks if block.kind != "main" and (block.items or _heads(block))]

    def readings(self, block: Block, items: Sequence[Item]) -> tuple[list[Item], list[tuple[Reading, ...]]]:
        """Return a block's items, back references resolved, with their candidate readings."""
        own: list[tuple[Reading, ...]] = []
        items = regrouped(with_mirrored_halves(items, self.gloss), self.gloss, self.page.feel)
        for item in items:
            own.append(item_readings(item, self.gloss, before=last_said(own[-1]) if own else None))
        return with_references(items, own, [bound.beat for bound in block.bounds], self.gloss, self.page.phrase)


def _heads(block: Block) -> bool:
    """Whether the heading of an extra without steps is one, and not a sentence."""
    tokens = block.headings[-1].tokens if block.headings else ()
    return bool(tokens) and (len(tokens) < 7 or tokens[-1].text not in (".", "!", "?") or is_order(tokens))


def kind_of(block: Block) -> ExtraKind:
    kinds: Mapping[str, ExtraKind] = {"intro": "intro", "bridge": "bridge", "change": "change", "ending": "ending"}
    return kinds.get(block.kind, "tag")


def name_of(block: Block, blocks: Sequence[Block]) -> str:
    """Return a name of its own for an extra block: its kind, numbered where there are more."""
    alike = [other for other in blocks if other.kind == block.kind]
    name = kind_of(block).capitalize()
    return name if len(alike) == 1 else f"{name} {alike.index(block) + 1}"
