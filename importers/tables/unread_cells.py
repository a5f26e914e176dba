"""Cells of a small table that say they hold no number: a spreadsheet's errors, "NaN"."""

from __future__ import annotations

from importers.assumptions.sweeps import MOST_PEAK_ROWS
from importers.patterns import regex
from importers.tables.table import ParsedTable

_UNREAD = regex(
    rb"(?i)(?<![^\s,;|])(?:#(?:N/?A|DIV/0!|REF!|VALUE!|NUM!|NAME\\?|NULL!|WERT!|NV|BEZUG!|#+)|nan|-nan)(?![^\s,;|])"
)


def unread_cells(rows: bytes, table: ParsedTable) -> tuple[str, ...]:
    """Return the warning of a table of peaks whose cells hold such words; none where all are numbers or blank."""
    timed = any(c.channel in ("time", "displacement") for c in table.columns)
    found = [] if timed or table.rows > MOST_PEAK_ROWS else [m[0].decode() for m in _UNREAD.finditer(rows)]
    if not found:
        return ()
    cells = "1 cell says" if len(found) == 1 else f"{len(found)} cells say"
    return (f"{cells} '{found[0]}' and no number: what stands there was left out",)
