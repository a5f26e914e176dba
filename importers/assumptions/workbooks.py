"""What is taken for granted of workbooks, and what reading one may take."""

from __future__ import annotations

#: [cells] a sheet that is read has no more, empty ones among others included; judged: a third of what numbers alone
#: may be, as cells of a workbook take that much more memory
MOST_CELLS = 20_000_000
#: [bytes] a workbook that unpacks to more is read in a process of its own, bounded in time and memory; judged: a
#: smaller one is read sooner than a process begins
LARGE_WORKBOOK = 8_000_000
#: [rows] a sheet of an .xlsx has no more, by the programs that write them (from memory); common practice, no source
MOST_ROWS = 1_048_576
#: [s] of computing that such a process may take, whatever it reads; judged: starting up on a slow machine, with room
SHEET_SECONDS = 10.0
#: [s] and for each cell, ten times what python-calamine and openpyxl took (0.5 and 6 microseconds); measured on one
#: machine; ten times for a slower one
SHEET_SECONDS_PER_CELL, SHEET_SECONDS_PER_CELL_SLOW = 5e-6, 50e-6
