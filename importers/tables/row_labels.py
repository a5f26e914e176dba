"""What the cells before a row of forces say of it: its setting, its shock, its direction."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from importers.header import describe_column
from importers.words.clicks import clicks_of
from importers.words.directions import direction_of
from importers.words.keys import DATE, ONE_KNOB
from importers.words.shock_names import corner_or_shock_in
from importers.words.spelling import plain


def row_keys(names: Sequence[str], rows: Sequence[Sequence[str]]) -> list[dict[str, str]]:
    """Return what the cells before the forces say of each row, by the name of a column."""
    found: list[dict[str, str]] = []
    for cells in rows:
        key = dict[str, str]()
        for name, cell in zip(names, cells, strict=True):
            known = describe_column(0, name)
            if listed := _listed(name, cell):
                key["Setting"] = listed
                continue
            key |= (
                {name: cell}
                if known.role
                or known.clicks
                or known.direction
                or plain(name) in ONE_KNOB | DATE
                or known.channel in ("temperature", "pressure")
                else dict(_labels(cell))
            )
        # A setting stands in the first of its rows alone where its cells are joined.
        found.append({k: v or (found[-1].get(k, "") if found else "") for k, v in key.items()})
    return found


def _listed(name: str, cell: str) -> str:
    """Return the clicks that a cell gives the adjusters of its name, "8/4" below "Clicks (C/R)"; empty for others."""
    found = clicks_of(f"{name} {cell}") if any(mark in cell for mark in "/-") and not clicks_of(cell) else {}
    return " ".join(f"{k}={v}" for k, v in found.items()) if len(found) > 1 else ""


def with_ways_of_clicks(keys: list[dict[str, str]]) -> list[dict[str, str]]:
    """Return rows with the direction of their one adjuster, where some are of one direction and some of the other.

    "C0", "C6", "R0", "R6" down the side are two sweeps of clicks, each of its own forces.
    """
    clicks = [clicks_of(" ".join(key.values())) for key in keys]
    ways = [next(iter(one))[-1] if len(one) == 1 and "cr" not in one else "" for one in clicks]
    if {*ways} != {"c", "r"}:
        return keys
    return [
        key | {"Direction": "compression" if way == "c" else "rebound"} for key, way in zip(keys, ways, strict=True)
    ]


def _labels(cell: str) -> Iterator[tuple[str, str]]:
    """Yield what the name of a row says: its shock, its clicks, its direction."""
    if shock := corner_or_shock_in(cell):
        yield "Shock", shock
    if clicks := clicks_of(cell):
        yield "Setting", " ".join(f"{k}={v}" for k, v in clicks.items())
    elif way := direction_of(plain(cell.replace(shock or "\0", " "))):
        yield "Direction", way
    if not shock and not clicks and not direction_of(plain(cell)) and cell:
        yield "Run", cell
