"""Force columns named by letters alone, "Fc" and "Fr": the pair of them says what one alone could not."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_LETTERS = {
    "compression": ("fc", "f c", "cf", "fcomp", "f comp", "fb", "f bump", "in", "ein", "kraft in", "force in",
                    "kracht in", "kraft ein"),
    "rebound": ("fr", "f r", "rf", "freb", "f reb", "out", "ut", "uit", "aus", "kraft ut", "force out", "kracht uit",
                "kraft aus"),
}  # fmt: skip
_FIRST_LETTERS = frozenset("fFcCrRiIeEoOuUaAkK")


def with_lettered_pair(table: ParsedTable) -> ParsedTable:
    """Return a table whose two columns "Fc" and "Fr" are the forces of the two directions, with a warning, else it."""
    if not any(c.text[:1] in _FIRST_LETTERS and not c.direction for c in table.columns):
        return table
    pair = {
        way: [c for c in table.columns if c.index in table.values and not c.direction and _name(c.text) in letters]
        for way, letters in _LETTERS.items()
    }
    ways = {c.index: way for way, found in pair.items() for c in found}
    if not _in_turn([ways[index] for index in sorted(ways)]) or len({c.unit for f in pair.values() for c in f}) != 1:
        return table
    names = " and ".join(f"'{found[0].text}'" for found in pair.values())
    said = f"{names} were taken as the forces of compression and rebound"
    columns = tuple(_directed(c, ways[c.index]) if c.index in ways else c for c in table.columns)
    return replace(table, columns=columns, warnings=(*table.warnings, said))


def _in_turn(ways: Sequence[str]) -> bool:
    """Whether both directions stand there once, or again and again in one order, as under the titles of runs."""
    return len(ways) > 1 and ways[0] != ways[1] and list(ways) == [*ways[:2]] * (len(ways) // 2)


def _directed(column: HeaderColumn, way: str) -> HeaderColumn:
    last = column.text.split()[-1].strip("[]()")
    unit = column.unit or (last if is_unit(last, "force") else "")
    return replace(column, channel="force", role=None, direction=way, unit=unit, unknown_unit="", by_unit=False)


@lru_cache(maxsize=1024)
def _name(text: str) -> str:
    """Return a column's name without its unit and the word for a peak."""
    bare = re.sub(r" (?:n|kn|dan|lbf?|lbs|kgf?|kp)$", "", plain(re.sub(r"[\[(].*", "", text)))
    return re.sub(r"^(?:max|peak)\.? | (?:max|peak)\.?$", "", bare)
