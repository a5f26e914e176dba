"""Sheets of a workbook that hold no run but a list of settings, a line for each of the other sheets."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from importers.tables import ParsedTable
from importers.words.spelling import plain

_MOTIONS = frozenset(("time", "displacement", "velocity"))


class ListSheet(NamedTuple):
    """A sheet without motion beside others that hold some."""

    title: str
    text: str  #: its cells set apart by tabs


def may_be_run(tables: Sequence[ParsedTable]) -> bool:
    """Whether a sheet's tables hold any motion, or clicks over forces, without which they are a list."""
    columns = [c for table in tables for c in table.columns]
    return any(c.channel in _MOTIONS or c.channel == "force" or c.clicks for c in columns) or not any(
        table.named for table in tables
    )


def said_of_sheet(title: str, lists: Sequence[ListSheet]) -> tuple[str, ...]:
    """Return what lists say of the run of a sheet: a line for each cell of the row whose first cell is its name.

    >>> said_of_sheet("Run 2", [ListSheet("Settings", "Run\\tShock\\tLSC\\n1\\tA\\t4\\n2\\tB\\t8")])
    ('Shock: B', 'LSC: 8')
    """
    said: list[str] = []
    for one in lists:
        names, *rows = [line.split("\t") for line in one.text.splitlines() if line.strip()] or [[]]
        mine = [row for row in rows if row and _is_called(title, row[0])]
        if len(mine) == 1:
            said += [f"{k}: {v}" for k, v in zip(names[1:], mine[0][1:], strict=False) if k.strip() and v.strip()]
    return tuple(said)


def _is_called(title: str, cell: str) -> bool:
    """Whether a cell is a sheet's name, or its only number."""
    numbers = re.findall(r"\d+", title)
    return bool(cell.strip()) and (plain(cell) == plain(title) or (len(numbers) == 1 and cell.strip() == numbers[0]))


def left_aside(titles: Sequence[str], lists: Sequence[ListSheet]) -> tuple[str, ...]:
    """Return a warning of each list that says nothing of any sheet."""
    silent = [one.title for one in lists if not any(said_of_sheet(title, [one]) for title in titles)]
    return tuple(f"sheet '{title}' holds no motion and was left out" for title in silent)
