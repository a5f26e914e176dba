"""A library that a newer version wrote in: each file of it is named for what it is, listed as kept, never as absent."""

from __future__ import annotations

import json
import re
import shutil

import pytest

from dynoan.errors import LibraryError, QuantityError
from dynoan.library import Library, caching
from dynoan.library.car_file import car_from_text
from dynoan.library.index import KEY, KIND
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial, TrialRun
from tests.library.calling import dynoan
from tests.library.made import CAR, LAYOUT, made_sweep
from tests.window.conftest import window  # noqa: F401

LATER = "format version 2, but dynoan 0.1.0 reads up to 1; update dynoan"
TEXTS = ("cars", "shocks", "setups", "trials", "layouts")


@pytest.fixture
def library(tmp_path):
    return filled(Library.create(tmp_path / "lib"))


def filled(library):
    """A sweep, and a text of every kind."""
    library.add(*made_sweep())
    library.write_text_file("cars", "kestrel", CAR)
    library.write_text_file("shocks", "FL-01", "[adjusters.lsc]\nclicks = 20\n")
    library.save_layout("odd", LAYOUT)
    library.record_setup(Setup("", car_from_text(CAR, "cars/kestrel.toml"), "2026-05-02", good=True), CAR)
    run = TrialRun("a", 4.8, "4.8 s", "2026-05-02")
    library.trials.keep_new(Trial("start", "soft", "hard", less=True, unit="s", date="2026-05-02", runs=(run,)))
    return library


def put_in_front(library, folder, line):
    (path,) = (library.path / folder).iterdir()
    path.write_text(f"{line}\n{path.read_text()}")
    return f"{folder}/{path.name}"


@pytest.mark.parametrize("folder", TEXTS)
def test_a_text_of_a_later_format_says_so_once(library, folder):
    name = put_in_front(library, folder, "setup.format = 2" if folder == "setups" else "format = 2")
    (fault,) = library.check().faults
    assert (fault.file, fault.fault) == (name, LATER)


@pytest.mark.parametrize("folder", TEXTS)
@pytest.mark.parametrize("number", ["1", "true", '"2"', "0"])
def test_only_a_number_is_a_format(library, folder, number):
    put_in_front(library, folder, f"setup.format = {number}" if folder == "setups" else f"format = {number}")
    assert ("format: unknown key" in str(library.check().faults)) is (number not in ("1", "true"))


@pytest.mark.parametrize(
    ("folder", "line"), [("setups", "setup.wind = 3"), ("setups", "wind = 3"), ("trials", "wind = 3")]
)
def test_a_key_that_is_not_known_may_be_of_a_newer_version(library, folder, line):
    name = put_in_front(library, folder, line)
    (fault,) = library.check().faults
    assert fault.file == name
    assert re.match(r".*wind: unknown key; if a newer dynoan wrote it, update this one \(0\.1\.0\); known", fault.fault)


def test_a_key_mistyped_in_a_car_speaks_of_no_version(library):
    put_in_front(library, "cars", "wind = 3")
    with pytest.raises(QuantityError, match="wind: unknown key; known here"):
        library.car("kestrel")


LISTS = (("setup", "list"), ("setup", "list", "--by", "surface"), ("trial", "list"))


@pytest.mark.parametrize("words", LISTS, ids=" ".join)
def test_no_list_says_that_nothing_is_kept_where_it_cannot_be_read(library, words):
    named = {"setup": "setups/2026-05-02-kestrel.toml", "trial": "trials/start.toml"}[words[0]]
    for folder in ("setups", "trials"):
        put_in_front(library, folder, "setup.format = 2" if folder == "setups" else "format = 2")
    done = dynoan("--library", library.path, *words)
    assert "yet" not in done.out
    assert f"kept, but cannot be read: {named}" in " ".join(done.out.split())
    assert f"{named}: left out: {LATER}" in done.err
    told = dynoan("--json", "--library", library.path, *words).result
    assert {"file": named, "fault": LATER} in told["unreadable"]


def test_a_list_names_what_it_leaves_out_beside_what_it_has(library):
    library.record_setup(Setup("", car_from_text(CAR, "cars/kestrel.toml"), "2026-05-09", good=True), CAR)
    path = library.path / "setups" / "2026-05-02-kestrel.toml"
    path.write_text("setup.format = 2\n" + path.read_text())
    done = dynoan("--library", library.path, "setup", "list")
    assert "2026-05-09-kestrel" in done.out
    assert "cannot be read: setups/2026-05-02-kestrel.toml" in " ".join(done.out.split())
    assert json.loads(dynoan("--json", "--library", library.path, "trial", "list").out)["result"]["unreadable"] == []


def test_whether_a_good_setup_is_kept_is_not_answered_where_it_cannot_be_read(library):
    """The answer no is an answer: exit code 1 says that the files were read."""
    named = "setups/2026-05-02-kestrel.toml"
    put_in_front(library, "setups", "setup.format = 2")
    shutil.copy(library.path / named, library.path / "setups" / "2026-05-09-kestrel.toml")
    done = dynoan("--library", library.path, "setup", "recall", "--surface", "loose")
    assert (done.code, done.out) == (2, "")
    assert done.err == (f"{named}: cannot be read: {LATER} (nor can setups/2026-05-09-kestrel.toml); "
                        "no good setup on loose among those that can be read; see: dynoan check")  # fmt: skip


def make_sweeps_newer(library):
    (path,) = (library.path / "sweeps").iterdir()
    newer = path.read_bytes().replace(b"dynoan sweep 1 ", b"dynoan sweep 9 ", 1)
    path.unlink()
    path.write_bytes(newer)
    return f"sweeps/{path.name}"


def test_sweeps_of_a_later_format_are_no_empty_library(library):
    name = make_sweeps_newer(library)
    done = dynoan("--library", library.path, "sweeps")
    assert "yet" not in done.out
    assert f"no sweep that can be read; kept, but cannot be read: {name}" in " ".join(done.out.split())
    assert "update dynoan" in done.err
    assert dynoan("--library", library.path, "report").err.startswith("none of the library's sweeps can be read")
    asked = dynoan("--library", library.path, "predict", "gravel")
    assert (asked.code, "none yet" in asked.err) == (2, False)


def test_the_window_names_them_too(window):  # noqa: F811
    library = filled(window.desk.library)
    for folder in ("setups", "trials"):
        put_in_front(library, folder, "setup.format = 2" if folder == "setups" else "format = 2")
    page = window.get("/log").text
    assert "No day is kept yet" not in page
    for name in ("setups/2026-05-02-kestrel.toml", "trials/start.toml"):
        assert f"{name} is kept, but cannot be read: {LATER}" in page
    name = make_sweeps_newer(library)
    for place in ("/files", "/packs", "/curves"):
        page = window.get(place).text
        assert not re.search("Nothing here yet|Nothing tested yet|No pack yet", page), place
        assert name in page, place


def test_a_newer_library_is_refused_whole(library):
    path = library.path / "dynoan.toml"
    path.write_text(path.read_text().replace("format = 1", "format = 2"))
    with pytest.raises(LibraryError, match="update dynoan"):
        Library(library.path)
    assert dynoan("--library", library.path, "sweeps").code == 2


def test_caches_of_another_version_are_made_anew_and_are_no_fault(library):
    assert len(library.records()) == 1
    folder = library.path / "cache"
    caching.cache(folder, KIND, KEY, b'{"of": "another"}')
    for path in folder.rglob("*.bin"):
        path.write_bytes(path.read_bytes().replace(b"dynoan cache 2\n", b"dynoan cache 3\n", 1))
    again = Library(library.path)
    assert len(again.records()) == 1
    assert again.check().faults == ()
