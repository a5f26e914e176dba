"""Columns of a logged CSV: names, units and numbers, in whatever dialect the logger writes."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import CallError, QuantityError, ReadError

if TYPE_CHECKING:
    from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class LogColumn:
    """One column of numbers."""

    name: str  #: without its unit
    unit: str  #: as it stands in the file, empty where there is none
    values: FloatArray
    file: str

    def si(self, kind: str) -> FloatArray:
        """Return the values in SI.

        Raises
        ------
        QuantityError
            If the column has no unit of that kind.
        """
        from dynoan.units import EXAMPLES, factor

        where = f"{self.file}: column '{self.name}'"
        unit = EXAMPLES[kind].split(" ", 1)[1]
        if not self.unit:
            raise QuantityError(f"{where} states no unit; write it in the header, such as '{self.name} [{unit}]'")
        try:
            return self.values * factor(self.unit, kind)
        except QuantityError:
            raise QuantityError(f"{where}: '{self.unit}' is no unit of {kind}; wanted one such as '{unit}'") from None


def read_log(path: Path) -> tuple[LogColumn, ...]:
    """Return the columns of numbers of a log.

    Raises
    ------
    ReadError
        If the file holds no table of numbers with named columns.
    """
    from dynoan.reading import read_tables

    table = max(read_tables(path.read_bytes(), path.name), key=lambda t: t.rows)
    if not table.named:
        raise ReadError(f"{path.name}: no line names the columns; put one above the numbers, such as time [s],fl [mm]")
    return tuple(LogColumn(_bare(c.name), c.unit, c.values, path.name) for c in table.columns)


def _bare(text: str) -> str:
    return re.sub(r"\s*[\[(][^\])]*[\])]\s*$", "", text.strip().strip("\"'")).strip() or text.strip()


def _plain(text: str) -> str:
    return re.sub(r"[\s_\-.]+", " ", text).strip().lower()


def named(columns: Sequence[LogColumn], name: str) -> LogColumn:
    """Return the column of that name; case, blanks, underscores and the unit do not matter.

    Raises
    ------
    CallError
        If there is none, with the names there are.
    """
    for column in columns:
        if _plain(name) in (_plain(column.name), _plain(f"{column.name} [{column.unit}]")):
            return column
    have = ", ".join(c.name for c in columns)
    raise CallError(f"{columns[0].file}: no column '{name}'; it has {have}")


def like(columns: Sequence[LogColumn], pattern: str) -> LogColumn | None:
    """Return the first column whose name has a match of a pattern, or None."""
    return next((c for c in columns if re.search(pattern, _plain(c.name))), None)


def time_of(columns: Sequence[LogColumn]) -> FloatArray:
    """Return the time column. [s]

    Raises
    ------
    CallError
        If no column is named time.
    """
    found = like(columns, r"^(time|t|zeit|temps|tiempo)\b")
    if found is None:
        have = ", ".join(c.name for c in columns)
        raise CallError(f"{columns[0].file}: no column is named time; it has {have}")
    return found.si("time")
