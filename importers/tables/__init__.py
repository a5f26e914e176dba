"""Text to tables of numbers.

In go a file's bytes, its name and what the user states. Out come `ParsedTable`s: columns named but not yet understood
as channels, their numbers, and the lines that stand above, between and below the rows; or a refusal with the line.
Called by `text_file` and `workbooks`.
"""

from importers.tables.clock_columns import with_clocks
from importers.tables.extent import Extent
from importers.tables.pages import said_before
from importers.tables.plain_bytes import page_as_text
from importers.tables.reading import read_tables
from importers.tables.table import ParsedTable, RowBreak, is_day_column
from importers.tables.tidy_cells import tidied

__all__ = [
    "Extent",
    "ParsedTable",
    "RowBreak",
    "is_day_column",
    "page_as_text",
    "read_tables",
    "said_before",
    "tidied",
    "with_clocks",
]
