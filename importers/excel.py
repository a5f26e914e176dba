"""The importer of workbooks, which are read by `workbooks` when there is one to read."""

from __future__ import annotations

from dynoan.model.importing import ReadOptions, Verdict
from dynoan.model.sweep import Sweep

_OLD = b"\xd0\xcf\x11\xe0"  #: how an .xls begins


class ExcelImporter:
    """Reads each sheet of a workbook as if it were a text file."""

    name = "excel"

    def recognises(self, head: bytes, name: str) -> Verdict:
        """Judge by the first bytes; a workbook is a zip archive."""
        if _is_other(head, name):
            return Verdict(True, "a workbook")
        if not head.startswith(b"PK\x03\x04"):
            return Verdict(False, "not a workbook")
        if not name.lower().endswith((".xlsx", ".xlsm")) and b"xl/" not in head and b"[Content_Types].xml" not in head:
            return Verdict(False, "a zip archive that is no workbook; unpack it")
        return Verdict(True, "a workbook")

    def read(self, data: bytes, name: str, options: ReadOptions) -> tuple[Sweep, ...]:
        """Return the sweeps of all sheets that hold a table.

        Raises
        ------
        ReadError
            If the workbook is damaged, or none of its sheets holds a table.
        """
        from importers.workbooks import workbook_sweeps

        return workbook_sweeps(data, name, options, other=_is_other(data, name))


def _is_other(head: bytes, name: str) -> bool:
    """Whether a file is a workbook of another kind than .xlsx."""
    zipped = head.startswith(b"PK\x03\x04")
    ods = zipped and b"opendocument.spreadsheet" in head[:200]
    return ods or head.startswith(_OLD) or (zipped and name.lower().endswith((".ods", ".xlsb")))
