"""Tables: for people in a terminal, for a pipe, and as CSV."""

from __future__ import annotations

import csv
import io
import re
import shutil
import sys
import unicodedata
from collections.abc import Sequence

_VALUE = r"[+\-−±]?\s*\d[\d.,\s]*(?:[eE][+-]?\d+)?\s*(?:%|°C)?"
_NUMBER = re.compile(rf"^{_VALUE}(?:\s*(?:±|to|…|\.\.|–)\s*{_VALUE})?\*?(?:\s*\([^()]*\)\*?)?$")
FITTED = 300  #: fitting a table of more rows to the terminal takes seconds
_EMPTY = {"", "-", "–", "—", "?"}


def table(columns: Sequence[str], rows: Sequence[Sequence[str]], title: str = "") -> None:
    """Print a table on standard output: fitted to the terminal, or as plain text where it is long or nobody looks on.

    Columns of numbers are set to the right and never cut or wrapped; text columns give way.
    """
    cells = [[_one_line(cell) for cell in row] for row in rows]
    if sys.stdout.isatty() and len(cells) <= FITTED:
        _print_fitted([_one_line(c) for c in columns], cells, title)
    else:
        sys.stdout.write(plain_text(columns, cells, title))


def plain_text(columns: Sequence[str], rows: Sequence[Sequence[str]], title: str = "") -> str:
    """Return a table as aligned plain text, nothing cut."""
    right = numeric_columns(columns, rows)
    widths = [max([_width(columns[i])] + [_width(row[i]) for row in rows]) for i in range(len(columns))]
    lines = [title] if title else []
    lines.append(_row(columns, widths, right))
    lines.append("  ".join("-" * width for width in widths))
    lines += [_row(row, widths, right) for row in rows]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def csv_text(columns: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """Return a table as CSV: commas, decimal points, one header line, quotes where needed."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return out.getvalue()


def numeric_columns(columns: Sequence[str], rows: Sequence[Sequence[str]]) -> list[bool]:
    """Return which columns hold numbers only (blanks and dashes aside)."""
    out = []
    for i in range(len(columns)):
        filled = [row[i] for row in rows if row[i].strip() not in _EMPTY]
        out.append(bool(filled) and all(_NUMBER.match(cell.strip()) for cell in filled))
    return out


def _one_line(cell: object) -> str:
    # Names come from files: a control character must not steer the terminal.
    return "".join(c if c.isprintable() else " " for c in str(cell))


def _width(text: str) -> int:
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def _row(cells: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> str:
    padded = []
    for cell, width, is_right in zip(cells, widths, right, strict=True):
        space = " " * (width - _width(cell))
        padded.append(space + cell if is_right else cell + space)
    return "  ".join(padded)


def _print_fitted(columns: Sequence[str], rows: Sequence[Sequence[str]], title: str) -> None:
    from rich import box
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    right = numeric_columns(columns, rows)
    out = Table(title=Text(title) if title else None, box=box.SIMPLE_HEAD, title_justify="left", title_style="bold",
                pad_edge=False)  # fmt: skip
    for i, (name, is_right) in enumerate(zip(columns, right, strict=True)):
        out.add_column(Text(name), justify="right" if is_right else "left", no_wrap=is_right, overflow="fold",
                       min_width=_widest(i, rows) if is_right else None)  # fmt: skip
    for row in rows:
        out.add_row(*(Text(cell) for cell in row))
    console = Console(highlight=False, width=shutil.get_terminal_size().columns)
    fixed = sum(_widest(i, rows) if is_right else 4 for i, is_right in enumerate(right)) + 2 * len(columns)
    if fixed > console.width:
        sys.stdout.write(plain_text(columns, rows, title))
    else:
        console.print(out)


def _widest(column: int, rows: Sequence[Sequence[str]]) -> int:
    return max((_width(row[column]) for row in rows), default=0)
