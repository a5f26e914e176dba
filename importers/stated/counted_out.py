"""What is counted out from an end, "2 out / 4 out", "1 1/2 turns out", where no word says of which knob: it is said."""

from __future__ import annotations

from importers.patterns import regex
from importers.words.adjusters import CLICKS_ALONE, WAY
from importers.words.clicks import clicks_of
from importers.words.spelling import plain
from importers.words.turns import AMOUNT, LOOKED_FOR, NOT_SPEED, TURN, quarters_said

_COUNTED = rf"{AMOUNT}\s?(?:{TURN}{NOT_SPEED}(?:\s?out)?|(?:{CLICKS_ALONE}\s?)?(?:out|offen|ouvert))"
_ROW = regex(
    rf"(?<![\w.,/-])(?:{_COUNTED})(?:[\s/,;+&-]+(?:(?:and|und|et|y|e)\s+)?(?:{_COUNTED})){{0,3}}(?:[\s/]+\d{{1,2}}$)?(?!\w)"
)
_ONE = regex(rf"{_COUNTED}|\d{{1,2}}$")
_CLICKS = regex(rf"(?P<n>\d{{1,2}})\s?(?:{CLICKS_ALONE}\s?)?(?:out|offen|ouvert)?")
_WAY_OR_KNOB = regex(rf"(?<![a-z])(?:{WAY}|compression|[lh]s[cr]|[cr])(?![a-z])")
_CLICK = regex(CLICKS_ALONE)
_OF_ALL = regex(r"\s?(?:of|von|sur)\s?\d")  #: "2 out of 4"
_BEFORE_SPEED = regex(r"\W*(\d{1,2})\s?[/-]\s?(\d{1,2})(?=\s*@\s*\d*[.,]\d)")  #: "4-6 @ 0.26"
_WORDS = regex(rf"out|offen|ouvert|{LOOKED_FOR}")
#: how so many numbers may be written for each to be told from the others
_WRITTEN = {1: ("C",), 2: ("C", "R"), 3: ("LSC", "HSC", "R"), 4: ("LSC", "HSC", "LSR", "HSR")}
_LONGEST = 120  #: longer lines are prose [characters]


def counted_by_none(line: str) -> str:
    """Return the warning of what a line counts out of knobs that it does not name; empty where it does nothing such.

    >>> counted_by_none("Setting: 2 out / 4 out")
    "'2 out / 4 out' names no adjusters: no clicks were taken; write whose they are, such as 'C 2 R 4'"
    >>> counted_by_none("preload 2 1/4 turns out")
    "'2 1/4 turns out' are turns and no clicks, of an adjuster that is not named: not taken; \
counted in clicks of a quarter turn, write such as 'C 9' or 'R 9'"
    >>> counted_by_none("C 2 out, R 4 out"), counted_by_none("run 2 out of 4")
    ('', '')
    """
    if "@" in line and (both := _BEFORE_SPEED.match(line)):
        written = f"C {both[1]} R {both[2]}"
        return (
            f"'{both[0].strip()}' names no adjusters: no clicks were taken; write whose they are, such as '{written}'"
        )
    low = line.lower()
    if len(line) > _LONGEST or not _WORDS.search(low):
        return ""
    found = _ROW.search(low)
    if not found or _OF_ALL.match(low, found.end()) or _WAY_OR_KNOB.search(plain(line)) or clicks_of(line):
        return ""
    said = line[found.start() : found.end()]
    ones = _ONE.findall(found[0])
    clicks = [_CLICKS.fullmatch(one) for one in ones]
    if any(said is None and _CLICK.search(one) for one, said in zip(ones, clicks, strict=True)):
        return ""  # parts of a click, and no turns
    if None in clicks:
        told = f"'{said}' are turns and no clicks, of an adjuster that is not named: not taken"
        return f"{told}{quarters_said(said, None)}" if len(clicks) == 1 else told
    written = " ".join(f"{knob} {one['n']}" for knob, one in zip(_WRITTEN[len(clicks)], clicks, strict=True) if one)
    return f"'{said}' names no adjusters: no clicks were taken; write whose they are, such as '{written}'"
