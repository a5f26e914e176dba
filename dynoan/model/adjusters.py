"""The names of adjusters."""

from __future__ import annotations

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
