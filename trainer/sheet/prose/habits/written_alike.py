"""A sheet's own ways of writing told in one way, before its page is read: labels, rows, keys, lists of walls.

Each stage here stands for a habit that is known from the lines alone; it rewrites the tokens, keeping their places, and
leaves lines that it does not know as they are. What needs guesses that are priced is left to the views.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.own_marks import with_lettered_hours
from trainer.sheet.prose.facing.parts_faced import with_faced_parts
from trainer.sheet.prose.habits.answered_no import without_questions_answered_no
from trainer.sheet.prose.habits.bars_told import with_bars_told
from trainer.sheet.prose.habits.cards_numbered import with_cards_unnumbered
from trainer.sheet.prose.habits.count_rows import with_count_rows
from trainer.sheet.prose.habits.count_signs import with_count_signs
from trainer.sheet.prose.habits.counts_faced import with_counts_and_facings_parted
from trainer.sheet.prose.habits.counts_in_last_cell import with_last_counts_first
from trainer.sheet.prose.habits.counts_named import with_counts_named_no_more
from trainer.sheet.prose.habits.cues import without_cues
from trainer.sheet.prose.habits.denials import with_denials
from trainer.sheet.prose.habits.each_length import with_each_length
from trainer.sheet.prose.habits.eights_in_rows import with_eights_in_rows
from trainer.sheet.prose.habits.feet_met import with_feet_met
from trainer.sheet.prose.habits.footnotes import with_footnotes
from trainer.sheet.prose.habits.half_closings import with_half_closings
from trainer.sheet.prose.habits.half_labels import with_half_labels
from trainer.sheet.prose.habits.half_signs import with_half_signs
from trainer.sheet.prose.habits.lettered_eights import with_lettered_eights
from trainer.sheet.prose.habits.lettered_extras import with_lettered_extras
from trainer.sheet.prose.habits.nicknames import with_nicknames
from trainer.sheet.prose.habits.ordinals_written import with_ordinals
from trainer.sheet.prose.habits.part_labels import with_part_labels
from trainer.sheet.prose.habits.parts_first import with_parts_first
from trainer.sheet.prose.habits.parts_narrated import with_narrated_parts
from trainer.sheet.prose.habits.places_changed import with_places_apart
from trainer.sheet.prose.habits.plain_names import with_plain_names
from trainer.sheet.prose.habits.rows_numbered import without_row_numbers
from trainer.sheet.prose.habits.section_labels import with_section_labels
from trainer.sheet.prose.habits.shortened_words import with_whole_words
from trainer.sheet.prose.habits.sides_told import with_sides
from trainer.sheet.prose.habits.stretches_apart import with_stretches_apart
from trainer.sheet.prose.habits.sums_told import with_sums_told
from trainer.sheet.prose.habits.talk import with_talk_told
from trainer.sheet.prose.habits.tips import without_tips
from trainer.sheet.prose.habits.wall_words import with_wall_words
from trainer.sheet.prose.habits.walls_by_ordinals import with_ordinal_walls
from trainer.sheet.prose.habits.walls_counted import with_counted_walls
from trainer.sheet.prose.habits.walls_numbered import without_wall_numbers
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.keys.finding import Keyed, with_keys
from trainer.sheet.prose.listings.labels import with_labelled_walls
from trainer.sheet.prose.listings.listing import with_listed_walls
from trainer.sheet.prose.listings.parts_listed import with_listed_parts
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.plays.named_sections import with_named_sections
from trainer.sheet.prose.text.layout import Line, clean_lines


def written_alike(text: str) -> Keyed:
    """Return a text's lines, told in the ways that the reader knows, and its keys."""
    narrated = with_stretches_apart(with_narrated_parts(with_cards_unnumbered(clean_lines(text))))
    counted = with_counted_walls(with_ordinals(narrated))
    rows = with_last_counts_first(without_row_numbers(counted))
    clean = without_cues(without_tips(with_denials(with_talk_told(with_parts_first(rows))), is_order))
    whole = with_whole_words(without_questions_answered_no(with_footnotes(text, clean)))
    noted = with_each_length(with_sums_told(with_eights_in_rows(whole, fills)))
    parted = with_counts_and_facings_parted(with_counts_named_no_more(without_wall_numbers(noted)))
    halved = with_half_labels(with_half_closings(with_count_rows(parted), fills))
    hours = with_faced_parts(with_lettered_hours(halved))
    eights = with_lettered_eights(with_part_labels(hours))
    parts = with_ordinal_walls(with_plain_names(with_named_sections(with_lettered_extras(eights))))
    labelled = with_listed_parts(with_section_labels(parts, worded=True))
    keyed = with_keys(with_half_signs(with_count_signs(labelled), fills))
    lines = with_wall_words(_listed(with_bars_told(with_places_apart(with_sides(with_feet_met(keyed.lines))))))
    return replace(keyed, lines=lines)


def _listed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with lists of walls told in sentences; the sheet's names for its extras stand in lists too."""
    named = with_section_labels(with_labelled_walls(with_nicknames(lines)))
    told = with_listed_walls(named)
    return told if told != tuple(named) else with_listed_walls(with_section_labels(with_labelled_walls(lines)))
