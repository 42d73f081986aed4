"""The words in which teachers tell the order of walls, each with the letter that stands for its kind in `order_grammar.py`.

A word that is in no list is `?`, one that speaks of steps `m`. Words that change nothing ("the", "your", "just") are left
out before phrases are looked up.
"""

from trainer.dance.figures import moves

NUMBERS = {
    word: number
    for number, word in enumerate(
        [
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
            "twenty",
        ]
    )
} | {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100}
ORDINALS = {
    word: number
    for number, word in enumerate(
        [
            "first",
            "second",
            "third",
            "fourth",
            "fifth",
            "sixth",
            "seventh",
            "eighth",
            "ninth",
            "tenth",
            "eleventh",
            "twelfth",
            "thirteenth",
            "fourteenth",
            "fifteenth",
            "sixteenth",
            "seventeenth",
            "eighteenth",
            "nineteenth",
            "twentieth",
        ],
        1,
    )
}
ROMAN = {"i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7, "viii": 8, "ix": 9, "x": 10}
TEENS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")

FILLERS = frozenset(
    [
        "the",
        "a",
        "an",
        "your",
        "you",
        "you'll",
        "you're",
        "we",
        "we'll",
        "our",
        "this",
        "that",
        "these",
        "those",
        "there",
        "there's",
        "it",
        "it's",
        "its",
        "which",
        "who",
        "will",
        "be",
        "is",
        "are",
        "was",
        "should",
        "would",
        "must",
        "can",
        "have",
        "has",
        "simply",
        "please",
        "now",
        "so",
        "very",
        "also",
        "both",
        "respectively",
        "approx",
        "about",
        "exactly",
        "immediately",
        "just",
        "been",
        "being",
        "get",
        "gets",
        "got",
        "always",
        "actually",
        "already",
    ]
)

_PHRASES = {
    "R": "restart|restarts|restarted|restarting|re - start|re - starts|re start|rs|rst|start again|starts again|start over|start anew|"
    "start afresh|start over again|begin again|begins again|begin anew|begin over|begin dance again|begin afresh|"
    "start dance again|start dance over|start dance from beginning|start from top|start from beginning|"
    "start from start|begin from top|begin from beginning|begin from start|from top|from beginning|from start|"
    "from very beginning|back to top|back to start|back to beginning|back to count 1|back to count one|from count 1|"
    "from count one|start from count 1|start from count one|start at count 1|start with count 1|go back to count 1|"
    "go to count 1|start from scratch|from scratch|recommence|recommences|start next wall|begin next wall|start new wall|"
    "begin new wall|start wall again|start from section 1|begin count 1|start at beginning|start at top|back to square one|"
    "start fresh|begin fresh|starting again|beginning again|starting over|starting from top|go from top|take it from top|"
    "start of dance again|back to beginning of dance|go back to beginning|go back to start|go back to top",
    "T": "tag|tags|t a g|add on|add - on|t / r",
    "G": "bridge|bridges",
    "H": "hold|holds|holding|pause|pauses|wait|waits|freeze|stand still|stay still|break of|pause of|stop and wait",
    "X": "last one|ending|finale|outro|coda|finish|big finish|grand finish|end pose|big ending|to finish|to end|to end dance|"
    "to finish dance|end of dance|end of song|end of music|end of track|finishing",
    "Q": "stop|stops|stopping|ends|finishes|finished|end dance|dance ends|dance finishes|finish dance|music ends|"
    "music stops|music runs out|music finishes",
    "J": "continue|continues|continuing|carry on|carries on|carrying on|go on|goes on|going on|keep going|keep dancing|resume|"
    "resumes|proceed|pick up|pick it up|as normal|as usual|as written|as before|as if nothing|on as normal|rest of dance|"
    "remainder of dance|rest of wall|remainder of wall|finish wall|complete wall",
    "M": "replace|replaces|replacing|replaced|change|changes|changing|changed|substitute|swap|swapping|exchange|modify|modified|"
    "step change|change of step|change of steps|change step|change steps",
    "V": "instead of|in place of|rather than",
    "b": "become|becomes|turn into|turns into|instead",
    "K": "leave out|leave off|leaving out|leaving off|omit|omits|omitting|skip|skips|skipping|drop last|dropping|miss out|missing out|miss off|"
    "missing off|cut|cut off|cut out|minus|all but|except|except for|lose|losing|cutting",
    "N": "no|none|not|without|nil|never|neither|nor|n / a|don't|zero",
    "D": "dance|dances|danced|dancing|do|does|doing|perform",
    "A": "after|following|on completion of|upon completion of|having danced|after finishing|after completing|after dancing|completing|"
    "when have danced|at finish of|after having danced|just after|right after|straight after|immediately after|once danced",
    "E": "end of|at end of|by end of|at very end of|at end|to end of|until end of|up to end of|through end of|finish of|at close of|"
    "on end of|end",
    "B": "before|prior to|just before|right before|ahead of|shy of|going into|before start|before starting|before begin|before "
    "beginning|before start of|before going into|before beginning of",
    "O": "beginning of|at beginning of|start of|at start of|at very start of|to start of",
    "Z": "between|in between",
    "U": "up to|until|till|to|through|thru|as far as|up to and including|to and including|up until|till end of",
    "j": "into|in to",
    "I": "in|on|during|of|within|at|from|with|for|while dancing|in middle of|by|upon|midway through",
    "y": "begins|begin|starts|start|starting|started|beginning|begun|commences|commencing|commence|started facing|begins facing",
    "Y": "facing|face|faces|looking|look|looks|see|sees|faced|turned|towards",
    "w": "wall",
    "W": "walls",
    "t": "time|times|repetition|repetitions|rotation|rotations|round|rounds|pass|passes|run through|run - through|rep|reps|"
    "go|turn through",
    "c": "count|counts|ct|cts|c|beat|beats|bts|cnt|cnts|cs|ct s|counts only",
    "s": "section|sections|sec|secs|sect|sects|s|set|sets|block|blocks|figure|figures|phrase|phrases|eights|sequence of eight|"
    "set of eight|set of 8|8 count section|verse section",
    "L": "last|final|closing",
    "a": "all|whole|full|entire|complete|completely|in full|whole dance|full wall|whole wall|entire wall|complete wall|all of it|"
    "whole thing|entire dance|full dance",
    "h": "half|half way|halfway|half way through|halfway through|half - way|midway",
    "@": "here|at point|to point|from here",
    "v": "every|each|any",
    "l": "order|sequence|plan|play|pattern|phrasing|how to dance it|running order|play list|playlist|structure|map|road map|layout",
    "&": "and|plus|as well as|along with|together with",
    ">": "then|and then|followed by|add|adds|adding|added|insert|inserting|inserted|put in|do following|dance following|use|doing|but",
    "k": "twice|two times|2 times|x 2|x2|double",
    "o": "other|alternate|alternating|odd|even|odd - numbered|even - numbered|odd numbered|even numbered",
    "i": "intro|introduction|intro dance|danced intro",
    "S": "short",
    "u": "only",
    "": "again",
}

PHRASES: dict[tuple[str, ...], str] = {
    tuple(phrase.split()): kind for kind, phrases in _PHRASES.items() for phrase in phrases.split("|")
}
LONGEST = max(map(len, PHRASES))

_FIGURE_WORDS = frozenset(
    [
        "right",
        "left",
        "r",
        "l",
        "rf",
        "lf",
        "foot",
        "feet",
        "forward",
        "fwd",
        "back",
        "bk",
        "side",
        "tog",
        "together",
        "cross",
        "crossing",
        "xover",
        "over",
        "behind",
        "beside",
        "close",
        "shuffle",
        "shuf",
        "triple",
        "coaster",
        "sailor",
        "vine",
        "grapevine",
        "weave",
        "jazz",
        "box",
        "rocking",
        "chair",
        "rumba",
        "mambo",
        "monterey",
        "paddle",
        "chasse",
        "chassé",
        "strut",
        "struts",
        "hip",
        "hips",
        "heel",
        "heels",
        "toe",
        "toes",
        "knee",
        "knees",
        "shoulder",
        "weight",
        "wt",
        "steps",
        "stepping",
        "stepped",
        "stomping",
        "rocking",
        "touching",
        "pointing",
        "kicking",
        "bumping",
        "swaying",
        "walking",
        "clapping",
        "tch",
        "stp",
        "piv",
        "turning",
        "full",
        "¼",
        "½",
        "¾",
        "quarter",
        "out",
        "home",
        "sways",
        "bumps",
        "claps",
        "stomps",
        "claps",
        "steps",
        "walks",
        "rocks",
        "touches",
        "kicks",
        "points",
        "v",
        "k",
        "charleston",
        "lock",
        "cha",
        "basic",
        "roll",
        "rolls",
        "vines",
        "twinkle",
        "arms",
        "arm",
        "hand",
        "hands",
        "head",
        "pose",
        "bow",
        "lift",
        "raise",
        "snap",
        "snaps",
        "click",
        "clicks",
        "strike",
        "scissor",
        "scissors",
        "switch",
        "switches",
        "jump",
        "jumps",
        "hop",
        "cross-rock",
        "circle",
        "slow",
        "shimmies",
    ]
)
STEP_WORDS: frozenset[str] = _FIGURE_WORDS | {
    word for row in moves().values() for name in row.words for word in name.split()
}
"""Words that speak of steps: the names of moves, feet, directions."""

WAY_WORDS = frozenset({"right", "left", "back", "front", "home", "rear", "side"})
