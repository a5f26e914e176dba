"""Force columns named by letters alone, "Fc" and "Fr": the pair of them says what one alone could not."""

from __future__ import annotations

import re
from dataclasses import replace

from importers.tables import ParsedTable
from importers.words.spelling import plain

_LETTERS = {"compression": ("fc", "f c", "cf", "fcomp", "f comp", "fb", "f bump"),
            "rebound": ("fr", "f r", "rf", "freb", "f reb")}  # fmt: skip


def with_lettered_pair(table: ParsedTable) -> ParsedTable:
    """Return a table whose two columns "Fc" and "Fr" are the forces of the two directions, with a warning, else it."""
    pair = {
        way: [c for c in table.columns if c.index in table.values and not c.direction and _name(c.text) in letters]
        for way, letters in _LETTERS.items()
    }
    if any(len(found) != 1 for found in pair.values()) or len({c.unit for (c,) in pair.values()}) != 1:
        return table
    ways = {found[0].index: way for way, found in pair.items()}
    names = " and ".join(f"'{found[0].text}'" for found in pair.values())
    said = f"{names} were taken as the forces of compression and rebound"
    columns = tuple(
        replace(c, channel="force", role=None, direction=ways[c.index], by_unit=False) if c.index in ways else c
        for c in table.columns
    )
    return replace(table, columns=columns, warnings=(*table.warnings, said))


def _name(text: str) -> str:
    """Return a column's name without its unit."""
    return re.sub(r" (?:n|kn|dan|lbf?|lbs|kgf?|kp)$", "", plain(re.sub(r"[\[(].*", "", text)))
