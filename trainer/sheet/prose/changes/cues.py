"""The words with which teachers tell what is danced otherwise, as patterns over the plain words of a sentence.

What a pattern finds is blanked out with `~`, a sign for each letter, so that the places of the words stay true.
"""

import re

SECTION_WORD = r"(?:sections?|sec|sect|sets?|parts?|figures?|fig|lines?|eights?|phrases?|blocks?|rows?|s)"
SECTION = re.compile(
    rf"\b(?:the )?(?P<last>last|final) (?:{SECTION_WORD}|8) |"
    rf"\b(?:the )?(?P<th>\d) th (?:{SECTION_WORD}|8) |"
    rf"\b{SECTION_WORD} (?:\. )?(?:# )?(?P<n>\d) |"
    r"\[ (?P<letter>[a-h]) \] |\b(?:of|in|part|section|end of|after) (?P<of>[a-h]) (?!(?:step|big|touch|small|"
    r"stomp|quarter|half|right|left|rock|kick))|"
    r"(?:^|[,:] )(?P<alone>[a-h]) (?=becomes|is|are|:)|"
    r"\b(?:of|in|end of) \( (?P<bracket>\d) \) |(?<!\( )\b(?P<open>\d) \) |^(?P<word>[1-8]) (?=:)"
)
COUNTS = re.compile(
    r"\b(?:on |at |in |of |for |the )*(?:counts?|cts?|numbers?|no|nos|beats?) (?P<a>\d+) (?:(?:-|to|and|"
    r",) (?P<b>\d+) |& (?P<b2>\d+) )?(?:& )?|"
    r"(?P<c>\[ \d+ \]) (?:(?:to|-|and) (?P<d>\[ \d+ \]) )?|"
    r"^on (?P<on>\d+) (?=[,:])|(?<=replace )(?P<r>\d+) (?:(?:-|,|and|to|&) \d+ )+|"
    r"^(?:and |, )?(?P<e>\d+) (?:(?:-|to|and|&)? ?(?P<f>\d+) )?(?=(?:is|are|go|goes|become|becomes|only|:) |~)|"
    r"\bfrom (?P<g>\d+) on "
)
TH_COUNT = re.compile(r"\b(?:on |at )(?:the |its |very )*(?P<n>\d) th (?:count|beat) (?:of )?")
EDGE = re.compile(
    r"\b(?:on |at |of )*(?:the |its |very |for )*(?P<edge>last|final|1 th) (?P<n>\d+) (?:counts?|cts?|beats?|steps) |"
    r"\b(?:on |at )?(?:the |its |very )*(?P<one>last|final) (?:count|ct|beat) |"
    r"^(?:the )?(?P<last>last) (?P<m>\d+) (?=goes|is|are|become|:|$)|"
    r"\b(?P<end>at the (?:very )?end|finish (?!it)|finishing) ?"
)
LEAVE = re.compile(
    r"(?:, |& |and |then |, and |so )*(?:(?:you |we |that |can |to )*(?:restart|re - start)(?:s|ed|ing)?\b|"
    r"(?:you |we )?(?:begin|start|starts|begins)s? (?:again|over|anew|afresh|from the top|from the beginning)|"
    r"(?:start|begin) (?:wall|w) |go (?:right |straight |on )?(?:into|to) (?:wall|w) |"
    r"then (?:again )?from the (?:start|top|beginning)|quit\b|(?:then|now) (?:wall|w) \d)[^.;]*"
)
ONWARD = re.compile(
    r"(?:, |& |and |then |, and |only |but |so )*(?:carry on|go on|goes on|continue|keep going|pick it up|"
    r"move again|on as written|"
    r"(?:it's |you go )?straight (?:on )?to|"
    r"(?:all )?as (?:before|always|written|usual|normal|ever|in the steps)(?! (?:up )?to\b)|the rest (?:of|as|"
    r"is)|is normal|stays? as|so on to|on as)(?:\"[^\"]*\"|[^.;,:])*"
)
AS_EVER = re.compile(
    r"\b(?:dance|do|dancing) [^.;,]*? as (?:usual|written|ever|normal|always|before)|"
    r"(?:i \. e \. )?\b(?:you )?go (?:straight )?from [^.;]*|"
    r"(?:, )?(?:then )?[^,;.]* and so on[^.;]*|(?:, )?with holds on [^.;]*|^(?:the )?change (?:[a-z] )?(?=\W|"
    r"no|after|in)|^full but "
)
"""What is danced as ever."""
UPTO = re.compile(
    r"\b(?:dance|do) counts? \d+ (?:-|to) (?P<whole>\d+)(?=[^.;]*\bthen\b)|"
    r"\( (?:that is |which is |after )*counts? (?P<aside>\d+)(?: of [^()]*)? ?\) |"
    r"\b(?:dance |do |danced |goes |go |is danced )*(?:up )?(?P<how>to|after|as far as|"
    r"from) (?:the )?(?:end of )?(?:counts? |beats? )(?P<n>\d+) (?:& )?(?:on )?(?:\( [^()]* \) )?"
)
AGAIN = re.compile(r"\b(?:are |is )?(?:danced|done|repeated|repeat)s? (?:once more|again|twice|one more time)\b[^.;]*")
LIKEWISE = re.compile(
    r"\b(?:likewise|the same|same)\b (?:to|on|with|starting|beginning) (?:the )?(?:left|right|other|l|"
    r"r)\b[^.;]*|\bmirror\w*\b[^.;]*"
)
PAST = re.compile(
    r"(?:\bafter|\bto|\bas far as|\bdo|\bdance|\bdanced|\bbetween|\bend of|\bonly) (?:the )?(?:end of )?(?:the )?$"
)
PARTED = re.compile(
    r"(?:(?:, |; |: )(?:and |then |but )*|\b(?:and |then |but )+)(?=(?:the )?\d th (?:line|section|eight|row|"
    r"set) (?:starts|is|goes|begins|does|has)\b|"
    r"(?:on )?counts? \d+ (?:(?:-|to|and|&) \d+ )?(?!(?:of|in|on|\.|,))|\d+ (?:(?:-|to|and|"
    r"&) )?(?:\d+ )?(?:is|are|goes|go|becomes?) |the last hold |change the )"
)
"""Where a sentence begins to tell of another place."""
ELSEWHERE = re.compile(r"\bsee (?:bottom|below|above|the|in|note|foot)\b|\bnext step is\b")
"""It tells what is told elsewhere."""
ADDED = re.compile(
    r"\b(?:tags?|bridge|ending|add|adds|added|coda|outro|finale|pose|to finish|runs? out|stops?|"
    r"last wall|is the last|fades?|interlude|ends?(?= (?:the|it|early|in|on|with|here|there|after|"
    r"of the dance|[,.]))|the end(?! of (?:the )?(?:sec|line|wall|set|part|s \d))|"
    r"2 times|twice|nearly it|last time|done|"
    r"finish(?:es|ing)?(?! (?:it|section|sec|set|part|line|figure|the))|(?:extra|more) (?:counts?|beats?)|"
    r"(?:counts?|beats?) more|extra|put in|end(?= *$| \.))\b(?! of (?:sec|the sec|line|set|part|\d))"
)
CHANGED = re.compile(
    r"\b(?:finish(?:es)? (?:section|sec|set|part|line|figure|the \d)|instead|in place of|replac\w*|"
    r"(?<!weight )chang\w*|becom\w*|differ\w*|swap\w*|modif\w*|rather than|skip\w*|leave out|left out|omit\w*|"
    r"without the|no (?:pivot|turn|kick|scuff|hold)|"
    r"not a|(?:last|1 th) \d+ counts? (?:of [^.]{1,12} )?(?:is|are|go|goes))\b"
)
STILL = re.compile(r"\b(?:nobody moves|no one moves|stand still|stay still|do nothing|stay put)\b")
NEXT = re.compile(r"(?:, |and |so |then |before |after it )*(?:the )?(?:wall|w) \d+ [^.;]*|before (?:wall|w) \d+ ")
WHY = re.compile(
    r"(?:, )?(?:so that|because|since|which brings|which means|so (?:that's|you|we|wall|the \d|w)|and (?:you|"
    r"we) (?:are|stay|do)|you are|you're|youve|you've|we are|ur at|facing|taking the weight ?$|"
    r"giving that)\b(?: [^,.;:)]*)?"
)
ASIDE = re.compile(
    r"\( (?:[^()]*\b(?:still no|hands only|nothing on|thats the|back at|front|no pivot|instead of|same|"
    r"the back|counts)\b[^()]*) \) "
)
ONLY = re.compile(
    r"\b(?:only |do |for |takes? (?:all )?(?:the )?|\( )(?P<n>\d+) counts?\b(?! of)(?: only)?|"
    r"\( (?P<m>\d+) counts? \)"
)
HOLD = re.compile(
    r"(?:, |and |then )*(?:(?:you |we |the band |everybody )?(?:holds?|waits?|pause|"
    r"freeze) (?:for )?(?:another )?(?P<n>\d+) (?:more )?(?:counts?|beats?)|"
    r"(?P<m>\d+) counts? (?:of )?(?:hold|wait)|(?P<longer>\d+) counts? longer)[^.;]*"
)
TAG = re.compile(
    r"(?:, |and |then |they are |it is |followed by |is |add |dance |do |comes? )*(?:a |the |"
    r"this )?(?:\d+ (?:-)? ?counts? )?tag\b[^:,.]{0,30}: |then (?P<turn>turn)\b(?=[^.;]*extra counts)"
)
INSTEAD = re.compile(r"\b(?:instead of|in place of|rather than|in the place of|in lieu of) ")
NOT = re.compile(
    r"\b(?:there (?:is|are) (?:no|nothing)|(?:has|have) no more|(?:is|are) not(?: a)?|do not|does not|did not|"
    r"don't|doesn't|dont|we do not|no more|not(?: an?| the)?|"
    r"no|without(?: the| a| its| any)?|forget(?: about)?|nothing|never) (?!weight|wt)"
)
DROP = re.compile(
    r"\b(?<!is )(?<!are )(?:skip|skips|leave out|leaves out|leave off|drop|drops|omit|omits|miss out|cut out|"
    r"cut|leave(?=s? [^.;,]*\b(?:out|away|off)\b)|(?:is|are|goes|go) without) (?!the music|after|at|from|"
    r"short|off|out\b|to )"
)
DROPPED = re.compile(
    r"\b(?:is|are) (?:all )?(?:skipped|left out|not danced|omitted|dropped|missed out|missing|"
    r"left away)(?: altogether)?\b|^omit\b|^leave out\b"
)
BECOMES = re.compile(
    r"\b(?:becomes?|turns? into|is now|are now|is replaced (?:by|with)|are replaced (?:by|with)|"
    r"goes like this|goes|go|is only|is just|are just|is|are|are only) (?!not |no )(?:only |just |"
    r"like this )?(?:: )?|: "
)
REPLACE = re.compile(
    r"\b(?:replace|replaces|replacing|swap|swaps|change|changes|exchange|substitute|"
    r"trade) (?P<what>[^.;]*?)(?: (?:with|by|for|to|into)) (?:: )?(?=.)"
)
AFTER = re.compile(
    r"\b(?:having (?:made|done|danced)|once|when (?:you|we) (?:have )?(?:done|made|danced)|(?:straight |"
    r"right )?after|from|dance (?:up )?to|as far as|goes to|up to) (?P<what>\" [^\"]* \"|"
    r"[^,.;:]*?)(?: on (?P<on>[\d& ]+)of ~*)? ?(?=,|:|;|\.|~|then |do |no |and then |on |$)"
)
VERB = re.compile(
    r"[,;:()]|\b(?:just|you|we|they|there|it|then|go|take|takes|do|dance|and|&|stepping|put|goes|simply|"
    r"only) |(?<=\w )(?:step|touch|rock|stomp|walk|point|kick|hold|sway|cross|turn) (?:right|left|r|l|rf|lf|"
    r"back|forward|side|the) "
)
LISTED = re.compile(
    r"[.;:()]|(?:, |and |& |then )+(?:then |instead )?(?:(?:do|go|dance|start|begin|restart|you|we|they) |"
    r"(?:step|touch|kick|stomp|rock|point|walk|hold|cross|sway|tap|hitch|clap|close) (?:right|left|r|l|rf|lf|"
    r"the) )"
)
"""Where what is danced begins, after what is left out: of that several things may be listed."""
ENDS = re.compile(r"(?:^|, )done ?$|^ending\b")
"""The dance ends there."""
SECTIONS = re.compile(
    rf"\b(?:{SECTION_WORD}|figs) (?:\. )?(?P<first>\d+) (?:(?:to|-|and|&) (?P<last>\d+) )?(?!(?:counts?|cts?) )"
)
"""All sections that are named by their numbers."""
