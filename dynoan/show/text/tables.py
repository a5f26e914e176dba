"""Tables: for people in a terminal, for a pipe, and as CSV."""

from __future__ import annotations

import csv
import io
import re
import sys
from collections.abc import Sequence
from functools import lru_cache

from dynoan.show.text.spelled import spelled
from dynoan.show.text.widths import across, least_width, one_line, padded, terminal_width, wrapped

_VALUE = r"(?:[+\-−±]|\+/-)?\s*\d[\d.,\s]*(?:[eE][+-]?\d+)?\s*(?:%|°C|°F)?"
_NUMBER = re.compile(rf"^{_VALUE}(?:\s*(?:±|\+/-|to|…|\.\.\.?|–|-|\+ [\d.]+ −)\s*{_VALUE})?\*?(?:\s*\([^()]*\)\*?)?$")
_EMPTY = {"", "-", "–", "—", "?"}
_GAP, _INDENT = "  ", "    "
#: from so many rows, and columns, on a table is long: turned on its side it would be hard to look over
LONG = 4
#: lines of a head and of a cell of words; more are harder to read than a table turned on its side
_FOLDS = ((1, 1), (2, 1), (3, 1), (2, 2), (3, 3))


def table(columns: Sequence[str], rows: Sequence[Sequence[str]], title: str = "", *, alike: bool = False) -> None:
    """Print a table on standard output: fitted to the terminal, or as plain text where nobody looks on."""
    heads, *cells = ([spelled(one_line(cell), sys.stdout) for cell in row] for row in (columns, *rows))
    title = spelled(title, sys.stdout)
    text = fitted_text(heads, cells, title, terminal_width(), alike=alike) if sys.stdout.isatty() else None
    sys.stdout.write(plain_text(heads, cells, title) if text is None else text)


def plain_text(columns: Sequence[str], rows: Sequence[Sequence[str]], title: str = "") -> str:
    """Return a table as aligned plain text, nothing cut."""
    widths = [max(across(columns[i]), _widest(i, rows)) for i in range(len(columns))]
    return _text([title] if title else [], _lines(columns, rows, widths, numeric_columns(columns, rows)))


def fitted_text(
    columns: Sequence[str], rows: Sequence[Sequence[str]], title: str, width: int, *, alike: bool = False
) -> str:
    """Return a table as text no wider than `width`, every word and number whole.

    Heads and columns of words are set on several lines; where that is not enough, the last columns hang under each row
    of a long table; else the table is turned on its side: heads to the left, as many rows beside each other as there is
    room for, each under what stands in its first column. Columns that are alike stand below each other instead, each
    part with the first column.
    """
    above = wrapped(title, width) if title else []
    right = numeric_columns(columns, rows)
    widths = _folded(columns, rows, right, width)
    if widths is not None:
        return _text(above, _lines(columns, rows, widths, right))
    lines = _parted(columns, rows, width) if alike else _hung(columns, rows, right, width)
    return _text(above, lines or _turned(columns, rows, width))


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
        out.append(bool(filled) and all(_NUMBER.match(" ".join(cell.split())) for cell in filled))
    return out


def _text(above: Sequence[str], lines: Sequence[str]) -> str:
    return "\n".join(line.rstrip() for line in [*above, *lines]) + "\n"


def _lines(
    columns: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[int], right: Sequence[bool]
) -> list[str]:
    out = [*_headed(columns, widths, right), _GAP.join("-" * width for width in widths)]
    return [*out, *(line for row in rows for line in _set(row, widths, right))]


def _headed(columns: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> list[str]:
    heads = [wrapped(head, w) for head, w in zip(columns, widths, strict=True)]
    high = max(map(len, heads), default=1)
    return _stacked([[""] * (high - len(head)) + head for head in heads], widths, right)


def _set(row: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> list[str]:
    return _stacked([wrapped(cell, w, seams=True) for cell, w in zip(row, widths, strict=True)], widths, right)


def _stacked(cells: Sequence[Sequence[str]], widths: Sequence[int], right: Sequence[bool]) -> list[str]:
    """Return cells of one or more lines beside each other."""
    return [
        _GAP.join(
            padded(cell[line] if line < len(cell) else "", w, r)
            for cell, w, r in zip(cells, widths, right, strict=True)
        )
        for line in range(max(map(len, cells), default=0))
    ]


def _folded(
    columns: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[bool], width: int
) -> list[int] | None:
    """Return widths with heads, then words too, folded as little as needed; None where that is not enough."""
    for in_head, in_cell in _FOLDS:
        widths = [
            max(_narrowest(head, in_head), *(_narrowest(row[i], 1 if r else in_cell) for row in rows), 0)
            for i, (head, r) in enumerate(zip(columns, right, strict=True))
        ]
        spare = width - sum(widths) - len(_GAP) * (len(widths) - 1)
        if spare >= 0:
            return _widened(widths, [max(across(head), _widest(i, rows)) for i, head in enumerate(columns)], spare)
    return None


def _widened(widths: list[int], whole: Sequence[int], spare: int) -> list[int]:
    """Return widths with columns unfolded as far as there is room, those first that need least."""
    out = list(widths)
    for i in sorted(range(len(out)), key=lambda i: whole[i] - out[i]):
        if whole[i] - out[i] <= spare:
            spare -= whole[i] - out[i]
            out[i] = whole[i]
    return out


@lru_cache(maxsize=4096)
def _narrowest(text: str, lines: int) -> int:
    """Return the least width at which text takes no more than so many lines."""
    if lines == 1:
        return across(text)
    return next((w for w in range(1, across(text) + 1) if _fits(wrapped(text, w, seams=True), lines, w)), 0)


def _fits(folded: Sequence[str], lines: int, width: int) -> bool:
    return len(folded) <= lines and max(map(across, folded), default=0) <= width


def _parted(columns: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> list[str] | None:
    """Return lines of as many columns at a time as fit, the first one with each; None where two do not."""
    for most in range(len(columns) - 2, 0, -1):
        count = -(-(len(columns) - 1) // most)
        even = -(-(len(columns) - 1) // count)
        parts = [[0, *range(i, min(i + even, len(columns)))] for i in range(1, len(columns), even)]
        tables = [([columns[i] for i in part], [[row[i] for i in part] for row in rows]) for part in parts]
        widths = [_folded(heads, cells, numeric_columns(heads, cells), width) for heads, cells in tables]
        if all(found is not None for found in widths):
            drawn = [
                _lines(heads, cells, found, numeric_columns(heads, cells))
                for (heads, cells), found in zip(tables, widths, strict=True) if found is not None
            ]  # fmt: skip
            return [line for i, lines in enumerate(drawn) for line in ([""] if i else []) + lines]
    return None


def _hung(columns: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[bool], width: int) -> list[str] | None:
    """Return lines with the last columns, as few as needed, under each row.

    None where rows are few, where the last column is not of long words, or where half of the columns, or what hangs,
    would not fit.
    """
    if len(rows) < LONG or len(columns) < LONG or right[-1] or _widest(len(columns) - 1, rows) <= width // 3:
        return None
    for kept in range(len(columns) - 1, len(columns) // 2, -1):
        widths = _folded(columns[:kept], [row[:kept] for row in rows], right[:kept], width)
        below = _hanging(columns[kept:], [row[kept:] for row in rows], width - len(_INDENT))
        if widths is not None and below is not None:
            return _twofold(columns, rows, right, widths, below)
    return None


def _hanging(columns: Sequence[str], rows: Sequence[Sequence[str]], room: int) -> list[int] | None:
    """Return widths of columns that hang, the last of what the others leave; None where that is less than half."""
    widths = [max(across(head), _widest(i, rows)) for i, head in enumerate(columns[:-1])]
    left = room - sum(widths) - len(_GAP) * len(widths)
    return [*widths, left] if left >= room // 2 else None


def _twofold(
    columns: Sequence[str],
    rows: Sequence[Sequence[str]],
    right: Sequence[bool],
    widths: Sequence[int],
    below: Sequence[int],
) -> list[str]:
    """Return lines of a table whose last columns, as many as `below` has widths, stand under the others."""
    kept = len(widths)
    hanging = [_headed(columns[kept:], below, right[kept:]), *(_set(row[kept:], below, right[kept:]) for row in rows)]
    out = _headed(columns[:kept], widths, right[:kept])
    out += [*map(_indented, hanging[0]), _GAP.join("-" * width for width in widths)]
    for row, lines in zip(rows, hanging[1:], strict=True):
        out += [*_set(row[:kept], widths, right[:kept]), *(_indented(line) for line in lines if line.strip())]
    return out


def _indented(line: str) -> str:
    return _INDENT + line


def _turned(columns: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> list[str]:
    """Return lines with heads to the left and rows beside each other, in groups that fit."""
    rows = _filled(columns, rows)
    word = max((least_width(cell) for row in rows for cell in row), default=0)
    left = min(max(map(across, columns), default=0), width // 2, max(1, width - len(_GAP) - word))
    room = width - left - len(_GAP)
    right = _mostly_numbers(rows)
    out: list[str] = []
    for group in _groups([min(max(map(across, row)), room) for row in rows], room, [row[0] for row in rows]):
        widths = [left, *(min(max(map(across, rows[i])), room) for i in group)]
        out += [""] if out else []
        for number, head in enumerate(columns):
            texts = (head, *(rows[i][number] for i in group))
            cells = [wrapped(text, w, seams=True) for text, w in zip(texts, widths, strict=True)]
            out += _stacked(cells, widths, [False, *(right and len(cell) == 1 for cell in cells[1:])])
            out += [_GAP.join("-" * w for w in widths)] if number == 0 else []
    return out


def _mostly_numbers(rows: Sequence[Sequence[str]]) -> bool:
    """Return whether a table on its side, where words and numbers share a column, holds no fewer numbers than words."""
    cells = [" ".join(cell.split()) for row in rows for cell in row if cell.strip() not in _EMPTY]
    return 2 * sum(1 for cell in cells if _NUMBER.match(cell)) >= len(cells)


def _filled(columns: Sequence[str], rows: Sequence[Sequence[str]]) -> list[list[str]]:
    """Return rows with what they leave blank because the row above says it: beside each other there is no row above."""
    out: list[list[str]] = []
    for row in rows:
        full = list(row)
        for i, head in enumerate(columns):
            if row[i] or not head or not out:
                break
            full[i] = out[-1][i]
        out.append(full)
    return out


def _groups(widths: Sequence[int], room: int, things: Sequence[str]) -> list[list[int]]:
    """Return which rows stand beside each other: of one thing only where things have several, shared out evenly."""
    apart = len(set(things)) < len(things)
    runs: list[list[int]] = []
    for i in range(len(widths)):
        if not runs or (apart and things[i] != things[i - 1]):
            runs.append([])
        runs[-1].append(i)
    return [group for run in runs for group in _shared_out(run, widths, room)]


def _shared_out(run: Sequence[int], widths: Sequence[int], room: int) -> list[list[int]]:
    """Return rows in as few groups as fit, each of about as many rows."""
    for size in range(len(run), 1, -1):
        even = -(-len(run) // -(-len(run) // size))
        groups = [list(run[i : i + even]) for i in range(0, len(run), even)]
        if all(sum(widths[i] for i in group) + len(_GAP) * (len(group) - 1) <= room for group in groups):
            return groups
    return [[i] for i in run]


def _widest(column: int, rows: Sequence[Sequence[str]]) -> int:
    return max((across(row[column]) for row in rows), default=0)
