"""Text to cells.

In go the lines of a file's head. Out comes a `CellGrid`: the delimiter, the decimal mark, the marks that group digits,
and which columns hold numbers; with it a line becomes cells and a cell a number, a missing value or words. Called by
`text_file` to recognise a file, by `header` for the cells above the rows and by `tables` for the rows.
"""

from importers.grid.cell_grid import CellGrid
from importers.grid.cells import BLANKS, are_numbers, is_any_number, is_missing, is_number, split_cells
from importers.grid.fixed_width import ColumnSpan, as_tabs, first_fixed_row, fixed_spans, tabbed
from importers.grid.judging import detect_grid

__all__ = ["BLANKS", "CellGrid", "ColumnSpan", "are_numbers", "as_tabs", "detect_grid", "first_fixed_row",
           "fixed_spans", "is_any_number", "is_missing", "is_number", "split_cells", "tabbed"]  # fmt: skip
