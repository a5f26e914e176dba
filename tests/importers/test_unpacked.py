"""Text packed by gzip: read as it was, its digest that of the packed file; damaged and huge ones are refused."""

from __future__ import annotations

import gzip
from hashlib import sha256

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes, read_log_bytes
from importers import TEXT, unpacked
from tests.importers.making import F, T, X

TABLE = "Shock,A\nLSC,3\nSpeed (mm/s),Bump (N),Rebound (N)\n50,200,150\n100,300,250\n200,400,350\n"


def test_a_packed_table_is_read_as_the_table():
    packed = gzip.compress(TABLE.encode())
    (one,), (plain,) = read_bytes(packed, "run.csv.gz"), read_bytes(TABLE.encode(), "run.csv")
    assert (one.shock, dict(one.clicks), one.warnings) == ("A", {"lsc": 3}, plain.warnings)
    np.testing.assert_array_equal(one.channels["force"], plain.channels["force"])
    assert one.source.sha256 == sha256(packed).hexdigest()
    assert TEXT.recognises(packed, "run.csv.gz") == TEXT.recognises(TABLE.encode(), "run.csv")


def test_a_long_record_of_several_members():
    rows = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}\n" for t, x, f in zip(T, X, F, strict=True)]
    text = "Time (s),Disp (mm),Force (N)\n" + "".join(rows)
    half = len(text) // 2
    packed = gzip.compress(text[:half].encode()) + gzip.compress(text[half:].encode())
    (one,) = read_bytes(packed, "run.csv.gz")
    np.testing.assert_allclose(one.channels["force"], F, atol=0.06)
    assert len(read_log_bytes(packed, "log.csv.gz").columns) == 3


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (gzip.compress(TABLE.encode())[:-20], "breaks off"),
        (gzip.compress(TABLE.encode())[:30] + bytes(40), "damaged"),
        (gzip.compress(bytes(3_000_000)), "holds more than 1 MB"),
    ],
    ids=["cut off", "overwritten", "much in little"],  # what is packed says when
)
def test_what_cannot_be_unpacked_is_refused(data, said, monkeypatch):
    monkeypatch.setattr(unpacked, "MOST_UNPACKED", 1_000_000)
    with pytest.raises(ReadError, match=said):
        read_bytes(data, "run.csv.gz")
