"""The facts of a sheet's head in the words of different teachers."""

from fractions import Fraction

import pytest

from trainer.sheet.prose.order.told import Facts, header_facts
from trainer.sheet.prose.text.tokens import lines_of


def facts_of(text: str) -> Facts:
    return header_facts([line for line in lines_of(text) if line])


# Words, the field they state, its value, what is particular about them. Common practice, no source.
STATED = [
    ("32 ct, 4 W, beg", "counts", 32, "shorthand"),
    ("Wall: 4 - Counts: 32 - Level: Beg.", "counts", 32, "a dash before the next key"),
    ("Wall(s): 4 Count(s): 32", "counts", 32, "keys with a plural in brackets"),
    ("No. of counts 32, no. of walls 4", "counts", 32, "numbers of both"),
    ("Counts/Walls: 32/4", "counts", 32, "both keys before both numbers"),
    ("C: 32 W: 4 L: Beginner", "counts", 32, "letters for keys"),
    ("Saffron Row 32/4", "counts", 32, "behind the title"),
    ("Part 2 (8 counts)", "counts", None, "the length of a section"),
    ("Set 1 - walks and rocks - 8 counts", "counts", None, "the same behind its name"),
    ("Wall(s): 4 Count(s): 32", "walls", 4, "a key with a plural in brackets"),
    ("4 wall 16 count", "walls", 4, "before the counts, no mark between"),
    ("4W/16C Beginner", "walls", 4, "letters"),
    ("24c / 4w / beginner waltz", "walls", 4, "letters between slashes"),
    ("Wall: 1 (contra possible). Count: 16", "walls", 1, "a bracket behind it"),
    ("Number of walls | 4", "walls", 4, "in a cell of its own"),
    ("Wall: 2 (12:00 & 6:00)", "walls", 2, "where they face behind it"),
    ("Counts/Walls: 32/4", "walls", 4, "both keys before both numbers"),
    ("Slack Water (32, 2w, advanced, rolling 8-count: 1 2a 3 4a)", "counts", 32, "eight only names how it is counted"),
    ("64 counts  //  4 walls", "counts", 64, "between slashes"),
    ("32c / 4w / high beginner", "counts", 32, "a letter glued to the number"),
    ("Count: 40 (5 x 8)  //  Wall count: 4", "counts", 40, "count before its number, beside a wall count"),
    ("Ironstone (40/4/improver) wt L, in on 32", "counts", 40, "numbers between slashes in brackets"),
    ("This is an easy two wall dance in thirty-two counts.", "counts", 32, "in words"),
    ("4-wall line dance of 32 counts", "counts", 32, "after the walls"),
    ("forty-eight... no, 32 counts", "counts", 32, "taken back"),
    ("48 count waltz, starts after 24 counts", "counts", 48, "the wait is no length"),
    ("Wait 16 counts.", "counts", None, "a wait alone"),
    ("A waltz in sixteen bars (48 counts); enter after eight bars (24 counts).", "counts", 48, "bars of the dance"),
    ("A waltz in sixteen bars (48 counts); enter after eight bars (24 counts).", "wait", 24, "bars of the wait"),
    ("A waltz in 48 counts. Enter after eight bars.", "wait", 24, "bars alone"),
    ("32 counts. Commence after four bars.", "wait", 16, "bars of four"),
    ("32 counts in four rows. Set off after 16 counts.", "wait", 16, "another word for a start"),
    ("Part A has 32 counts, Part B has 16 counts.", "counts", None, "lengths of parts"),
    ("Two lines, each of eight counts, and four walls", "counts", None, "the length of a line"),
    ("Intro: 32 counts. Tag: 4 counts.", "counts", None, "neither intro nor tag"),
    ("32 ct, 4 W, beg", "walls", 4, "shorthand"),
    ("48 counts / 2 walls / waltz time", "walls", 2, "before a slash"),
    ("Wall count: 4", "walls", 4, "a wall count"),
    ("Walls: 2", "walls", 2, "a key"),
    ("Count 32 - Wall 4 - Level high beginner", "walls", 4, "a key before another, the count before it"),
    ("Wall 4 / Count 48", "walls", 4, "a key before the count"),
    ("We turn one wall to the left each time.", "walls", None, "how far a wall turns"),
    ("RIGHT foot has the weight, LEFT one starts", "starts", "R", "the one that starts is free"),
    ("Wall 4 / Count 48", "counts", 48, "behind the walls"),
    ("Wall 2, counts 17-24: rocks", "walls", None, "counts of a wall that is named"),
    ("two wall dance", "walls", 2, "in words"),
    ("The facings are those of wall one", "walls", None, "a wall that is named"),
    ("(40/4/improver)", "walls", 4, "the second of the numbers"),
    ("partner-free, four directions", "walls", 4, "directions"),
    ("one-wall, advanced", "walls", 1, "one wall"),
    ("Restart on wall 3 after 16 counts", "walls", None, "a wall's number says nothing of how many there are"),
    ("16 ct in", "wait", 16, "in"),
    ('Tune "Apples for the Asking": wait 16 counts.', "wait", 16, "wait"),
    ("you stand still for 32 counts, weight on L", "wait", 32, "standing still"),
    ("There is a sixteen count wait.", "wait", 16, "in words before the wait"),
    ("begins after 24 counts", "wait", 24, "begins after"),
    ("We let sixteen counts go by", "wait", 16, "let go by"),
    ("let sixteen counts go by and begin", "counts", None, "what goes by is no length"),
    ("let eight bars (24 counts) go by", "wait", 24, "bars with their counts"),
    ("Weight on the left, go after 16.", "wait", 16, "go after"),
    ("32c intro", "wait", 32, "before intro"),
    ("Intro: 36 counts", "wait", 36, "after intro"),
    ("Dance starts on vocals (32 counts)", "wait", 32, "in brackets"),
    ("Start on count 17, left foot carries you.", "wait", 16, "the count started on is not waited"),
    ("16 counts after the bells", "wait", 16, "from the bells on"),
    ("Intro: 8 counts then the danced intro (16 counts), then go.", "wait", 8, "the danced intro is not waited"),
    ("Before you start: 16 counts of music, feet together", "wait", 16, "of music"),
    ("24 count lead-in", "wait", 24, "lead-in"),
    ("in on 32", "wait", 32, "in on"),
    ("Length 32 | Walls 4 | Lead 16 counts", "wait", 16, "a lead"),
    ("Length 32 | Walls 4 | Lead 16 counts", "counts", 32, "a lead is no length"),
    ("Vamp 16 counts. Dance 32 counts.", "counts", 32, "a vamp is no length"),
    ("Size 32 / run-up 16 counts", "wait", 16, "a run-up"),
    ("Music starts: 16 counts", "wait", 16, "music starts"),
    ("16 counts of lead, 32 counts to the wall", "wait", 16, "of lead"),
    ("lead-in 4 bars", "wait", 16, "bars of a lead-in"),
    ("right foot lead, 32 counts", "wait", None, "a foot leads"),
    ("32/4, lead of 16 counts", "counts", 32, "numbers before a comma"),
    ("length 32, walls 4, lead 8", "walls", 4, "before a comma"),
    ("Restart on walls 2, 4 and 6", "walls", None, "walls that are listed"),
    ("Intro: 8 bars", "wait", 32, "bars of four"),
    ("2 x 8 count intro", "wait", 16, "eights"),
    ("No intro, starts straight away", "wait", 0, "none"),
    ("How to dance it: Intro (4), A, B, A, B", "wait", None, "a danced intro in the order"),
    ("Wait 15 seconds", "wait", None, "seconds are no counts"),
    ("Intro: 16 counts from the first drum", "wait_from", "from the first drum", "from where"),
    ("Start on vocals, 32 counts in", "wait_from", "on vocals", "on the vocals"),
    ("wt on LF to start", "starts", "L", "wt and LF"),
    ("Right foot free", "starts", "L", "the free foot"),
    ("Left foot free at the start", "starts", "R", "the free foot, left"),
    ("LF has the weight", "starts", "L", "has the weight"),
    ("left foot carries you", "starts", "L", "carries you"),
    ("Weight starts on left. Intro 16.", "starts", "L", "starts on is not the first step"),
    ("Begin with the right foot.", "starts", "L", "the first step"),
    ("Start on your left foot", "starts", "R", "the first step, left"),
    ("Start with weight on the right!", "starts", "R", "start and weight in one"),
    ("Feet together, weight on the left.", "starts", "L", "feet together"),
    ("right foot free?? no - left foot free, so weight right", "starts", "R", "taken back"),
    ("Left foot takes your weight.", "starts", "L", "takes your weight"),
    ("R foot lead", "starts", "L", "lead"),
    ("40/4/improver, wt L", "starts", "L", "no preposition"),
    ("Weight even on both feet", "starts", "B", "both"),
    ("104 bpm", "tempo", Fraction(104), "bpm after its number"),
    ("BPM: 97.5", "tempo", Fraction(195, 2), "a decimal"),
    ("Tempo about 112", "tempo", Fraction(112), "tempo"),
    ("music at 120 beats per minute", "tempo", Fraction(120), "in words"),
    ("waltz time", "time", "3/4", "waltz"),
    ("24 counts, 4 walls, 3/4.", "time", "3/4", "as a fraction"),
    ("3/4 turn left at the end", "time", None, "a turn is no time"),
    ("NC2 (rolling count)", "feel", "rolling", "rolling"),
    ("32 ct, 4 W, beg", "level", "beginner", "short for beginner"),
    ("comfortable intermediate", "level", "comfortable intermediate", "with an adjective"),
    ("beginner/improver", "level", "beginner/improver", "two levels"),
    ("level: easy intermediate", "level", "easy intermediate", "a key"),
    ("a phrased dance for the Thursday intermediates", "level", "intermediate", "as a word of people"),
    ("easy option: no turn", "level", "", "an option is no level"),
    ("A (32), B (16), C (8)", "part_counts", (("A", 32), ("B", 16), ("C", 8)), "in brackets"),
    ("A = 32, B = 16, T = tag 8", "part_counts", (("A", 32), ("B", 16)), "by equals"),
    ("A: 16 counts. B: 16 counts. C: 8 counts.", "part_counts", (("A", 16), ("B", 16), ("C", 8)), "by colons"),
    ("A and B have sixteen counts and C only eight", "part_counts", (("A", 16), ("B", 16), ("C", 8)), "of several"),
    ("16 counts in A and 8 in B", "part_counts", (("A", 16), ("B", 8)), "before the parts"),
    ("Phrased: verse 32, chorus 16", "part_counts", (("Verse", 32), ("Chorus", 16)), "of a song"),
    ("two parts of 24 and 12 counts", "part_counts", (("A", 24), ("B", 12)), "without names"),
    ("three parts of 16 counts each", "part_counts", (("A", 16), ("B", 16), ("C", 16)), "one for all"),
    ("16 + 8, phrased, weight left", "part_counts", (("A", 16), ("B", 8)), "a sum"),
    ("A = 4 x 8, B = 2 x 8", "part_counts", (("A", 32), ("B", 16)), "in eights"),
    ("a 32 count dance, 16 counts in", "part_counts", (), "no part is named"),
    ('danced to "Beechwood", in on the word "avenue"', "tune", "Beechwood", "in quotes"),
    ("tune = Crumbs on the Counter (16 ct in)", "tune", "Crumbs on the Counter", "without quotes"),
    ("Music: 16 counts after the bells.", "tune", "", "a wait is no tune"),
    ("Pebble Dash by the Tuesday crew -- partner-free", "by", "the Tuesday crew", "after the title"),
    ("Lamp Lane\nChoreographer: Ida Quay", "by", "Ida Quay", "on a line of its own"),
    ("Choreo for a high improver floor", "by", "", "for whom is not by whom"),
    ("Weight on left. Next wall starts where the last stopped.", "starts", "L", "the end of a word is no foot"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "field", "value", "reason"), STATED)
def test_a_fact_of_the_head(text: str, field: str, value: object, reason: str) -> None:
    assert getattr(facts_of(text), field) == value, reason


TITLES = [
    ("BISCUIT TIN STOMP -- 32 ct, 4 W, beg", "BISCUIT TIN STOMP", "before dashes"),
    ("Windfall Lane\na phrased dance", "Windfall Lane", "a line of its own"),
    ("~ SLOW RIVER WALTZ ~", "SLOW RIVER WALTZ", "between marks"),
    ("##  STOVEPIPE BOOGIE  ##", "STOVEPIPE BOOGIE", "between other marks"),
    ("Pebble Dash by the Tuesday crew -- four directions", "Pebble Dash", "before by"),
    ('Dear all, here is "Gooseberry Lane", 32 counts, two walls', "Gooseberry Lane", "in quotes in a sentence"),
    ("* * *  N E T T L E   S O U P  * * *", "NETTLE SOUP", "spaced letters"),
    ("Foxglove Waltz . 48 counts . 4 walls", "Foxglove Waltz", "before full stops"),
    ("Clover Hop (32 counts, 4 walls)", "Clover Hop", "before a bracket"),
    ("Thistle & Rye, an A-B-C dance by the harbour class", "Thistle & Rye", "before a comma"),
    ("Nightjar - 32 ct - 2 W", "Nightjar", "before a dash"),
    ("Marrow & Thyme", "Marrow & Thyme", "an ampersand"),
    ("FERRY BELL WALTZ                level: easy intermediate", "FERRY BELL WALTZ", "before a wide gap"),
    ("Title: Lamp on the Pier", "Lamp on the Pier", "a key"),
    ("Down, Down the Lane\n32 counts", "Down, Down the Lane", "a comma inside"),
    ("Half-Tide Hop", "Half-Tide Hop", "a hyphen inside"),
    ("Miss Tern's School of Dance - Evening Class\nTHE BOAT SHED\nIn two parts", "THE BOAT SHED", "below a club"),
    ("The Thursday Circle presents\nLamp over the Shed\n32 counts", "Lamp over the Shed", "below who presents it"),
    ("Club Soda\n32 counts, 4 walls", "Club Soda", "a club that is no club"),
    ("| step | ct |\n| **Gravel Drive** 32c 1w |", "Gravel Drive", "below a table's head"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "title", "reason"), TITLES)
def test_the_title(text: str, title: str, reason: str) -> None:
    assert facts_of(text).title == title, reason


def test_a_fact_says_where_it_stands() -> None:
    facts = facts_of("Lamp Lane\n32 counts, 4 walls")
    assert (facts.counts_span, facts.walls_span) == ((2, 1, 2), (2, 12, 1))


def test_no_lines_state_nothing() -> None:
    assert header_facts([]) == Facts()
