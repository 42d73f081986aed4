"""Words behind steps that say what they are good for: "sway R, L to fill the gap", "until the singer comes back"."""

from trainer.sheet.prose.order.grammar.atoms import Sentence

_AIMS = {
    "fill", "use", "wait", "let", "catch", "cover", "match", "suit", "mark", "bridge", "keep", "stay", "allow", "meet",
    "account", "accommodate", "soak",
}  # fmt: skip
_MEANWHILE = {"while", "whilst", "as", "until", "till", "because", "since"}
_MUSIC = {
    "music", "song", "singer", "band", "tune", "track", "drum", "drums", "beat", "vocal", "vocals", "voice", "guitar",
    "fiddle", "piano", "chorus", "verse", "words", "lyrics", "she", "he", "they", "phrase", "gap", "choir", "drummer",
    "record", "cd", "recording",
}  # fmt: skip
_NEAR = 4
"""Words after such a word in which the music is named."""


def says_what_for(sentence: Sentence, at: int) -> bool:
    """Whether a lexeme begins a clause that tells why, or during what of the music, the steps before it are danced."""
    first = sentence.lexemes[at].first
    lows = [token.low for token in sentence.tokens[first : first + _NEAR + 1]]
    if lows[0] == "to" and lows[1:2] and lows[1] in _AIMS:
        return True
    return lows[0] in _MEANWHILE and bool(_MUSIC & set(lows[1:]))
