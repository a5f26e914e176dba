"""Clicks between people and click maps: as the shock's file counts them outside, from closed inside."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from dynoan.errors import CallError
from dynoan.model.shock import Shock, clicks_text

if TYPE_CHECKING:
    from dynoan.model.clickmap import ClickMap
    from dynoan.workbench import Workbench


def counting_for(bench: Workbench, map: ClickMap, shock: str | None) -> Shock:
    """Return the shock whose counting is used for a map: the one named, else the one all that carry it agree on.

    Where they do not agree, and none is named, clicks are shown from closed.
    """
    try:
        return bench.counting(map.pack, shock)
    except CallError:
        if shock is not None:
            raise
        return Shock("", map.adjusters, stated=False)


def as_counted(shock: Shock, from_closed: Mapping[str, int]) -> dict[str, int]:
    """Return clicks from closed as a shock counts them; adjusters it does not have are left as they are."""
    known = {a.name: a for a in shock.adjusters}
    return {n: known[n].from_closed(c) if n in known else int(c) for n, c in from_closed.items()}


def change_as_counted(shock: Shock, change: Mapping[str, int]) -> dict[str, int]:
    """Return a change of clicks from closed as a change in a shock's own counting."""
    from_soft = {a.name for a in shock.adjusters if a.counted == "from soft"}
    return {n: -c if n in from_soft else c for n, c in change.items()}


def counted_words(shock: Shock, names: Mapping[str, int] | None = None) -> str:
    """Return in words how a shock counts, such as "clicks from closed" or "clicks from closed, hsr from soft"."""
    mine = [a for a in shock.adjusters if names is None or a.name in names]
    soft = [a.name for a in mine if a.counted == "from soft"]
    if not soft:
        return "clicks from closed"
    return "clicks from soft" if len(soft) == len(mine) else f"clicks from closed, {' and '.join(soft)} from soft"


def turn_words(change: Mapping[str, int]) -> str:
    """Return a change of clicks from closed as people say it, such as "lsc 2 clicks in, hsr 1 click out"."""
    return ", ".join(
        f"{name} {abs(step)} click{'s' if abs(step) != 1 else ''} {'out (softer)' if step > 0 else 'in (stiffer)'}"
        for name, step in change.items()
    )


def setting_words(pack: str | None, clicks: Mapping[str, int]) -> str:
    """Return a setting as people type it: "gravel@lsc=6,lsr=8"."""
    return f"{pack}@{clicks_text(clicks)}" if clicks else str(pack)


def given_clicks(map: ClickMap, shock: Shock, clicks: Mapping[str, int]) -> dict[str, int]:
    """Return the clicks of every adjuster from closed, those left out at their most tested position.

    Raises
    ------
    CallError
        If the pack has no such adjuster.
    QuantityError
        If a click lies outside its adjuster.
    """
    named = {a.name for a in map.adjusters}
    unknown = [n for n in clicks if n not in named]
    if unknown:
        have = ", ".join(sorted(named)) or "none"
        raise CallError(f"pack {map.pack} has no adjuster '{unknown[0]}' in its tests; it has {have}")
    shock.check(clicks)
    return map.complete(shock.from_closed(clicks))
