"""Small tables, parts and files for tests of single rooms of the importers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from hypothesis import settings

from dynoan.model.importing import ReadOptions
from importers.grid import CellGrid
from importers.header import describe_column
from importers.parts import SweepPart, cut_table
from importers.tables import ParsedTable

#: few examples, since each room is small, and no deadline, since machines are shared
quick = settings(max_examples=40, deadline=None)


def grid_of(width: int, delimiter: str = ",", decimal: str = ".", **more) -> CellGrid:
    return CellGrid(delimiter, decimal, width, more.pop("numeric", (True,) * width), **more)


def table_of(columns: Mapping[str, Sequence], options: ReadOptions | None = None, **more) -> ParsedTable:
    """A table of named columns: lists of texts are columns of words, all else is numbers."""
    described = tuple(describe_column(i, name) for i, name in enumerate(columns))
    values, texts = {}, {}
    for i, column in enumerate(columns.values()):
        words = len(column) > 0 and isinstance(column[0], str)
        (texts if words else values)[i] = list(column) if words else np.array(column, float)
    rows = len(next(iter(columns.values())))
    numeric = tuple(i in values for i in range(len(columns)))
    return ParsedTable(
        described, values, texts, rows, grid_of(len(columns), numeric=numeric), first_line=2,
        name_cells=len(columns), options=options or ReadOptions(), **more,
    )  # fmt: skip


def parts_of(columns: Mapping[str, Sequence], options: ReadOptions | None = None, **more) -> list[SweepPart]:
    return list(cut_table(table_of(columns, options, **more), more.pop("name", "rig.csv")))


def part_of(columns: Mapping[str, Sequence], options: ReadOptions | None = None, **more) -> SweepPart:
    (part,) = parts_of(columns, options, **more)
    return part


RATE = 500.0
T = np.arange(1500) / RATE
X = 0.02 * np.sin(2 * np.pi * T)
V = 0.02 * 2 * np.pi * np.cos(2 * np.pi * T)
F = 3000 * V + 140 + 300 * X  #: damping, gas, and what the rod adds


def trace(**changed) -> dict[str, np.ndarray]:
    """A trace of one stroke a second with gas force, columns in SI by name and unit."""
    columns = {"Time [s]": T, "Displacement [m]": X, "Velocity [m/s]": V, "Force [N]": F}
    named = {name.split()[0].lower(): name for name in columns}
    for key, values in changed.items():
        if values is None:
            del columns[named[key]]
        else:
            columns[named[key]] = values
    return columns
