"""Tables to the rows of single sweeps.

In goes a `ParsedTable`. Out come `SweepPart`s: rows of one run in one setting, with the roles of their columns
(`ColumnRoles`) and all that is stated of them. A table is cut by its key columns, by lines between its rows, where
time starts again, and by the click positions among its columns. Called by `sweeps`.
"""

from importers.parts.cutting import cut_table
from importers.parts.half_titles import with_half_titles_apart
from importers.parts.part import ColumnRoles, SweepPart, names_for_people

__all__ = ["ColumnRoles", "SweepPart", "cut_table", "names_for_people", "with_half_titles_apart"]
