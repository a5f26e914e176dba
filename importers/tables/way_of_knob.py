"""Forces of one knob alone, at several of its clicks, and no word of their direction: taken as of the knob's."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from importers.header import describe_column
from importers.words.adjusters import adjuster_of
from importers.words.spelling import plain

_TELL = frozenset(("Direction", "Setting"))  #: columns that may say of which direction a row is
_FEW_TURNED = 4  #: at most one force in so many is below nought where gas alone turns it
_MINUS = ("-", "−", "(")
_WAYS = {"c": "compression", "r": "rebound"}


class WaysTold(NamedTuple):
    """Lines with the direction of their forces."""

    lines: list[str]
    said: str  #: what was taken for granted, as a warning


def with_way_of_knob(lines: Sequence[str]) -> WaysTold | None:
    """Return the lines of a table, a force a row, with the direction of its one adjuster; None where it tells more.

    The cells are set apart by tabs, as `with_speeds_down` writes them.
    """
    heads = [at for at, line in enumerate(lines) if line.split("\t")[-1].startswith("Force") and "\t" in line]
    if len(heads) != 1:
        return None
    at = heads[0]
    names = lines[at].split("\t")
    knobs = [name for name in names if adjuster_of(plain(name)) not in (None, "cr")]
    told = any(describe_column(0, name).direction or name in _TELL for name in names if name not in knobs)
    rows = [line.split("\t") for line in lines[at + 1 :]]
    forces = [cells for cells in rows if len(cells) == len(names)]
    negative = sum(cells[-1][:1] in _MINUS for cells in forces)  # gas turns a few slow ones
    signed = _FEW_TURNED * negative > len(forces) or any(cells[-2][:1] in _MINUS for cells in forces)
    if len(knobs) != 1 or told or signed:
        return None
    way = _WAYS[str(adjuster_of(plain(knobs[0])))[-1]]
    out = ["\t".join([way, *cells] if len(cells) == len(names) else cells) for cells in rows]
    said = f"no line says of which direction the forces are: those at each '{knobs[0]}' were taken as {way}"
    return WaysTold([*lines[:at], f"Direction\t{lines[at]}", *out], said)
