"""MATLAB's own objects (string, table, datetime) in the bytes of a file: an element of class 17 and a subsystem.

The form of elements and arrays, and where the head says that the subsystem lies, are those of the published MAT-File
Format, level 5; that an object is a name, "MCOS", its class and an array of references is what scipy's reader takes it
for. No file of MATLAB's own was at hand.
"""

from __future__ import annotations

import struct
import zlib

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes
from tests.importers.making import RATE, F, T, X

INT8, INT32, UINT32, DOUBLE, UINT8, MATRIX, COMPRESSED = 1, 5, 6, 9, 2, 14, 15
DOUBLE_CLASS, UINT8_CLASS, UINT32_CLASS, OPAQUE_CLASS = 6, 9, 13, 17
REFERENCE = 0xDD000000  #: with which an array of references begins


def element(kind: int, content: bytes) -> bytes:
    return struct.pack("<II", kind, len(content)) + content + bytes(-len(content) % 8)


def array(name: str, values: np.ndarray, kind: int, number: int) -> bytes:
    flags = element(UINT32, struct.pack("<II", kind, 0))
    sizes = element(INT32, struct.pack("<2i", values.size, 1))
    return element(MATRIX, flags + sizes + element(INT8, name.encode()) + element(number, values.tobytes()))


def opaque(name: str, kind: str) -> bytes:
    flags = element(UINT32, struct.pack("<II", OPAQUE_CLASS, 0))
    words = b"".join(element(INT8, word.encode()) for word in (name, "MCOS", kind))
    reference = np.array([REFERENCE, 2, 1, 1, 1, 1], "<u4")
    return element(MATRIX, flags + words + array("", reference, UINT32_CLASS, UINT32))


def file(*variables: bytes, packed: bool = False) -> bytes:
    """Return a file with a subsystem at its end, as one with objects has."""
    body = b"".join(
        struct.pack("<II", COMPRESSED, len(z := zlib.compress(one))) + z if packed else one for one in variables
    )
    inner = bytes([0, 1]) + b"IM" + bytes(4) + array("FileWrapper__", np.zeros(40, "u1"), UINT8_CLASS, UINT8)
    head = b"MATLAB 5.0 MAT-file, Platform: PCWIN64".ljust(116) + struct.pack("<Q", 128 + len(body)) + b"\0\1IM"
    return head + body + array("", np.frombuffer(inner, "u1"), UINT8_CLASS, UINT8)


CHANNELS = [array(k, np.asarray(v, "<f8"), DOUBLE_CLASS, DOUBLE) for k, v in
            (("time_s", T), ("displacement_mm", 1e3 * X), ("force_N", F))]  # fmt: skip


@pytest.mark.parametrize("packed", [False, True])
@pytest.mark.parametrize("kind", ["string", "table", "datetime"])
def test_an_object_beside_columns_is_told(kind, packed):
    (sweep,) = read_bytes(file(*CHANNELS, opaque("particulars", kind), packed=packed), "run.mat")
    assert sweep.rate == pytest.approx(RATE)
    said = f"'particulars' is a {kind} of MATLAB's own, which MATLAB alone reads: not read"
    assert any(w.startswith(said) for w in sweep.warnings)


def test_each_of_several_objects_is_told():
    (sweep,) = read_bytes(file(*CHANNELS, opaque("day", "datetime"), opaque("note", "string")), "run.mat")
    told = [said for said in sweep.warnings if "MATLAB's own" in said]
    assert [said.split()[0] for said in told] == ["'day'", "'note'"]


def test_a_file_of_a_table_alone_is_refused_with_how_to_save_it():
    with pytest.raises(ReadError, match="table2struct") as refused:
        read_bytes(file(opaque("measurement", "table")), "run.mat")
    assert "more values than are read" not in str(refused.value)


def test_several_objects_alone_are_named_with_what_to_type_for_each():
    with pytest.raises(ReadError, match="'run1', 'run2' are tables of MATLAB's own") as refused:
        read_bytes(file(opaque("run1", "table"), opaque("run2", "table")), "run.mat")
    assert "writetable(run1, 'run1.csv'); writetable(run2, 'run2.csv')" in str(refused.value.hint)
    with pytest.raises(ReadError, match="'run', 'day' are timetables and datetimes") as refused:
        read_bytes(file(opaque("run", "timetable"), opaque("day", "datetime")), "run.mat")
    assert "writetimetable(run, 'run.csv')" in str(refused.value.hint)


@pytest.mark.parametrize(
    ("kind", "typed"), [("string", "note = char(note)"), ("duration", "note = seconds(note)"), ("thing", "")]
)
def test_an_object_beside_columns_is_told_with_what_to_type(kind, typed):
    (sweep,) = read_bytes(file(*CHANNELS, opaque("note", kind)), "run.mat")
    (said,) = [w for w in sweep.warnings if "MATLAB's own" in w]
    assert ("in MATLAB type" in said) == bool(typed)
    assert typed in said
