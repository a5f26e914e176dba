"""The columns of a log: as they stand, not yet understood as anything."""

from __future__ import annotations

import re

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.model.log import LogColumn
from importers.tables.reading import read_tables


def columns(data: bytes, name: str) -> tuple[LogColumn, ...]:
    """Return the columns of numbers of the longest table in a text file.

    Raises
    ------
    ReadError
        If the file holds no table of numbers with named columns.
    """
    table = max(read_tables(data, name, ReadOptions()), key=lambda t: t.rows)
    if not table.named:
        raise ReadError(
            "no line names the columns", where=name, hint="put one above the numbers, such as time [s],fl [mm]"
        )
    return tuple(
        LogColumn(_without_unit(c.text), c.unit or c.unknown_unit or _in_brackets(c.text), table.values[c.index], name)
        for c in table.columns
        if c.index in table.values
    )


def _in_brackets(text: str) -> str:
    """Return a unit of one letter that is none of a test's, such as the V of "Pot FL [V]"."""
    found = re.search(r"\[([^\W\d_])\]\s*$", text.strip().strip("\"'"))
    return found[1] if found else ""


def _without_unit(text: str) -> str:
    return re.sub(r"\s{0,9}[\[(][^\])]{0,99}[\])]\s*$", "", text.strip().strip("\"'")).strip() or text.strip()
