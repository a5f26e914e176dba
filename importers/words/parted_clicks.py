"""Clicks that are no whole number, which no click map has: "LSC 3½", "4.5 clicks rebound", "half a click"."""

from __future__ import annotations

from functools import lru_cache

from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD, CLICKS_ALONE
from importers.words.clicks import ANY_ADJUSTER, CLICKED, FILL, NO_UNIT, in_parts
from importers.words.halves import parts_as_decimals
from importers.words.spelling import plain

_QUARTERS = r"\d{1,2}\.(?:25|5|75)0*(?!\d)"
_DECIMALS = r"\d{1,2}\.\d*[1-9]\d*"
_ANY = regex(r"\d\.\d|half|quarter|halb|demi|medi[oa]|mezz[oa]|½|¼|¾|\d/\d")
_NAMED = regex(rf"(?<![a-z0-9.°])(?P<name>{ANY_ADJUSTER}){FILL}(?P<n>{_QUARTERS}){NO_UNIT}")
_NAMED_CLICKED = regex(rf"(?<![a-z0-9.°])(?:{ANY_ADJUSTER}){FILL}{_DECIMALS}{NO_UNIT}\s?{CLICK_WORD}\b")
_CLICKED = regex(
    rf"(?<![\w.,-]){_DECIMALS}\s?{CLICKS_ALONE}(?![^\W\d_])(?:\s(?:(?:of|on|out|from|de|en|di)\s)*(?:{ANY_ADJUSTER})(?![a-z0-9]))?"
)
_LONE = regex(rf"(?:{CLICKS_ALONE}|knob|adjuster|clicker|versteller|[cr])[\s:=]*{_QUARTERS}")
_HALF_CLICK = regex(
    rf"(?<![\w/.])(?<!\d )(?:half|quarter|halbe[rn]?|demi|medi[oa]|mezz[oa]|1/2|1/4|3/4|½|¼|¾)"
    rf"(?:[ -](?:an?|of a))?[ -]{CLICKS_ALONE}"
)
_SHORT = regex(r"(?<![a-z0-9])(?:cr|c|r)\s?\d")


@lru_cache(maxsize=2048)
def parted_clicks(text: str) -> tuple[str, ...]:
    """Return what states clicks that are no whole number: none of them is taken.

    >>> parted_clicks("LSC 3½, LSR: 9"), parted_clicks("Bump clicks,4.5"), parted_clicks("Comp 4.5 mm")
    (('lsc 3.5',), ('bump clicks 4.5',), ())
    >>> parted_clicks("4.5 clicks rebound"), parted_clicks("C6.5 R8"), parted_clicks("half a click comp")
    (('4.5 clicks rebound',), ('c6.5',), ('half a click',))
    """
    bare = plain(parts_as_decimals(text))
    if not _ANY.search(bare) and not _ANY.search(text):
        return ()
    if parts := in_parts(bare):
        return (parts,)
    clicked = CLICKED.search(bare) is not None or _CLICKED.search(bare) is not None
    several = clicked or "=" in text or len(_SHORT.findall(bare)) > 1
    named = [m[0] for m in _NAMED.finditer(bare) if len(m["name"]) > 1 or several]
    if clicked:
        named = named or [m[0] for m in _NAMED_CLICKED.finditer(bare)] or [m[0] for m in _CLICKED.finditer(bare)]
    if not named and (_LONE.fullmatch(bare) or (half := _HALF_CLICK.search(text.lower()))):
        return (bare if _LONE.fullmatch(bare) else half[0],)  # type: ignore[index]
    return tuple(named)
