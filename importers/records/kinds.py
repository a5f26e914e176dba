"""Which kind of record a file is by its first bytes, and its tables."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from importers.patterns import regex
from importers.records.record import ColumnRecord, table_of
from importers.tables import ParsedTable

#: the first file of an archive of arrays
_ARRAY = regex(rb"(?s)PK\x03\x04.{26}[^\0/\\]{1,200}?\.npy")
_MARKS = b"\xef\xbb\xbf\r\n\t "


class RecordKind(NamedTuple):
    """A kind of file that holds columns by name."""

    name: str
    words: str  #: for people


_JSON = RecordKind("json", "JSON")
_MAT = RecordKind("mat", "a MATLAB file")
_NUMPY = RecordKind("numpy", "a NumPy file")
_HDF5 = RecordKind("hdf5", "an HDF5 file")
_TDMS = RecordKind("tdms", "a TDMS file")
_MDF = RecordKind("mdf", "an MF4 file")


def record_kind(head: bytes) -> RecordKind | None:
    """Return which kind of record a file is by its first bytes; None where it is none."""
    if head.lstrip(_MARKS)[:1] in (b"{", b"[") and _is_json(head.lstrip(_MARKS)):
        return _JSON
    if head.startswith((b"MATLAB 5.0 MAT-file", b"MATLAB 7.3 MAT-file")):
        return _MAT
    if head.startswith(b"\x93NUMPY") or (head.startswith(b"PK\x03\x04") and _ARRAY.match(head)):
        return _NUMPY
    if head.startswith(b"\x89HDF\r\n\x1a\n"):
        return _HDF5
    if head.startswith(b"TDSm"):
        return _TDMS
    return _MDF if head.startswith((b"MDF     ", b"UnFinMF ")) else None


def _is_json(text: bytes) -> bool:
    """Whether text that begins with a bracket is JSON rather than a line of a preamble in brackets."""
    rest = text[1:].lstrip(_MARKS)[:1]
    return rest == b'"' if text[:1] == b"{" else rest in (b"{", b"[", b'"')


def read_record(kind: RecordKind, data: bytes, name: str, options: ReadOptions) -> list[ParsedTable]:
    """Return the tables in a file of a kind.

    Raises
    ------
    ReadError
        If the file is damaged, holds no columns of one length, its library is missing, or it is told how cells stand.
    """
    if options.delimiter or options.decimal:
        option = "--delimiter" if options.delimiter else "--decimal"
        raise ReadError(f"{option} has no effect on {kind.words}", where=name, hint="leave it out")
    found = [record for record in _records(kind, data, name) if record.columns and len(record.columns[0].values)]
    if not found:
        raise ReadError(
            f"{kind.words} without columns of one length by name",
            where=name,
            hint="wanted time, displacement, velocity and force, or export the run as CSV",
        )
    return [table_of(record, options) for record in found]


def _records(kind: RecordKind, data: bytes, name: str) -> Sequence[ColumnRecord]:
    """Return the records in a file, by the reader of its kind, which is loaded for it: most files are text."""
    if kind == _JSON:
        from importers.records.json_file import json_records

        return json_records(data, name)
    if kind == _MAT:
        from importers.records.mat_file import mat_records

        return mat_records(data, name)
    if kind == _NUMPY:
        from importers.records.numpy_file import numpy_records

        return numpy_records(data, name)
    if kind == _HDF5:
        from importers.records.hdf5_file import hdf5_records

        return hdf5_records(data, name)
    if kind == _TDMS:
        from importers.records.tdms_file import tdms_records

        return tdms_records(data, name)
    from importers.records.mdf_file import mdf_records

    return mdf_records(data, name)
