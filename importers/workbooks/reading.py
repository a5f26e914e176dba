"""Workbooks, each sheet like a text file.

.xlsx needs the optional extra `excel` (openpyxl); .ods, .xls and .xlsb the extra `sheets` (python-calamine).
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from hashlib import sha256
from importlib.util import find_spec
from typing import Any, NamedTuple, TypeAlias

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.model.sweep import Sweep
from importers.assumptions.records import MOST_UNPACKED
from importers.assumptions.workbooks import LARGE_WORKBOOK, MOST_CELLS, MOST_ROWS
from importers.damage import damage_in_words
from importers.sweeps import SourceFile, assemble_sweeps
from importers.tables import ParsedTable, read_tables
from importers.words.shock_names import SIDES, corner_alone
from importers.words.spelling import plain
from importers.workbooks.bounds import read_apart, too_long, unpacked_counts
from importers.workbooks.measured_sheets import measured_sheets
from importers.workbooks.own_process import TooLongError, sheet_text
from importers.workbooks.pinned_notes import pinned_notes
from importers.workbooks.setting_lists import ListSheet, left_aside, may_be_run, said_of_sheet

_EXTRAS = {".ods": "ods", ".xls": "xls"}  #: the extra by the end of a file's name
_ZIPPED = b"PK\x03\x04"  #: how an archive begins
_CARD_LINES = 60  #: a sheet with more is no card of a shock


class _SheetText(NamedTuple):
    """A sheet as tab-separated text."""

    title: str
    data: bytes
    hidden: bool


_Held: TypeAlias = tuple[_SheetText, list[ParsedTable]]


def workbook_sweeps(data: bytes, name: str, options: ReadOptions, *, other: bool) -> tuple[Sweep, ...]:
    """Return the sweeps of all sheets of a workbook that hold a table; `other` tells that it is no .xlsx.

    Raises
    ------
    ReadError
        If the workbook is damaged, or none of its sheets holds a table.
    """
    for option, given in (("--delimiter", options.delimiter), ("--decimal", options.decimal)):
        if given:
            raise ReadError(f"{option} has no effect on a workbook", where=name, hint="leave it out")
    digest = sha256(data).hexdigest()
    found: list[Sweep] = []
    faults: list[ReadError] = []
    told: tuple[str, ...] = ()
    held: list[_Held] = []
    for sheet in _sheets(data, name, other=other):
        place = f"{name}, sheet '{sheet.title}'"
        try:
            held.append((sheet, read_tables(sheet.data, place, options)))
        except ReadError as error:
            faults.append(error)
            told += _card(sheet.data)
    for sheet, read in _with_lists(held):
        tables = [replace(table, shared=(*table.shared, *told)) for table in read]
        sweeps = assemble_sweeps(tables, SourceFile(f"{name}, sheet '{sheet.title}'", digest, "excel"))
        found += [_of_sheet(sweep, name, sheet.title) for sweep in sweeps]
    if found:
        pinned = () if other else pinned_notes(data)
        found = [replace(one, warnings=(*one.warnings, *pinned)) for one in found] if pinned else found
        return measured_sheets(found, [sheet.title for sheet, _ in held if sheet.hidden])
    nothing = ReadError("no sheet holds anything", where=name, hint="wanted a table of force and velocity")
    raise faults[0] if faults else nothing


def _with_lists(held: list[_Held]) -> list[_Held]:
    """Return the sheets that may hold a run, each with what lists on the others say of it; all where none is a list."""
    runs = [(sheet, tables) for sheet, tables in held if may_be_run(tables)]
    if not runs or len(runs) == len(held):
        return held
    lists = [ListSheet(sheet.title, sheet.data.decode()) for sheet, tables in held if not may_be_run(tables)]
    left = left_aside([sheet.title for sheet, _ in runs], lists)

    def told(table: ParsedTable, title: str) -> ParsedTable:
        return replace(table, own=(*table.own, *said_of_sheet(title, lists)), warnings=(*table.warnings, *left))

    return [(sheet, [told(table, sheet.title) for table in tables]) for sheet, tables in runs]


def _card(data: bytes) -> tuple[str, ...]:
    """Return the lines of a sheet of words before or behind the tables: keys with one value each, none twice."""
    lines = [line.strip("\t") for line in data.decode().splitlines() if line.strip()]
    cells = [[c for c in line.split("\t") if c] for line in lines]
    keys = [row[0].lower() for row in cells]
    fits = len(lines) <= _CARD_LINES and all(len(row) <= 2 for row in cells) and len(set(keys)) == len(keys)
    return tuple(lines) if fits else ()


def _of_sheet(sweep: Sweep, name: str, title: str) -> Sweep:
    part = ", ".join(filter(None, (title, sweep.source.part)))
    said = {word for line, value in sweep.facts.items() if not value for word in plain(line).split() if word in SIDES}
    corner = None if said - {*plain(title).split()} else corner_alone(title)
    return replace(sweep, source=replace(sweep.source, name=name, part=part), shock=sweep.shock or corner)


def _sheets(data: bytes, name: str, *, other: bool) -> Iterator[_SheetText]:
    """Yield each sheet that holds anything."""
    try:
        sheets = _texts_of_others(data, name) if other else _texts_of_xlsx(data, name)
        for title, text, hidden in sheets:
            if text.strip():
                yield _SheetText(title, (text + "\n").encode(), hidden)
    except ReadError:
        raise
    except TooLongError:
        raise too_long(name) from None
    except Exception as error:  # the libraries raise whatever the damaged part provokes
        raise ReadError(
            f"the workbook is damaged ({damage_in_words(error)})",
            where=name,
            hint="open and save it again, or save it as CSV",
        ) from None


def _texts_of_xlsx(data: bytes, name: str) -> Iterator[tuple[str, str, bool]]:
    try:
        import openpyxl
    except ImportError:
        raise ReadError(
            "a workbook needs the extra: pip install 'dynoan[excel]'", where=name, hint="or save it as CSV"
        ) from None
    if _unpacked(data, name) > LARGE_WORKBOOK:
        yield from _texts_of_large(data, name)
        return
    book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
    for sheet in book.worksheets:
        # What a sheet says of its size may be the largest there is, for a few cells.
        sheet.reset_dimensions()
        rows = _bounded(sheet.iter_rows(values_only=True), f"{name}, sheet '{sheet.title}'")
        yield sheet.title, sheet_text(rows), sheet.sheet_state != "visible"


def _texts_of_large(data: bytes, name: str) -> Iterator[tuple[str, str, bool]]:
    """Yield the sheets of an .xlsx that takes seconds to read, once it is known to be none that is refused."""
    counts = unpacked_counts(data)
    if counts.rows > MOST_ROWS:
        raise ReadError(
            f"a sheet of {counts.rows} rows, more than the {MOST_ROWS} that a sheet can have",
            where=name,
            hint="export the run again, or as CSV",
        )
    if counts.cells > MOST_CELLS:
        raise _too_many_cells(name)
    yield from read_apart(data, name, counts.cells)


def _too_many_cells(place: str) -> ReadError:
    return ReadError(
        f"more than {MOST_CELLS // 1_000_000} million cells, empty ones included",
        where=place,
        hint="take out cells far below or beside the table, or save the sheet as CSV",
    )


def _bounded(rows: Iterable[Sequence[Any]], place: str) -> Iterator[Sequence[Any]]:
    """Yield rows as long as they are no more cells than are read."""
    cells = 0
    for row in rows:
        cells += len(row) + 1
        if cells > MOST_CELLS:
            raise _too_many_cells(place)
        yield row


def _texts_of_others(data: bytes, name: str) -> Iterator[tuple[str, str, bool]]:
    if find_spec("python_calamine") is None:
        extra = next((e for end, e in _EXTRAS.items() if name.lower().endswith(end)), "sheets")
        raise ReadError(
            f"this workbook needs the extra: pip install 'dynoan[{extra}]'",
            where=name,
            hint="or save it as .xlsx or CSV",
        )
    if data.startswith(_ZIPPED):
        _unpacked(data, name)
    yield from read_apart(data, name, MOST_CELLS)


def _unpacked(data: bytes, name: str) -> int:
    """Return what a workbook says that it unpacks to, which is all that is unpacked of it; refuse it beyond bounds."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        size = sum(item.file_size for item in archive.infolist())
    if size > MOST_UNPACKED:
        raise ReadError(
            f"the workbook unpacks to more than {MOST_UNPACKED // 1000000} MB",
            where=name,
            hint="save the sheets as CSV",
        )
    return size
