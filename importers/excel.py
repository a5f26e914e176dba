"""The importer of .xlsx workbooks: each sheet like a text file. Needs the optional extra `excel` (openpyxl)."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from datetime import date, datetime, time
from hashlib import sha256
from typing import Any

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions, Verdict
from dynoan.model.sweep import Sweep

_MOST_BYTES = 400_000_000


class ExcelImporter:
    """Reads each sheet of a workbook as if it were a text file."""

    name = "excel"

    def recognises(self, head: bytes, name: str) -> Verdict:
        """Judge by the first bytes; a workbook is a zip archive."""
        if not head.startswith(b"PK\x03\x04"):
            return Verdict(False, "not a workbook")
        if not name.lower().endswith((".xlsx", ".xlsm")) and b"xl/" not in head and b"[Content_Types].xml" not in head:
            return Verdict(False, "a zip archive that is no workbook; unpack it")
        return Verdict(True, "a workbook")

    def read(self, data: bytes, name: str, options: ReadOptions) -> tuple[Sweep, ...]:
        """Return the sweeps of all sheets that hold a table."""
        from importers.sweeps import assemble
        from importers.tables import reading as text

        digest = sha256(data).hexdigest()
        found: list[Sweep] = []
        faults: list[ReadError] = []
        for title, content in _sheets(data, name):
            place = f"{name}, sheet '{title}'"
            try:
                tables = text.read_tables(content, place, options)
            except ReadError as error:
                faults.append(error)
                continue
            found += _of_sheet(assemble.sweeps(tables, place, options, digest, self.name), name, title)
        if not found:
            raise (
                faults[0]
                if faults
                else ReadError(f"{name}: no sheet holds anything; wanted a table of force and velocity")
            )
        return tuple(found)


def _of_sheet(sweeps: tuple[Sweep, ...], name: str, title: str) -> list[Sweep]:
    from dataclasses import replace

    return [
        replace(s, source=replace(s.source, name=name, part=", ".join(filter(None, (title, s.source.part)))))
        for s in sweeps
    ]


def _sheets(data: bytes, name: str) -> Iterator[tuple[str, bytes]]:
    """Yield each sheet as tab-separated text."""
    try:
        import openpyxl
    except ImportError:
        raise ReadError(f"{name}: a workbook needs the extra: pip install 'dynoan[excel]'; or save it as CSV") from None
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            if sum(item.file_size for item in archive.infolist()) > _MOST_BYTES:
                raise ReadError(
                    f"{name}: the workbook unpacks to more than {_MOST_BYTES // 1_000_000} MB; save the sheets as CSV"
                )
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        for sheet in book.worksheets:
            lines = ("\t".join(_cell(v) for v in row) for row in sheet.iter_rows(values_only=True))
            text = "\n".join(line.rstrip("\t") if not line.strip() else line for line in lines)
            if text.strip():
                yield sheet.title, (text + "\n").encode()
    except ReadError:
        raise
    except Exception as error:  # openpyxl raises whatever the damaged part provokes
        raise ReadError(
            f"{name}: the workbook is damaged ({type(error).__name__}); open and save it again, or save it as CSV"
        ) from None


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value)
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, datetime | date | time):
        return value.isoformat(" ") if isinstance(value, datetime) else value.isoformat()
    return " ".join(str(value).split())
