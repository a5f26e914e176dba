"""Words that name a direction's adjuster only beside their mate's: "comp 7, ext 5", "druk 4, trek 9", "in 4, uit 6"."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD
from importers.words.spelling import folded

_COMP = r"comp|compr|compression|compressione|compressao|compresion|kompression|komp|bump|bp|sikistirma|sıkıstırma"
#: of both directions; the letters of the second row are no adjusters without a word for clicks
_MATES = tuple((folded(one), folded(other)) for one, other in (
    (_COMP, "ext|est|det|dist|exp|tens|dt"), ("druk|drukslag|in|ingaand", "trek|trekslag|uit|uitgaand"), ("ein", "aus"),
    ("bası|basi|baskı|baski|basma|basıs", "ceki|cekis|cekme|acılma|acilma"), ("tryck", "drag"), ("trykk", "trekk"),
    ("tryk", "traek|træk"), ("tlak|stlac", "tah|roztah"), ("nen|nenryoku", "tra|tran"), ("압축", "신장|인장|리바운드"),
    ("압", "신"), ("压|压缩", "拉|拉伸|复原|回弹"), ("縮|圧", "伸|伸ひ"),
))  # fmt: skip
_LETTERS = (("c", "e|d|t"),)
_CLICKED = regex(rf"\b{CLICK_WORD}\b")
_WORDS = regex(r"[^\W\d_]+")
_REBOUND = "|reb|rebound"  #: English words that people of all languages write beside their own
_ANY = frozenset(
    word for pair in (*_MATES, *_LETTERS) for words in pair if words != folded(_COMP) for word in words.split("|")
)


def with_mates(bare: str) -> str:
    """Return a text in plain words with both words of such a pair as "comp" and "reb", where each has a number.

    >>> [with_mates(t) for t in ("cliques comp 7 ext 5", "in 4 kliks uit 6 kliks", "ext 5", "druk8 rebound14")]
    ['cliques comp 7 reb 5', 'comp 4 kliks reb 6 kliks', 'ext 5', 'comp8 reb14']
    """
    if _ANY.isdisjoint(_WORDS.findall(bare)):
        return bare
    for bump, drop in (*_MATES, *(_LETTERS if _CLICKED.search(bare) else ())):
        for form in (_before_numbers, _behind_numbers):
            one, other = form(bump), form(drop + _REBOUND)
            if len(re.findall(one, bare)) == len(re.findall(other, bare)) == 1:
                return re.sub(other, "reb", re.sub(one, "comp", bare))
    return bare


def _before_numbers(words: str) -> str:
    return rf"(?<![^\W_])(?:{words})(?=(?:\s?{CLICK_WORD})?[\s.:=]*\d{{1,2}}(?![\d.,]*\d))"


def _behind_numbers(words: str) -> str:
    return rf"(?<=\d )(?:{words})(?![^\W_])(?!\s?\d)"
