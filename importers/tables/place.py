"""Where in a file a table's text lies, and where its rows start and end."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD, ReadOptions
from importers.assumptions.tables import EARLIER_TABLE_LINE, WIDEST_TABLE
from importers.decoding import Encoding, head_text
from importers.grid import BLANKS, CellGrid, detect_grid, is_number
from importers.header import find_header, names_columns
from importers.patterns import regex
from importers.tables.last_line import breaks_off
from importers.words.adjusters import adjuster_of
from importers.words.clicks import clicks_of
from importers.words.keys import KNOWN, is_date
from importers.words.spelling import plain

_MARKS = (";", "\t", "|", ":", "=", ",")  #: between a key and its value
_SEEN_BEFORE = 40  #: lines before the last that are looked at with it
_TAIL = 8192  #: how far from the end lines below the rows are looked for [bytes]
_FORCES = frozenset(("force", "compression", "rebound"))
_MOTIONS = frozenset(("velocity", "displacement"))
_SHOWN = {"\t": "tab", BLANKS: "blanks"}  #: marks that are written as words


class TextPlace(NamedTuple):
    """Where in a file a table's text lies."""

    text: str  #: the first lines
    line: int  #: number of the first of them, from 0
    data: bytes
    at: int  #: their offset in the data [bytes]

    def offset(self, line: int) -> int:
        """Return where a line starts in the data, counted from the first. [bytes]"""
        at = self.at
        for _ in range(line):
            at = self.data.find(b"\n", at) + 1
        return at

    def moved_to(self, rest: int, encoding: Encoding) -> TextPlace:
        """Return the place of what follows from a byte on."""
        head = self.data[rest : rest + HEAD]
        text = head_text(head, Encoding(encoding.of_body), whole=rest + len(head) >= len(self.data))
        return TextPlace(text, self.line + self.data.count(b"\n", self.at, rest), self.data, rest)


class CodedPlace(NamedTuple):
    """A place of a file, and how its bytes are text."""

    place: TextPlace
    encoding: Encoding
    said: tuple[str, ...] = ()  #: warnings of what was made plainer

    def moved_to(self, rest: int) -> CodedPlace:
        """Return the place of what follows from a byte on."""
        return CodedPlace(self.place.moved_to(rest, self.encoding), self.encoding)


_BRACKETED = regex(r"[\[(][^\])]*[\])]")


class RowsStart(NamedTuple):
    """Where the rows of a table start."""

    grid: CellGrid
    line: int  #: counted from the first line looked at


class RowsEnd(NamedTuple):
    """Where the rows of the last table end."""

    at: int  #: offset in the data [bytes]
    footer: tuple[str, ...]  #: the lines below
    broken: bool = False  #: whether a last line that broke off was left out


def rows_start(lines: Sequence[str], name: str, options: ReadOptions) -> RowsStart:
    """Return how the cells stand and where the first row is.

    Raises
    ------
    ReadError
        If there is no table of numbers in sight.
    """
    grid = detect_grid(tuple(lines), options.delimiter, options.decimal)
    if grid is None and (options.delimiter or options.decimal) and (other := detect_grid(tuple(lines))) is not None:
        stated = (("delimiter", options.delimiter), ("decimal", options.decimal))
        told = " ".join(f"--{k} {_SHOWN.get(v, repr(v))}" for k, v in stated if v)
        raise ReadError(
            f"no rows of numbers stand as {told} says",
            where=name,
            hint=f"there are some with {other.words}: leave it out",
        )
    if grid is None and names_columns(lines):
        raise ReadError("the columns are named but no rows of numbers follow", where=name, hint="export the run again")
    if grid is None or grid.width > WIDEST_TABLE:
        raise ReadError(
            f"no table of numbers in its first lines{_shown(lines)}; wanted rows of time, displacement, "
            "velocity and force",
            where=name,
            hint="--delimiter and --decimal help where the cells are set apart oddly",
        )
    first = _first_row(lines, grid)
    if first is not None:
        return _earlier(lines, first, options) or RowsStart(grid, first)
    raise ReadError(f"no two rows of numbers follow one another{_shown(lines)}", where=name, hint="wanted a table")


def _earlier(lines: Sequence[str], first: int, options: ReadOptions) -> RowsStart | None:
    """Return where a table of another shape starts that stands above the one most lines fit."""
    if first < EARLIER_TABLE_LINE:
        return None
    grid = detect_grid(tuple(lines[:first]), options.delimiter, options.decimal)
    start = None if grid is None else _first_row(lines[:first], grid)
    if grid is None or start is None or clicks_of(lines[start]):
        return None  # "LSC 4 LSR 6 ... LSC 8 LSR 10" over the names of columns
    if plain(_BRACKETED.sub(" ", grid.cells(lines[start])[0])).strip(" .:") in KNOWN:
        return None  # "Rate (Hz):,512,512,512", a fact of each channel
    channels = {c.channel or c.direction for c in find_header(lines[:start], grid, lines[start]).columns}
    return RowsStart(grid, start) if channels & _FORCES and channels & _MOTIONS else None


def _first_row(lines: Sequence[str], grid: CellGrid) -> int | None:
    """Return the first row that another follows, or that names stand over; in a table of one or two rows, the first."""
    lone: list[int] = []
    for i, line in enumerate(lines):
        if not (grid.is_line_row(line) or grid.remark(grid.cells(line))):
            continue
        below = next((other for other in lines[i + 1 :] if other.strip()), "")
        if grid.is_line_row(below) or _stands_under_names(lines, i, grid):
            return _head_of_group(lines, i, grid)
        lone.append(i)
    return lone[0] if 1 <= len(lone) <= 2 else None


def _head_of_group(lines: Sequence[str], at: int, grid: CellGrid) -> int:
    """Return the line above the first row where it is a key alone, right under the names; that row where it is none."""
    above = next((i for i in reversed(range(at)) if lines[i].strip()), at)
    cells = grid.cells(lines[above])
    filled = [k for k, cell in enumerate(cells) if cell]
    alone = len(cells) == grid.width > 2 and len(filled) == 1 and not grid.numeric[filled[0]]
    return above if alone and above < at and _stands_under_names(lines, above, grid) else at


def _stands_under_names(lines: Sequence[str], at: int, grid: CellGrid) -> bool:
    """Whether the line above one names a force and a motion, as it does over the first row of a table."""
    above = next((i for i in reversed(range(at)) if lines[i].strip()), None)
    if above is None:
        return False
    header = find_header(lines[above : above + 1], grid, lines[at])
    held = {c.channel or c.direction for c in header.columns}
    return header.found and bool(held & _FORCES and held & _MOTIONS)


def _shown(lines: Sequence[str]) -> str:
    first = next((line.strip() for line in lines if line.strip()), "")
    shown = "".join(c if c.isprintable() else "·" for c in first[:40])
    return f" (line 1 begins '{shown}')" if shown else ""


def _full(cells: Sequence[str], grid: CellGrid) -> bool:
    """Whether a line has all the cells of a row and most begin as numbers do: a damaged row, and none below."""
    return len(cells) == grid.width and 2 * sum(c.lstrip("-+−")[:1].isdigit() for c in cells) > grid.width


def _is_fact(text: str) -> bool:
    """Whether a line is one known key and its value, which a number makes no row: "Comp clicks,4"."""
    for mark in _MARKS:
        cells = [cell.strip(' "') for cell in text.split(mark)]
        key, values = plain(cells[0]).strip(" .:"), [cell for cell in cells[1:] if cell]
        if not 1 <= len(values) <= 2 or any(is_number(cell, ".") for cell in values[1:]):
            continue
        if adjuster_of(key) is not None:
            return bool(clicks_of(f"{key} {values[0]}"))
        return key in KNOWN or is_date(key)
    return False


def rows_end(data: bytes, start: int, grid: CellGrid, code: str) -> RowsEnd:
    """Return where the last row ends, and the lines below it; a last line that broke off is left out."""
    tail_at = max(start, len(data) - _TAIL)
    if tail_at > start:
        tail_at = data.find(b"\n", tail_at) + 1
    end = len(data)
    footer: list[str] = []
    lines = data[tail_at:].splitlines(keepends=True)
    broken = _is_broken(lines, grid, code)
    if broken:
        end -= len(lines.pop())
    for raw in reversed(lines):
        text = _line(raw, code)
        cells = grid.cells(text)
        if text.strip() and (
            grid.is_row(cells)
            or _full(cells, grid)
            or (any(is_number(c, grid.decimal) for c in cells[1:]) and not _is_fact(text))
        ):
            return RowsEnd(end, tuple(reversed(footer)), broken)
        footer += [text] if text.strip() else []
        end -= len(raw)
    return RowsEnd(len(data), ())


def _is_broken(lines: Sequence[bytes], grid: CellGrid, code: str) -> bool:
    """Whether no line end follows the last line, and it broke off."""
    if not lines or lines[-1].endswith((b"\n", b"\r")):
        return False
    last, *before = (_line(raw, code) for raw in (lines[-1], *lines[-_SEEN_BEFORE - 1 : -1]))
    return breaks_off(last, before, grid)


def _line(raw: bytes, code: str) -> str:
    return raw.decode(code, errors="replace").strip("\r\n\x1a\x0c\0")
