"""Undo outlives a restart, puts back nothing else, and the units that a library is shown in are the library's."""

import json
import os
import zipfile
from stat import S_ISREG

import pytest

from dynoan.errors import CallError, LibraryError
from dynoan.jobs.undo import LibraryChange
from dynoan.library import Library
from dynoan.window.undo_shelf import Undoable, UndoShelf
from tests.window.conftest import BASE, DEMO, Window
from tests.window.test_car import shown, text

LOG = DEMO / "travel" / "kestrel_loose_run3.csv"


def again(window):
    """The same library in a window that was started anew."""
    window.desk.works.close()
    return Window(window.desk.path)


def kept(window):
    run = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
    window.put(run.name, run.read_bytes())
    window.post("/files/keep")
    window.wait()


def test_a_car_changed_before_a_restart_is_taken_back_after_it(demo):
    before = text(demo)
    made = shown(demo.post("/car/put-on", {"car": "kestrel", "front.spring": "55 N/mm"}).text)
    demo.post("/car/keep", {"car": "kestrel", **made})
    assert text(demo) != before
    later = again(demo)
    assert "Undo: file of kestrel changed, 20" in later.get("/files").text
    assert "Taken back: file of kestrel changed" in later.post("/undo").text
    assert text(later) == before
    assert "Undo: " not in later.get("/files").text
    assert not list((later.desk.path / "cache" / "undo").iterdir())


def test_files_kept_before_a_restart_lie_on_the_table_again(window):
    kept(window)
    later = again(window)
    assert len(list((later.desk.path / "sweeps").glob("*.h5"))) == 1
    page = later.post("/undo").text
    assert list((later.desk.path / "sweeps").glob("*.h5")) == []
    assert "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv" in page


def test_what_changed_again_is_not_taken_back_after_a_restart(demo):
    made = shown(demo.post("/car/put-on", {"car": "kestrel", "front.spring": "55 N/mm"}).text)
    demo.post("/car/keep", {"car": "kestrel", **made})
    later = again(demo)
    path = later.desk.path / "cars" / "kestrel.toml"
    path.write_text(path.read_text() + "# mine\n")
    assert "it was changed again since" in later.post("/undo").text
    assert path.read_text().endswith("# mine\n")


@pytest.mark.parametrize(
    "place", ["../outside.toml", "/etc/x.toml", "cars/../../outside.toml", "sweeps/../x.h5", "x.toml"]
)
def test_a_change_that_names_another_place_is_none(window, place):
    """A library may come from a stick."""
    folder = window.desk.path / "cache" / "undo"
    folder.mkdir(parents=True)
    card = {"words": "<b>mine", "after": {place: None}, "none": [], "before": [place], "then": "", "facts": None}
    with zipfile.ZipFile(folder / f"{17:020}.zip", "w") as pack:
        pack.writestr("change.json", json.dumps(card))
        pack.writestr("0", b"evil")
    later = again(window)
    assert "Undo: &lt;b&gt;mine" in later.get("/files").text
    assert "cannot be read any more" in later.post("/undo").text
    assert not (window.desk.path.parent / "outside.toml").exists()
    assert not (window.desk.path / "x.toml").exists()


@pytest.mark.parametrize("data", [b"", b"no zip", b"PK\x03\x04" + bytes(50)])
def test_a_damaged_change_is_named_and_let_go(window, data):
    folder = window.desk.path / "cache" / "undo"
    folder.mkdir(parents=True)
    (folder / f"{17:020}.zip").write_bytes(data)
    later = again(window)
    assert "a change that cannot be read any more" in later.get("/files").text
    assert "what lay there before cannot be read any more" in later.post("/undo").text
    assert "There is nothing to take back" in later.post("/undo").text


def test_units_are_written_into_the_library_and_taken_back(window):
    marker = window.desk.path / "dynoan.toml"
    before = marker.read_text()
    assert "by the command line too" in window.post("/units", {"units": "us", "then": "/files"}).text
    assert Library(window.desk.path).units == "us"
    later = again(window)
    assert later.desk.units == "us"
    later.post("/undo")
    assert marker.read_text() == before
    assert later.desk.units == "metric"


def full_after(monkeypatch, count):
    """Let a disk be full once so many files were written."""
    left, sync = [count], os.fsync

    def full(handle):
        left[0] -= S_ISREG(os.fstat(handle).st_mode)
        if left[0] < 0 and S_ISREG(os.fstat(handle).st_mode):
            raise OSError(28, "No space left on device")
        sync(handle)

    monkeypatch.setattr("dynoan.library.files.os.fsync", full)


def test_a_disk_full_on_the_way_keeps_some_and_undo_says_how_many(window, monkeypatch):
    runs = sorted((DEMO / "dyno").glob("FL-01_tarmac*"))[:4]
    for run in runs:
        window.put(run.name, run.read_bytes())
    full_after(monkeypatch, 2)
    page = window.post("/files/keep").text
    kept_runs = len(list((window.desk.path / "sweeps").glob("*.h5")))
    assert 0 < kept_runs < len(runs)
    assert window.desk.last_change == f"{kept_runs} file{'s' * (kept_runs > 1)} kept"
    assert page.count("the disk is full; free some space and try again") == 1
    monkeypatch.undo()
    assert all(run.name in window.post("/undo").text for run in runs)


def test_runs_kept_in_a_folder_that_the_disk_does_not_confirm_can_be_taken_back(window, monkeypatch):
    def fault(_path):
        raise LibraryError("the disk does not confirm")

    monkeypatch.setattr("dynoan.library.files.sync_folder", fault)
    kept(window)
    monkeypatch.undo()
    assert len(list((window.desk.path / "sweeps").glob("*.h5"))) == 1
    assert "Taken back: 1 file kept" in window.post("/undo").text
    assert not list((window.desk.path / "sweeps").glob("*.h5"))


def test_an_undo_that_the_disk_refuses_changes_nothing_and_can_be_tried_again(demo, monkeypatch):
    def lie():
        return {p: p.read_bytes() for folder in ("sweeps", "cars") for p in (demo.desk.path / folder).iterdir()}

    demo.fit_nothing()
    before = lie()
    demo.post("/packs/rename", {"pack": "gravel", "to": "rough"})
    after = lie()
    assert after != before
    full_after(monkeypatch, 3)
    assert "the disk is full" in demo.post("/undo").text
    monkeypatch.undo()
    assert lie() == after
    assert "Taken back: " in demo.post("/undo").text
    assert lie() == before


def test_a_car_and_a_shock_of_a_keep_taken_back_lie_on_the_table_again(window):
    files = [DEMO / "cars" / "kestrel.toml", DEMO / "shocks" / "FL-01.toml"]
    for file in files:
        window.put(file.name, file.read_bytes())
    window.post("/files/keep")
    assert Library(window.desk.path).cars()
    window.post("/undo")
    assert Library(window.desk.path).cars() == ()
    assert {f.name for f in window.desk.dropped.files()} == {f.name for f in files}


def lying(window):
    """What lies on the tables of files and logs, with what is said of it."""
    found = (window.desk.path / "cache" / table for table in ("dropped", "logs", "launches"))
    return {p: p.read_bytes() for folder in found for p in folder.glob("*.[bj]*") if p.suffix in (".bin", ".json")}


def test_whatever_changes_on_a_table_is_taken_back(window):
    window.put("travel.csv", LOG.read_bytes())
    window.post("/files/demo")
    (file, *_) = (f.id for f in window.desk.dropped.files() if f.name == "travel.csv")
    sent = {"files": [("files", ("launch.csv", LOG.read_bytes() + b"\n"))], "data": {"car": "kestrel"}}
    headers = {"Origin": BASE, "Referer": f"{BASE}/log"}
    window.browser.post("/log/learn", **sent, headers=headers)
    sent["files"] = [("files", ("other.csv", LOG.read_bytes() + b"\n\n"))]
    for act in (
        lambda: window.post(f"/files/{file}/say", {"pack": "gravel"}),
        lambda: window.post("/files/many", {f"row.{file}.date": "2026-05-01"}),
        lambda: window.post("/files/off", {"id": [file]}),
        lambda: window.post("/log/travel/bring", {"car": "kestrel", "id": file}),
        lambda: window.browser.post("/log/learn", **sent, headers=headers),
    ):
        before = lying(window)
        act()
        assert lying(window) != before
        window.post("/undo")
        assert lying(window) == before
    window.post("/undo")  # the first launch
    assert "Undo: the demo laid here" in window.post("/files/demo").text
    window.post("/undo")
    assert [f.name for f in window.desk.dropped.files()] == ["travel.csv"]
    assert Library(window.desk.path).cars() == ()


def changed(number):
    return Undoable(LibraryChange(f"change {number}", {"cars/kestrel.toml": b"before"}, {"cars/kestrel.toml": None}))


def test_no_flipped_bit_of_a_change_is_put_back_unnoticed(tmp_path):
    """A flag that says encrypted, or another version of ZIP, must not keep the window from opening either."""
    Library.create(tmp_path)
    shelf = UndoShelf(tmp_path)
    shelf.put(changed(1))
    (path,) = (tmp_path / "cache" / "undo").iterdir()
    whole, came = path.read_bytes(), set()
    for bit in range(0, 8 * len(whole), 3):
        data = bytearray(whole)
        data[bit // 8] ^= 1 << bit % 8
        path.write_bytes(data)
        again = UndoShelf(tmp_path)
        assert again.last
        try:
            came.add(again.read() == changed(1))
        except CallError:
            came.add(None)
    assert came == {True, None}


def test_a_clock_that_was_set_back_keeps_the_order_of_changes(tmp_path, monkeypatch):
    moments = iter((2 * 10**18, 10**18, 3 * 10**18))
    Library.create(tmp_path)
    monkeypatch.setattr("dynoan.window.undo_shelf.time.time_ns", lambda: next(moments))
    for number in range(3):
        UndoShelf(tmp_path).put(changed(number))
    shelf = UndoShelf(tmp_path)
    for number in (2, 1, 0):
        assert shelf.read().change.words == f"change {number}"
        shelf.forget()
