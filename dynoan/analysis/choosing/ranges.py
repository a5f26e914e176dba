"""Which clicks of a pack may be used at a place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from dynoan.analysis.choosing.aims import Place
from dynoan.model.clickmap import ClickMap, DirectionMap


class ClickRange(NamedTuple):
    """The clicks of an adjuster that may be used, from closed."""

    first: int
    last: int

    @property
    def cut(self) -> slice:
        """The same as a span of a table's axis."""
        return slice(self.first, self.last + 1)


Ranges = Mapping[str, ClickRange]  #: by adjuster


def allowed(click_map: ClickMap, place: Place, *, inside: bool, within: int | None) -> Ranges | None:
    """Return the clicks that may be used; None where the pack may not be used at all.

    Parameters
    ----------
    click_map
        Of the pack.
    place
        Its corners: no adjuster goes beyond the last click of any of their shocks.
    inside
        Only between the tested clicks of every adjuster.
    within
        Only so many clicks from those on the car, which keeps its pack; None for any.

    Returns
    -------
    :
        By adjuster. One that no table knows is left out: nothing says what it does, so it stays as it is.
    """
    if within is not None and place.packs_now - {click_map.pack}:
        return None
    out = {}
    known = {*click_map.compression.adjusters, *click_map.rebound.adjusters}
    for adjuster in (a for a in click_map.adjusters if a.name in known):
        low, high = 0, adjuster.clicks
        seen = [int(t[adjuster.name]) for t in click_map.tested if adjuster.name in t]
        if inside and seen:
            low, high = max(low, min(seen)), min(high, max(seen))
        high = min([high, *(aim.last.get(adjuster.name, high) for aim in place.aims if aim.last)])
        for aim in place.aims if within is not None else ():
            if aim.now and adjuster.name in aim.now:
                now = aim.now[adjuster.name]
                low, high = max(low, now - (within or 0)), min(high, now + (within or 0))
        if low > high:
            return None
        out[adjuster.name] = ClickRange(low, high)
    return out


def cut(table: DirectionMap, ranges: Ranges) -> tuple[slice, ...]:
    """Return the part of a table that the allowed clicks are, an axis an adjuster."""
    return tuple(ranges[name].cut for name in table.adjusters)
