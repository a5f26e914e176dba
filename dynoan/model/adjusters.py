"""The names of adjusters."""

from __future__ import annotations

from collections.abc import Mapping

#: what each adjuster's name means
ADJUSTERS = {
    "lsc": "low-speed compression", "hsc": "high-speed compression",
    "lsr": "low-speed rebound", "hsr": "high-speed rebound",
    "c": "compression", "r": "rebound", "cr": "compression and rebound together",
}  # fmt: skip
#: the directions an adjuster is meant to act on
ACTS_ON = {
    "lsc": ("compression",), "hsc": ("compression",), "lsr": ("rebound",), "hsr": ("rebound",),
    "c": ("compression",), "r": ("rebound",), "cr": ("compression", "rebound"),
}  # fmt: skip
_PLACES = {name: place for place, name in enumerate(ADJUSTERS)}


def in_order(clicks: Mapping[str, int]) -> dict[str, int]:
    """Return clicks by adjuster in the one order in which they are told, however they were stated.

    >>> in_order({"r": 4, "c": 6})
    {'c': 6, 'r': 4}
    """
    return {name: clicks[name] for name in sorted(clicks, key=lambda name: _PLACES.get(name, len(_PLACES)))}
