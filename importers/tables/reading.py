"""Bytes of a text file to tables: encoding, cells, header, body; the body parsed fast where it is plain."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from dynoan.model.importing import ReadOptions
from importers.decoding import encoding
from importers.grid import fixed_width
from importers.grid import judging as grid
from importers.grid.cells import BLANKS, OVER, is_number
from importers.grid.judging import Grid
from importers.header import finding as header
from importers.header.column import Column
from importers.header.finding import Header
from importers.header.own_layouts import with_card
from importers.tables import blocks as sections
from importers.tables import numbers
from importers.tables.blocks import Break, Section
from importers.tables.upright import transposed
from importers.words.clock import seconds

_WIDEST = 400
_MOST_TABLES = 300
_SMALL = 1 << 20


@dataclass(frozen=True)
class Table:
    """One table of a file, parsed, its columns named but not yet understood as channels."""

    columns: tuple[Column, ...]
    values: Mapping[int, FloatArray]
    texts: Mapping[int, list[str]]
    rows: int
    grid: Grid
    first_line: int  #: line of the file where the rows start, from 1
    shared: tuple[str, ...] = ()  #: lines that hold for the whole file
    own: tuple[str, ...] = ()  #: lines that hold for this table
    breaks: tuple[Break, ...] = ()
    warnings: tuple[str, ...] = ()
    over: int = 0
    named: bool = True  #: whether a line names the columns
    names: int = 0  #: how many cells the line of the names has; 0 where it is not a line
    options: ReadOptions = field(default_factory=ReadOptions)  #: with what an own layout states
    layout: str = "text"


@dataclass(frozen=True)
class _Place:
    """Where in the file a table's text lies."""

    text: str  #: the first lines
    line: int  #: number of the first of them, from 0
    data: bytes
    at: int  #: their offset in the data


def read_tables(data: bytes, name: str, options: ReadOptions) -> list[Table]:
    """Return the tables in a text file.

    Raises
    ------
    ReadError
        If the bytes are no text, or no table of numbers is in them, or a row is damaged.
    """
    found = encoding.detect(data[: encoding.HEAD], name)
    whole = len(data) <= encoding.HEAD
    text = encoding.head_text(data[: encoding.HEAD], found, whole=whole)
    if not whole and found.name.startswith(("utf-16", "utf-32")):
        _body_start(
            text.split("\n"), name, with_card(text.split("\n"), options)[0]
        )  # refuse before all is turned round
    body = encoding.as_utf8(data, found)
    skip = found.mark if body is data and found.mark else 0
    place = _Place(text, 0, body, skip)
    tables: list[Table] = []
    shared: tuple[str, ...] | None = None
    while True:
        try:
            batch, rest, above = _tables_at(place, name, options, found.name)
        except ReadError:
            if not tables:
                raise
            left = f"from line {place.line + 1} on no further table was understood: those lines were left out"
            return [*tables[:-1], replace(tables[-1], warnings=(*tables[-1].warnings, left))]
        own = () if shared is None else above
        shared = above if shared is None else shared
        tables += [replace(t, shared=shared, own=(*own, *t.own)) for t in batch]
        if rest is None:
            return tables
        if len(tables) > _MOST_TABLES:
            raise ReadError(f"{name}: more than {_MOST_TABLES} tables in one file; split it")
        place = _next(place, rest, found)


def _next(place: _Place, rest: int, found: encoding.Encoding) -> _Place:
    head = place.data[rest : rest + encoding.HEAD]
    code = "utf-8" if found.name.startswith("utf") else found.name
    text = encoding.head_text(head, encoding.Encoding(code, 0), whole=rest + len(head) >= len(place.data))
    return _Place(text, place.line + place.data.count(b"\n", place.at, rest), place.data, rest)


def _tables_at(
    place: _Place, name: str, options: ReadOptions, code: str
) -> tuple[list[Table], int | None, tuple[str, ...]]:
    """Return the tables from a place on, where a table of another shape starts, and the lines above the first."""
    lines = place.text.split("\n")
    turned = transposed(lines)
    if turned is not None:
        lines = turned
        place = _Place("\n".join(turned), place.line, "\n".join(turned).encode(), 0)
    options, layout = with_card(lines, options)
    cells, first = _body_start(lines, name, options)
    spans = fixed_width.spans(lines[first : first + 400], cells)
    if spans:
        first = fixed_width.first_row(lines, first, cells)
        full = max(lines[first : first + 400], key=lambda line: len(line.split()))
        head = header.find(lines[:first], replace(cells, width=len(spans)), full)
        start = _offset(place, first)
        place = replace(place, data=fixed_width.as_tabs(place.data[start:], spans, code), at=0)
        cells, start = fixed_width.widened(cells, spans), 0
    else:
        head = header.find(lines[:first], cells, lines[first])
        start = _offset(place, first)
    end, footer = _body_end(place.data, start, cells, code)
    body = memoryview(place.data)[start:end]
    line = place.line + first + 1
    numeric, text = _wanted(head, cells, options, small=len(body) < _SMALL)
    try:
        whole = numbers.parse(body, cells, numeric, text)
        section = Section(b"", head, cells, line)
        made = [_table(section, whole, options, head, layout)]
        rest = None
        if any(np.isnan(v.sum()) for v in whole.values.values()):
            made[0] = replace(made[0], over=_over(bytes(body), cells))
    except numbers.NotATable as fault:
        parts, rest = sections.split(bytes(body), head, cells, first_line=line, name=name, encoding=code)
        made = [_table(p, _parse(p, numeric, text, name, str(fault)), options, head, layout) for p in parts]
    above = (*head.preamble, *footer)
    return made, None if rest is None else start + rest, above


def _parse(part: Section, numeric: Iterable[int], text: Iterable[int], name: str, fault: str) -> numbers.Body:
    try:
        return numbers.parse(part.data, part.grid, numeric, text)
    except numbers.NotATable as error:
        raise ReadError(
            f"{name}, from line {part.first_line}: the rows cannot be read as {part.grid.words} "
            f"({_short(str(error))});"
            " give --delimiter and --decimal, or mend the line"
        ) from None


def _over(body: bytes, cells: Grid) -> int:
    """Return how many cells say that the sensor was beyond its range."""
    words = b"|".join(re.escape(w.encode()) for w in sorted(OVER, key=len, reverse=True))
    mark = rb"\s" if cells.delimiter == BLANKS else re.escape(cells.delimiter.encode())
    return len(re.findall(rb"(?im)(?:^|" + mark + rb"|\s)(?:" + words + rb")(?=" + mark + rb"|\s|$)", body))


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) < 120 else line[:117] + "…"


def _table(part: Section, body: numbers.Body, options: ReadOptions, head: Header, layout: str) -> Table:
    columns, values, texts = _clocks(head.columns, body)
    return Table(
        columns=columns, values=values, texts=texts, rows=body.rows, grid=part.grid,
        first_line=part.first_line, own=part.lines, breaks=part.breaks, warnings=part.warnings, over=part.over,
        named=head.found, names=head.cells, options=options, layout=layout,
    )  # fmt: skip


def _clocks(
    columns: tuple[Column, ...], body: numbers.Body
) -> tuple[tuple[Column, ...], dict[int, FloatArray], dict[int, list[str]]]:
    """Return the columns with clock times as seconds."""
    values, texts = dict(body.values), dict(body.texts)
    named = list(columns)
    for column in columns:
        if column.channel == "time" and column.index in texts:
            found = seconds(texts.pop(column.index))
            if found is not None:
                values[column.index] = found
                named[column.index] = replace(column, unit="s")
    return tuple(named), values, texts


def _body_start(lines: Sequence[str], name: str, options: ReadOptions) -> tuple[Grid, int]:
    """Return the cells' grid and the index of the first row."""
    cells = grid.detect(tuple(lines), options.delimiter, options.decimal)
    if cells is None and header.names_columns(lines):
        raise ReadError(f"{name}: the columns are named but no rows of numbers follow; export the run again")
    if cells is None or cells.width > _WIDEST:
        raise ReadError(
            f"{name}: no table of numbers in its first lines{_shown(lines)}; wanted rows of time, displacement, "
            "velocity and force; --delimiter and --decimal help where the cells are set apart oddly"
        )
    first = _first_row(lines, cells)
    if first is not None:
        return _earlier(lines, first, options) or (cells, first)
    raise ReadError(f"{name}: no two rows of numbers follow one another{_shown(lines)}; wanted a table")


def _earlier(lines: Sequence[str], first: int, options: ReadOptions) -> tuple[Grid, int] | None:
    """Return the grid and first row of a table of another shape that stands above the one most lines fit."""
    if first < 4:
        return None
    cells = grid.detect(tuple(lines[:first]), options.delimiter, options.decimal)
    start = None if cells is None else _first_row(lines[:first], cells)
    if cells is None or start is None:
        return None
    channels = {c.channel or c.direction for c in header.find(lines[:start], cells, lines[start]).columns}
    useful = channels & {"force", "compression", "rebound"} and channels & {"velocity", "displacement"}
    return (cells, start) if useful else None


def _first_row(lines: Sequence[str], cells: Grid) -> int | None:
    """Return the first row that another follows; in a table of one or two rows, the first."""
    lone: list[int] = []
    for i, line in enumerate(lines):
        if not cells.is_row(cells.cells(line)):
            continue
        below = next((other for other in lines[i + 1 :] if other.strip()), "")
        if cells.is_row(cells.cells(below)):
            return i
        lone.append(i)
    return lone[0] if 1 <= len(lone) <= 2 else None


def _shown(lines: Sequence[str]) -> str:
    first = next((line.strip() for line in lines if line.strip()), "")
    shown = "".join(c if c.isprintable() else "·" for c in first[:40])
    return f" (line 1 begins '{shown}')" if shown else ""


def _offset(place: _Place, line: int) -> int:
    at = place.at
    for _ in range(line):
        at = place.data.find(b"\n", at) + 1
    return at


def _body_end(data: bytes, start: int, cells: Grid, code: str) -> tuple[int, tuple[str, ...]]:
    """Return where the last row ends, and the lines below it."""
    tail_at = max(start, len(data) - 8192)
    if tail_at > start:
        tail_at = data.find(b"\n", tail_at) + 1
    tail = data[tail_at:]
    end = len(data)
    footer: list[str] = []
    for raw in reversed(tail.splitlines(keepends=True)):
        text = raw.decode("utf-8" if code.startswith("utf") else code, errors="replace").strip("\r\n\x1a\x0c\0")
        found = cells.cells(text)
        if text.strip() and (cells.is_row(found) or any(is_number(c, cells.decimal) for c in found[1:])):
            return end, tuple(reversed(footer))
        footer += [text] if text.strip() else []
        end -= len(raw)
    return len(data), ()


def _wanted(head: Header, cells: Grid, options: ReadOptions, *, small: bool) -> tuple[list[int], list[int]]:
    """Return the numeric and the text columns to parse."""
    stated = {v.strip().lower() for v in options.columns.values()}
    named = {c.index for c in head.columns if c.text.lower() in stated or str(c.index + 1) in stated}
    numeric = [
        c.index
        for c in head.columns
        if cells.numeric[c.index] and (small or c.known or not head.found or c.index in named)
    ]
    text = [c.index for c in head.columns if not cells.numeric[c.index] and (small or c.role or c.channel == "time")]
    return numeric, text
