"""Names of shocks within other text: FL-03, SN-1204, or a corner such as FL01."""

from __future__ import annotations

import re
from functools import lru_cache

from importers.patterns import regex
from importers.words.adjusters import adjuster_of
from importers.words.keys import STOP
from importers.words.spelling import plain, word_set

_CORNERS = frozenset(("FL", "FR", "RL", "RR", "VL", "VR", "HL", "HR", "F", "R"))
#: sides of a car, which are shocks of their own
SIDES = word_set(
    "left, right, lh, rh, links, rechts, gauche, droite, droit, izquierda, derecha, izquierdo, derecho, sinistra,"
    " destra, sinistro, destro, front, rear, vorn, hinten, avant, arriere, anteriore, posteriore, delantero, trasero,"
    " delantera, trasera, dianteiro, dianteira, traseiro, traseira, esquerdo, esquerda, direito, direita, lewy, prawy,"
    " przedni, tylny, vanster, hoger, bak, fram, venstre, hoyre, foran"
)
#: a corner of the car, as English and German (vorn, hinten) shorten it
_CORNER = "(?:FL|FR|RL|RR|LF|RF|LR|VL|VR|HL|HR)"
CORNER = regex(rf"(?<![A-Za-z0-9]){_CORNER}(?:-?\d{{1,4}})?(?![A-Za-z0-9-])")


#: letters before a corner: "GR-FR", "AX-LF-2"
_JOINED = regex(rf"(?<![A-Za-z0-9-])(?P<before>[A-Z]{{1,4}})-{_CORNER}(?:-\d{{1,4}})?(?![A-Za-z0-9-])")


@lru_cache(maxsize=2048)
def shock_in(text: str) -> str | None:
    """Return what looks like a shock's name in a text; None where it names the shocks of two corners."""
    if joined := _JOINED.search(text):
        known = joined["before"] in _CORNERS or plain(joined["before"]) in STOP or adjuster_of(joined["before"].lower())
        if not known:
            return joined[0]
    matches = list(re.finditer(r"(?<![A-Za-z0-9])([A-Za-z]{1,4})-\d{1,4}(?![A-Za-z0-9])", text))
    if len({match[0] for match in matches if match[1] in _CORNERS and len(match[1]) == 2}) > 1:
        return None
    for match in matches:
        corner = match[1] in _CORNERS
        if corner or (plain(match[1]) not in STOP and adjuster_of(match[1].lower()) is None):
            return match[0]
    corners = re.findall(rf"(?<![A-Za-z0-9]){_CORNER}\d{{1,3}}(?![A-Za-z0-9])", text)
    return corners[0] if corners else None


def corner_or_shock_in(text: str) -> str | None:
    """Return the corner or the shock that a column of several shocks side by side names."""
    match = CORNER.search(text)
    return match[0] if match else shock_in(text)


def corner_alone(text: str) -> str | None:
    """Return a text that is a place on the car and nothing else: "FL", "Left Front"; None of any other."""
    words = text.split()
    sides = 0 < len(words) <= 2 and {plain(word) for word in words} <= SIDES
    return text.strip() if sides or CORNER.fullmatch(text.strip().upper()) else None


def side_in(text: str) -> str | None:
    """Return the words for a side of the car in a column's name, as they stand there: "Left", "front right"."""
    found = [word for word in re.split(r"[\s_,;:/()\[\]-]+", text) if word and plain(word) in SIDES]
    return " ".join(found) or None
