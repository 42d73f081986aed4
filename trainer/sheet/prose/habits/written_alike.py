"""A sheet's own ways of writing told in one way, before its page is read: labels, rows, keys, lists of walls.

Each stage here stands for a habit that is known from the lines alone; it rewrites the tokens, keeping their places, and
leaves lines that it does not know as they are. What needs guesses that are priced is left to the views.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.bracketed_hours import with_bracketed_hours
from trainer.sheet.prose.facing.landmarks import with_landmarks
from trainer.sheet.prose.facing.own_marks import with_lettered_hours
from trainer.sheet.prose.facing.parts_faced import with_faced_parts
from trainer.sheet.prose.facing.walls_from_to import with_walls_from_to
from trainer.sheet.prose.facing.ways_told import with_ways_told
from trainer.sheet.prose.habits.again_noted import without_again_noted
from trainer.sheet.prose.habits.ands_in_sentences import with_ands_in_sentences
from trainer.sheet.prose.habits.answered_no import without_questions_answered_no
from trainer.sheet.prose.habits.answered_yes import with_answers_told
from trainer.sheet.prose.habits.asides import without_asides
from trainer.sheet.prose.habits.asked_of_sections import with_asked_sections
from trainer.sheet.prose.habits.bars_counted import with_bars_counted_on
from trainer.sheet.prose.habits.bars_numbered import with_bars_numbered
from trainer.sheet.prose.habits.bars_told import with_bars_told
from trainer.sheet.prose.habits.cards_numbered import with_cards_unnumbered
from trainer.sheet.prose.habits.changes_headed import with_headed_changes
from trainer.sheet.prose.habits.changes_named import with_named_changes
from trainer.sheet.prose.habits.chapters_numbered import without_chapter_numbers
from trainer.sheet.prose.habits.count_rows import with_count_rows
from trainer.sheet.prose.habits.count_signs import with_count_signs
from trainer.sheet.prose.habits.counted_rows_named import with_counted_rows_unnamed
from trainer.sheet.prose.habits.counts_behind_dashes import with_dashed_counts_bracketed
from trainer.sheet.prose.habits.counts_behind_rows import with_counts_before_rows
from trainer.sheet.prose.habits.counts_by_section import with_counts_by_section
from trainer.sheet.prose.habits.counts_faced import with_counts_and_facings_parted
from trainer.sheet.prose.habits.counts_in_last_cell import with_last_counts_first
from trainer.sheet.prose.habits.counts_lasted import with_counts_lasted
from trainer.sheet.prose.habits.counts_lettered import with_lettered_counts
from trainer.sheet.prose.habits.counts_named import with_counts_named_no_more
from trainer.sheet.prose.habits.counts_on_words import with_counts_on_words
from trainer.sheet.prose.habits.counts_reached import with_counts_reached
from trainer.sheet.prose.habits.counts_replaced import with_counts_replaced
from trainer.sheet.prose.habits.counts_within_ranges import with_counts_within_ranges
from trainer.sheet.prose.habits.crosses_signed import with_crosses_written
from trainer.sheet.prose.habits.cues import without_cues
from trainer.sheet.prose.habits.denials import with_denials
from trainer.sheet.prose.habits.described_extras import with_described_extras
from trainer.sheet.prose.habits.dots_between import with_dots_between
from trainer.sheet.prose.habits.each_length import with_each_length
from trainer.sheet.prose.habits.eights_in_rows import with_eights_in_rows
from trainer.sheet.prose.habits.eights_numbered import with_eights_numbered
from trainer.sheet.prose.habits.eights_untold import with_eights_untold
from trainer.sheet.prose.habits.ends_behind_walls import with_ends_before_walls
from trainer.sheet.prose.habits.ends_labelled import with_ends_labelled
from trainer.sheet.prose.habits.ends_named import with_ends_named
from trainer.sheet.prose.habits.extra_labels import with_extra_labels
from trainer.sheet.prose.habits.extras_again import with_extras_again
from trainer.sheet.prose.habits.extras_among_parts import with_extras_among_parts
from trainer.sheet.prose.habits.extras_by_name import with_extras_by_name
from trainer.sheet.prose.habits.extras_headed import with_extras_headed
from trainer.sheet.prose.habits.extras_initialled import with_extras_spelled_out
from trainer.sheet.prose.habits.extras_labelled import with_extras_labelled
from trainer.sheet.prose.habits.facings_at_counts import with_facings_at_counts
from trainer.sheet.prose.habits.feet_apart import with_feet_apart
from trainer.sheet.prose.habits.feet_behind_rows import with_feet_before_rows
from trainer.sheet.prose.habits.feet_met import with_feet_met
from trainer.sheet.prose.habits.feet_set import with_feet_placed
from trainer.sheet.prose.habits.footnotes import with_footnotes
from trainer.sheet.prose.habits.forms_filled import with_forms_told
from trainer.sheet.prose.habits.forms_shortened import with_short_forms_of_parts
from trainer.sheet.prose.habits.half_closings import with_half_closings
from trainer.sheet.prose.habits.half_labels import with_half_labels
from trainer.sheet.prose.habits.half_signs import with_half_signs
from trainer.sheet.prose.habits.halves_by_rows import with_halves_by_rows
from trainer.sheet.prose.habits.heels_crossed import with_heels_crossed
from trainer.sheet.prose.habits.holds_headed import with_holds_headed
from trainer.sheet.prose.habits.hours_abroad import with_hours_from_abroad
from trainer.sheet.prose.habits.hours_begun import with_hours_begun
from trainer.sheet.prose.habits.hours_in_turn import with_hours_in_turn
from trainer.sheet.prose.habits.initialled_sections import with_initialled_sections
from trainer.sheet.prose.habits.intros_again import with_intros_again
from trainer.sheet.prose.habits.intros_apart import with_intros_apart
from trainer.sheet.prose.habits.items_called import with_items_called
from trainer.sheet.prose.habits.labels_stopped import with_labels_of_rows, with_labels_stopped, with_steps_in_a_row
from trainer.sheet.prose.habits.last_part_ends import with_last_part_ended
from trainer.sheet.prose.habits.lengths_bare import with_lengths_told
from trainer.sheet.prose.habits.lengths_beside import with_no_lengths_beside
from trainer.sheet.prose.habits.lengths_led import with_lengths_led
from trainer.sheet.prose.habits.lengths_listed import with_lengths_listed
from trainer.sheet.prose.habits.lengths_within import with_lengths_within
from trainer.sheet.prose.habits.lettered_eights import with_lettered_eights
from trainer.sheet.prose.habits.lettered_extras import with_lettered_extras
from trainer.sheet.prose.habits.letters_behind_names import with_letters_before_names
from trainer.sheet.prose.habits.lists_headed import without_heads_of_lists
from trainer.sheet.prose.habits.names_before_counts import with_names_of_counts
from trainer.sheet.prose.habits.nicknames import with_nicknames
from trainer.sheet.prose.habits.numbers_wrapped import with_numbers_at_their_nouns
from trainer.sheet.prose.habits.occasions_counted import with_occasions_named
from trainer.sheet.prose.habits.options_apart import with_options_apart
from trainer.sheet.prose.habits.orders_numbered import without_order_numbers
from trainer.sheet.prose.habits.ordinals_written import with_ordinals
from trainer.sheet.prose.habits.part_labels import with_part_labels
from trainer.sheet.prose.habits.part_ranges import with_part_ranges
from trainer.sheet.prose.habits.parts_by_any_name import with_parts_by_any_name
from trainer.sheet.prose.habits.parts_by_ordinals import with_parts_by_ordinals
from trainer.sheet.prose.habits.parts_called import with_called_parts
from trainer.sheet.prose.habits.parts_first import with_parts_first
from trainer.sheet.prose.habits.parts_headed import with_headed_parts
from trainer.sheet.prose.habits.parts_in_a_list import with_listed_names
from trainer.sheet.prose.habits.parts_in_other_letters import with_usual_letters
from trainer.sheet.prose.habits.parts_like_extras import with_parts_not_extras
from trainer.sheet.prose.habits.parts_narrated import with_narrated_parts
from trainer.sheet.prose.habits.parts_opened import with_opened_parts
from trainer.sheet.prose.habits.parts_spoken_of import with_parts_spoken_of
from trainer.sheet.prose.habits.places_changed import with_places_apart
from trainer.sheet.prose.habits.plain_names import with_plain_names
from trainer.sheet.prose.habits.plays_footnoted import with_plays_footnoted
from trainer.sheet.prose.habits.plays_in_heads import with_play_in_heads
from trainer.sheet.prose.habits.plays_in_tables import with_plays_in_tables
from trainer.sheet.prose.habits.plays_numbered import with_plays_unnumbered
from trainer.sheet.prose.habits.plays_timed import with_plays_untimed
from trainer.sheet.prose.habits.pointed_counts import with_pointed_counts
from trainer.sheet.prose.habits.range_titles import with_ands_in_titles
from trainer.sheet.prose.habits.ranges_over_counts import with_ranges_over_counts
from trainer.sheet.prose.habits.referred_to import without_references
from trainer.sheet.prose.habits.restarts_listed import with_restarts_listed
from trainer.sheet.prose.habits.rhythms_behind import with_rhythms_before
from trainer.sheet.prose.habits.rows_called import with_rows_called
from trainer.sheet.prose.habits.rows_numbered import without_row_numbers
from trainer.sheet.prose.habits.scripted import without_script
from trainer.sheet.prose.habits.section_labels import with_section_labels
from trainer.sheet.prose.habits.sections_again import with_sections_again
from trainer.sheet.prose.habits.sections_by_led_numbers import with_sections_by_led_numbers
from trainer.sheet.prose.habits.sections_by_nouns import with_sections_by_nouns
from trainer.sheet.prose.habits.sections_by_number import with_sections_by_number
from trainer.sheet.prose.habits.sections_by_ordinals import with_sections_by_ordinals
from trainer.sheet.prose.habits.sections_by_signs import with_signed_sections
from trainer.sheet.prose.habits.short_parts_headed import with_short_parts_told
from trainer.sheet.prose.habits.shortened_words import with_whole_words
from trainer.sheet.prose.habits.sides_of_the_room import with_sides_once
from trainer.sheet.prose.habits.sides_told import with_sides
from trainer.sheet.prose.habits.signed_counts import with_signed_counts_named
from trainer.sheet.prose.habits.slashed_counts import with_slashed_counts
from trainer.sheet.prose.habits.slow_and_quick import with_slow_and_quick
from trainer.sheet.prose.habits.song_words import with_song_words
from trainer.sheet.prose.habits.steps_in_place import with_steps_in_place
from trainer.sheet.prose.habits.stretches_apart import with_stretches_apart
from trainer.sheet.prose.habits.strokes_explained import without_strokes_explained
from trainer.sheet.prose.habits.sums_told import with_sums_told
from trainer.sheet.prose.habits.tags_lettered import with_tags_told
from trainer.sheet.prose.habits.talk import with_talk_told
from trainer.sheet.prose.habits.thens_joined import with_thens_joined
from trainer.sheet.prose.habits.tips import without_tips
from trainer.sheet.prose.habits.title_words import with_title_apart
from trainer.sheet.prose.habits.titles_again import with_titles_again
from trainer.sheet.prose.habits.turns_behind import with_turns_before_counts
from trainer.sheet.prose.habits.waits_danced import with_waits_danced
from trainer.sheet.prose.habits.wall_words import with_wall_words
from trainer.sheet.prose.habits.walls_at_hours import with_walls_at_hours
from trainer.sheet.prose.habits.walls_by_ordinals import with_ordinal_walls
from trainer.sheet.prose.habits.walls_by_own_words import with_walls_by_own_words
from trainer.sheet.prose.habits.walls_counted import with_counted_walls
from trainer.sheet.prose.habits.walls_explained import without_walls_explained
from trainer.sheet.prose.habits.walls_faced_on import with_walls_faced_on
from trainer.sheet.prose.habits.walls_in_tables import with_walls_numbered
from trainer.sheet.prose.habits.walls_meant import with_walls_meant
from trainer.sheet.prose.habits.walls_numbered import with_rows_told, without_wall_numbers
from trainer.sheet.prose.habits.weights_behind import with_weights_before_counts
from trainer.sheet.prose.habits.worded_sections import with_worded_sections
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.keys.finding import Keyed, with_keys
from trainer.sheet.prose.listings.labels import with_labelled_walls
from trainer.sheet.prose.listings.listing import with_listed_walls
from trainer.sheet.prose.listings.parts_listed import with_listed_parts
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.plays.named_sections import with_named_sections
from trainer.sheet.prose.sayings.told_plainly import with_sayings
from trainer.sheet.prose.text.layout import Line, clean_lines

_Stage = Callable[[Sequence[Line]], Sequence[Line]]


def _listed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with lists of walls told in sentences; the sheet's names for its extras stand in lists too."""
    named = with_section_labels(with_labelled_walls(with_nicknames(lines)))
    told = with_listed_walls(named)
    return told if told != tuple(named) else with_listed_walls(with_section_labels(with_labelled_walls(lines)))


_OF_THE_PAGE: tuple[_Stage, ...] = (
    with_numbers_at_their_nouns,
    with_signed_sections,
    with_crosses_written,
    with_feet_placed,
    without_script,
    with_title_apart,
    with_ands_in_titles,
    with_ands_in_sentences,
    without_references,
    without_again_noted,
    with_holds_headed,
    with_ends_named,
    with_lettered_counts,
    with_plays_in_tables,
    with_short_parts_told,
    with_sides_once,
    with_extra_labels,
    with_names_of_counts,
    with_named_changes,
    with_headed_changes,
    with_walls_by_own_words,
    with_plays_untimed,
    with_play_in_heads,
    with_parts_not_extras,
    with_song_words,
    with_parts_by_any_name,
    with_listed_names,
    with_extras_spelled_out,
    with_short_forms_of_parts,
    with_plays_footnoted,
    with_waits_danced,
    with_extras_by_name,
    without_order_numbers,
    with_counts_replaced,
    without_walls_explained,
    with_walls_numbered,
    with_hours_begun,
    with_rows_told,
    with_hours_from_abroad,
    with_hours_in_turn,
    with_slashed_counts,
    with_pointed_counts,
    with_dashed_counts_bracketed,
    with_counts_by_section,
    with_dots_between,
    with_feet_apart,
    with_feet_before_rows,
    with_cards_unnumbered,
    without_chapter_numbers,
    with_asked_sections,
    with_intros_apart,
    with_usual_letters,
    with_parts_by_ordinals,
    with_extras_among_parts,
    with_letters_before_names,
    with_called_parts,
    with_narrated_parts,
    with_opened_parts,
    with_stretches_apart,
    with_forms_told,
    without_heads_of_lists,
    with_restarts_listed,
    with_ordinals,
    with_counted_walls,
    with_items_called,
    with_eights_numbered,
    with_sections_by_led_numbers,
    with_sections_by_number,
    with_sections_by_ordinals,
    with_worded_sections,
    with_rows_called,
    without_row_numbers,
    with_counts_on_words,
    with_counted_rows_unnamed,
    with_bars_numbered,
    with_bars_counted_on,
    with_last_counts_first,
    with_heels_crossed,
    with_parts_first,
    with_options_apart,
    with_talk_told,
    with_denials,
    lambda lines: without_tips(lines, is_order),
    without_cues,
)
"""What a page is without its talk; the notes below its steps are sought after that."""
_OF_ITS_COUNTS: tuple[_Stage, ...] = (
    with_counts_before_rows,
    with_bracketed_hours,
    with_facings_at_counts,
    with_extras_labelled,
    with_tags_told,
    with_labels_stopped,
    with_labels_of_rows,
    with_steps_in_a_row,
    with_intros_again,
    with_weights_before_counts,
    with_turns_before_counts,
    with_counts_reached,
    with_initialled_sections,
    with_headed_parts,
    with_last_part_ended,
    with_parts_spoken_of,
    without_questions_answered_no,
    with_answers_told,
    with_whole_words,
    with_rhythms_before,
    lambda lines: with_eights_in_rows(lines, fills),
    with_sums_told,
    lambda lines: with_lengths_led(lines, fills),
    with_lengths_within,
    with_no_lengths_beside,
    with_each_length,
    without_strokes_explained,
    without_wall_numbers,
    with_counts_named_no_more,
    with_counts_and_facings_parted,
    with_counts_lasted,
    with_slow_and_quick,
    with_count_rows,
    lambda lines: with_half_closings(lines, fills),
    with_half_labels,
    with_halves_by_rows,
    with_lettered_hours,
    with_walls_from_to,
    with_faced_parts,
    with_ends_labelled,
    with_ways_told,
    lambda lines: with_eights_untold(lines, fills),
    with_titles_again,
    with_sections_again,
    with_part_ranges,
    with_ranges_over_counts,
    with_counts_within_ranges,
    with_part_labels,
    with_lettered_eights,
    with_lettered_extras,
    with_described_extras,
    with_extras_headed,
    with_named_sections,
    with_plain_names,
    with_ordinal_walls,
    lambda lines: with_section_labels(lines, worded=True),
    with_listed_parts,
    with_signed_counts_named,
    with_count_signs,
    lambda lines: with_half_signs(lines, fills),
)
"""How it counts, labels and names; what its key explains is read with these told."""
_OF_ITS_WALLS: tuple[_Stage, ...] = (
    with_sections_by_nouns,
    with_ends_before_walls,
    with_walls_meant,
    with_occasions_named,
    with_landmarks,
    with_feet_met,
    with_sides,
    with_places_apart,
    with_bars_told,
    with_plays_unnumbered,
    with_walls_at_hours,
    with_lengths_listed,
    without_asides,
    with_steps_in_place,
    with_extras_again,
    with_lengths_told,
    with_thens_joined,
    with_sayings,
    _listed,
    with_wall_words,
    with_walls_faced_on,
)


def written_alike(text: str) -> Keyed:
    """Return a text's lines, told in the ways that the reader knows, and its keys."""
    page = _through(_OF_THE_PAGE, clean_lines(text))
    keyed = with_keys(_through(_OF_ITS_COUNTS, with_footnotes(text, page)))
    return replace(keyed, lines=tuple(_through(_OF_ITS_WALLS, keyed.lines)))


def _through(stages: Sequence[_Stage], lines: Sequence[Line]) -> Sequence[Line]:
    for stage in stages:
        lines = stage(lines)
    return lines
