"""Undo outlives a restart, puts back nothing else, and the units that a library is shown in are the library's."""

import json
import zipfile

import pytest

from dynoan.errors import CallError
from dynoan.jobs.undo import LibraryChange
from dynoan.library import Library
from dynoan.window.undo_shelf import Undoable, UndoShelf
from tests.window.conftest import DEMO, Window
from tests.window.test_car import shown, text


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
            came.add(again.take() == changed(1))
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
    assert [shelf.take().change.words for _ in range(3)] == ["change 2", "change 1", "change 0"]
