"""Lines above the rows to columns.

In go the lines above a table's rows and its `CellGrid`. Out comes a `Header`: what each column is named and what its
name says (`HeaderColumn`), and the lines that are no header. `with_layout` adds what a team's own layout states of
such a file. Called by `tables`; `describe_column` also by `stated`, for channels named within sentences.
"""

from importers.header.channel_in_name import spaced
from importers.header.column import HeaderColumn, describe_column
from importers.header.comments import uncomment
from importers.header.finding import find_header, names_columns
from importers.header.groups import unit_apart
from importers.header.header import Header
from importers.header.own_layouts import LayoutChoice, with_layout
from importers.header.settings_table import with_settings_as_lines

__all__ = [
    "Header",
    "HeaderColumn",
    "LayoutChoice",
    "describe_column",
    "find_header",
    "names_columns",
    "spaced",
    "uncomment",
    "unit_apart",
    "with_layout",
    "with_settings_as_lines",
]
