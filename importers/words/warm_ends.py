"""A temperature without a degree sign beside clicks, "Rear left 12 clicks reb, 20C", and not twenty clicks of C."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from importers.assumptions.words import LEAST_WARMTH, MOST_WARMTH
from importers.patterns import regex
from importers.words.adjusters import CLICKS_ALONE, WAY
from importers.words.spelling import plain

_LETTERED = regex(r"(?<![\w.,/-])(?P<n>-?\d{1,3}(?:[.,]\d)?)\s?(?P<unit>[CF])(?=\s*(?:$|[,;|\t)]))")
#: the same form of rebound, beside which the other is one of compression: "12R 20C"
_LIKE_CLICKS = regex(r"(?<!\w)(?<![A-Za-z]\s)\d{1,2}\s?[Rr](?![A-Za-z0-9])")
_OF_CLICKS = regex(rf"(?<![a-z])(?:{CLICKS_ALONE}|{WAY}|compression|[lh]s[cr]|[cr]\s?\d)")


class WarmEnd(NamedTuple):
    """A number and the letter of a degree at the end of a clause about clicks."""

    said: str
    number: float  #: [°C or °F]
    rest: str  #: the text without it

    @property
    def quantity(self) -> str:
        """The temperature as people write one."""
        return f"{self.number:g} °{self.said[-1]}"

    def is_warmth(self, clicks: Mapping[str, int]) -> bool:
        """Whether it is a temperature beside the clicks of the rest, and not clicks of compression itself."""
        likely = self.number >= LEAST_WARMTH[self.said[-1]] and not _LIKE_CLICKS.search(self.rest)
        return bool(clicks) and (likely or self.is_sure(clicks))

    def is_sure(self, clicks: Mapping[str, int]) -> bool:
        """Whether it can be no clicks of compression, since the rest states those or its letter is another."""
        return self.said[-1] == "F" or any("c" in knob for knob in clicks)


def warm_end(text: str) -> WarmEnd | None:
    """Return the one number with a degree's letter that ends a clause of a text about clicks; None where none may be.

    >>> warm_end("Rear left 12 clicks reb, 20C"), warm_end("ch 20C")
    (WarmEnd(said='20C', number=20.0, rest='Rear left 12 clicks reb, '), None)
    """
    if not ("C" in text or "F" in text):
        return None
    found = [*_LETTERED.finditer(text)]
    if len(found) != 1:
        return None
    number, rest = float(found[0]["n"].replace(",", ".")), text[: found[0].start()] + text[found[0].end() :]
    unit = found[0]["unit"]
    if (
        number > MOST_WARMTH[unit]
        or (unit == "F" and number < LEAST_WARMTH[unit])
        or not _OF_CLICKS.search(plain(rest))
    ):
        return None
    return WarmEnd(found[0][0], number, rest)
