"""Whether clicks are counted from fully soft: a shock's file counts them from closed unless it says so."""

from __future__ import annotations

from collections.abc import Iterable

from dynoan.model.warned import CountedFromSoft
from importers.patterns import regex
from importers.words.adjusters import SOFT, SOFT_END, WAY

FROM_SOFT = CountedFromSoft("the file counts clicks from soft; the shock's file must say so too")
SOME_FROM_SOFT = "'{line}' counts some clicks from soft and some from closed; the shock's file must say which are which"
_FULL = r"(?:full|fully|voll|vollst\w*|completely|max\w*|ganz|tout|completamente|tutto)"
_FROM = regex(
    rf"\b(?:from|off|ab|von|depuis|desde|da|od|vanaf|fran|fra)\s+(?:{_FULL}\s+)?(?:{SOFT_END}|min(?:imum)?)\b"
)
_FROM_CLOSED = regex(
    rf"\b(?:from|off|ab|von|depuis|desde|da|od|vanaf|fran|fra)\s+(?:{_FULL}\s+)?"
    r"(?:closed|close|hard|stiff|seated|geschlossen|zu|ferme|cerrado|chiuso)\b"
)
#: where clicks are none: "0 = full soft", "click zero: full open", "open = 0"
_ZERO = r"(?<![\d.,])(?:0|zero|null|nul|cero)(?![\d.,])"
_IS = r"(?:at\s+|is\s+|bei\s+|means\s+)?"
_THERE = rf"(?:{_FULL}\s+{SOFT_END}|{SOFT})\b"
_NONE_AT = regex(rf"{_ZERO}\s+{_IS}{_THERE}|\b{_THERE}\s+{_IS}{_ZERO}")
#: "0 = open", "20 = full hard", "more clicks = stiffer", the mark written as a word
_OPEN_AT = regex(rf"{_ZERO}\s+(?:at|is|bei|means)\s+{SOFT_END}\b|\b{SOFT_END}\s+(?:is|means)\s+{_ZERO}")
_HARD = r"(?:hard|closed|stiff|stiffest|hardest|hart|zu|geschlossen|ferme|cerrado|chiuso)"
_HARD_AT = regex(rf"(?<![\d.,])[1-9]\d?\s+(?:is|means)\s+(?:{_FULL}\s+)?{_HARD}\b")
_MORE_IS_STIFF = regex(
    r"\b(?:more|higher|larger|greater|mehr|hoher\w*|grosser\w*|plus)\b(?:\s+(?:clicks?|klicks?|numbers?|values?|zahl\w*))?"
    r"\s+(?:is|means)\s+(?:more\s+)?(?:stiff\w*|hard\w*|firm\w*|damping|hart\w*|steif\w*|straffer|dur\w*)"
)
#: clicks that an adjuster was turned in, which begin where it is open: "4 clicks in"
_TURNED_IN = regex(
    r"\d\s*(?:clicks?|clks?)\s+in(?:wards?)?(?=\s+from\b|\s*[,;/]|\s+(?:ls|hs)?[cr]\b|\s*$)"
    rf"|(?<![\d.,])\d{{1,2}}\s+in\s+(?:on\s+)?(?:{WAY})\b"
)


def counts_from_soft(bare: str) -> bool:
    """Whether a plain text says that clicks are counted from where an adjuster is soft.

    >>> [counts_from_soft(t) for t in ("lsc 4 from soft", "lsc 4 0 full open", "lsc 4 clicks in", "lsc 4 clicks")]
    [True, True, True, False]
    """
    return any(said.search(bare) for said in (_FROM, _NONE_AT, _OPEN_AT, _HARD_AT, _MORE_IS_STIFF, _TURNED_IN))


def counting(bare: str, adjusters: Iterable[str]) -> dict[str, str]:
    """Return from where a plain text counts the clicks of its adjusters, of all where it names none; empty if unsaid.

    >>> counting("comp adj 6 clicks out from full stiff", ["c"]), counting("clicks counted from soft", [])
    ({'c': 'from closed'}, {'': 'from soft'})
    """
    soft, closed = counts_from_soft(bare), _FROM_CLOSED.search(bare) is not None
    return dict.fromkeys(adjusters or [""], "from soft" if soft else "from closed") if soft != closed else {}


def counted_from_soft(line: str, bare: str) -> tuple[str, ...]:
    """Return what is to be said of a line by where it counts clicks from; nothing where it is from closed alone."""
    if not counts_from_soft(bare):
        return ()
    return (SOME_FROM_SOFT.format(line=line[:80]) if _FROM_CLOSED.search(bare) else FROM_SOFT,)
