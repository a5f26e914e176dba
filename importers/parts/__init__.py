"""Tables to the rows of single sweeps.

In goes a `ParsedTable`. Out come `SweepPart`s: rows of one run in one setting, with the roles of their columns
(`ColumnRoles`) and all that is stated of them. A table is cut by its key columns, by lines between its rows, where
time starts again, and by the click positions among its columns. Called by `sweeps`.
"""

from importers.parts.by_clicks import both_knobs_said
from importers.parts.cutting import cut_table
from importers.parts.gas_column import GASES, is_gas, names_gas, one_pressure
from importers.parts.half_titles import with_half_titles_apart
from importers.parts.part import ColumnRoles, SweepPart, names_for_people

__all__ = [
    "GASES", "ColumnRoles", "SweepPart", "both_knobs_said", "cut_table", "is_gas", "names_for_people", "names_gas",
    "one_pressure", "with_half_titles_apart",
]  # fmt: skip
