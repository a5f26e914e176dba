"""The digest beside the reading is that of the whole file, however large, and its thread ends with the reading."""

from __future__ import annotations

import hashlib
import threading

import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from importers import TEXT, digest
from importers.digest import DigestBeside
from tests.importers.broken import file


@pytest.mark.parametrize("size", [0, 10, 5_000, 70_000])
@pytest.mark.parametrize("told", [True, False])
def test_it_is_of_all_bytes(monkeypatch, size, told):
    monkeypatch.setattr(digest, "_WORTH_A_THREAD", 1_000)
    monkeypatch.setattr(digest, "_WORTH_A_PAUSE", 10_000)
    data = bytes(k * k % 251 for k in range(size))
    with DigestBeside(data) as found:
        if told:
            found.parsed()
    assert found.hex() == hashlib.sha256(data).hexdigest()


def test_a_sweep_bears_it_and_a_refusal_leaves_no_thread(monkeypatch):
    monkeypatch.setattr(digest, "_WORTH_A_THREAD", 0)
    monkeypatch.setattr(digest, "_WORTH_A_PAUSE", 0)
    before = threading.active_count()
    (sweep,) = TEXT.read(file(), "rig.csv", ReadOptions())
    assert sweep.source.sha256 == hashlib.sha256(file()).hexdigest()
    with pytest.raises(ReadError):
        TEXT.read(b"no rows\nof numbers\n", "rig.csv", ReadOptions())
    assert threading.active_count() == before
