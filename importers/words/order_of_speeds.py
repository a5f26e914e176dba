"""Two numbers a direction, "Comp 6/2 Reb 8/3", whose order is said once beside them: "(LS/HS)", "high/low"."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD, DROP, HIGH, LOW, WAY

_TWO = regex(r"\d\s?[/-]\s?\d")
_SPEED = rf"(?:{HIGH}|{LOW}|hs?|ls?)"
_ORDER = regex(rf"(?<![a-z0-9])(?P<one>{_SPEED})\s?[/-]\s?(?P<two>{_SPEED})(?![a-z0-9])")
_PAIR = regex(
    rf"(?<![a-z0-9])(?P<way>c|r|{WAY})(?:\s*{CLICK_WORD})?[\s.:=-]*(?P<a>\d{{1,2}})\s?[/-]\s?(?P<b>\d{{1,2}})(?![\d.,/])"
)


def clicks_in_order(bare: str) -> tuple[dict[str, int], str]:
    """Return the clicks of both speeds where a text in plain words says their order once, and the text without them.

    >>> clicks_in_order("comp 6/2 reb 8/3 ls/hs")[0], clicks_in_order("hs/ls c 2/6 r 3/8")[0]
    ({'lsc': 6, 'hsc': 2, 'lsr': 8, 'hsr': 3}, {'hsc': 2, 'lsc': 6, 'hsr': 3, 'lsr': 8})
    >>> clicks_in_order("comp 6/2 reb 8/3")[0]
    {}
    """
    if not _TWO.search(bare) or not ("l" in bare and "h" in bare):
        return {}, bare
    orders, pairs = list(_ORDER.finditer(bare)), list(_PAIR.finditer(bare))
    if len(orders) != 1 or len(pairs) < 2:
        return {}, bare
    fast = [re.fullmatch(rf"hs?|{HIGH}", orders[0][key]) is not None for key in ("one", "two")]
    ways = ["r" if re.fullmatch(rf"r|{DROP}", pair["way"]) else "c" for pair in pairs]
    if fast[0] == fast[1] or len({*ways}) < len(ways):
        return {}, bare
    clicks = dict[str, int]()
    for way, pair in zip(ways, pairs, strict=True):
        clicks |= {("hs" if f else "ls") + way: int(pair[key]) for f, key in zip(fast, "ab", strict=True)}
        bare = bare.replace(pair[0], " ")
    return clicks, bare.replace(orders[0][0], " ")
