"""The core finds importers by entry points alone, and says in one line what to do where they are stale."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from dynoan import reading
from dynoan.errors import ReadError
from dynoan.installed import InstalledPoints, PlainPoint
from dynoan.model.importing import Importer, LogImporter
from importers import EXCEL, TEXT


@pytest.fixture(autouse=True)
def _afresh():
    reading.importers.cache_clear()
    yield
    reading.importers.cache_clear()


def installed(monkeypatch, points):
    """Stand in for the installed distribution: names of importers to what they point at."""
    own = {name: PlainPoint(name, *value.split(":")) for name, value in points.items()}
    monkeypatch.setattr(reading, "installed_points", lambda group, package: InstalledPoints(own, {}))


def test_the_built_in_importers_are_found_and_text_is_asked_last():
    assert reading.importers()[-2:] == (EXCEL, TEXT)
    assert all(isinstance(importer.name, str) for importer in reading.importers())


def test_importers_of_others_are_asked_first_by_name(monkeypatch):
    theirs = {name: SimpleNamespace(name=name, load=lambda name=name: name) for name in ("zebra", "ant", "text")}
    own = reading.installed_points(reading.GROUP, "dynoan").own
    monkeypatch.setattr(reading, "installed_points", lambda group, package: InstalledPoints(own, theirs))
    assert reading.importers() == ("ant", "zebra", EXCEL, TEXT)


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ({}, "no importer excel and text"),
        ({"text": "importers:TEXT"}, "no importer excel"),
        ({"text": "importers:TEXT", "excel": "importers:GONE"}, "GONE"),
        ({"text": "importers_of_old:TEXT", "excel": "importers:EXCEL"}, "importers_of_old"),
    ],
)
def test_stale_entry_points_are_said_with_the_way_out(monkeypatch, points, said):
    installed(monkeypatch, points)
    with pytest.raises(ReadError) as refusal:
        reading.read_bytes(b"1,2\n", "rig.csv")
    assert "run pip install -e ." in str(refusal.value)
    assert said in str(refusal.value)
    assert "\n" not in str(refusal.value)


def test_a_tree_that_is_not_installed_at_all_is_said(monkeypatch):
    monkeypatch.setattr(reading, "installed_points", lambda group, package: InstalledPoints(None, {}))
    with pytest.raises(ReadError, match=r"not installed .* run pip install -e \. in it"):
        reading.importers()


def test_text_reads_logs_and_a_workbook_importer_does_not():
    assert isinstance(TEXT, LogImporter)
    assert not isinstance(EXCEL, LogImporter)
    assert {importer.name for importer in (TEXT, EXCEL)} == {"text", "excel"}
    assert all(hasattr(EXCEL, name) for name in Importer.__annotations__ | {"read": 0, "recognises": 0})


def test_a_logger_s_table_is_read_by_the_same_door():
    log = b"time [s];fl [mm];note\n" + b"".join(b"%d.0;%d.5;x\n" % (i, i) for i in range(5))
    found = reading.read_log_bytes(log, "log.csv")
    assert [(c.name, c.unit) for c in found.columns] == [("time", "s"), ("fl", "mm")]
    np.testing.assert_allclose(found.columns[1].values, np.arange(5) + 0.5)


def test_a_log_without_a_table_is_refused():
    with pytest.raises(ReadError, match=r"^log\.csv: no table of numbers"):
        reading.read_log_bytes(b"nothing to see\n", "log.csv")
