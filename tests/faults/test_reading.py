"""Whatever a command is given to read: a pipe, a device, a folder, a link in a circle: one line, at once."""

from __future__ import annotations

import os
import threading
from pathlib import Path

import pytest

from dynoan import reading
from dynoan.cli.refusals import refusal
from dynoan.errors import LibraryError, QuantityError
from dynoan.library import Library
from dynoan.library.setup_file import car_text_of
from dynoan.model.setup import Setup
from tests.library.calling import dynoan, write_run
from tests.library.made import CAR, made_sweep

READERS = (
    ("read",), ("add",), ("curve",), ("identify",), ("travel",), ("launch", "kestrel", "--trace"), ("health",),
    ("match", "run.csv"), ("setup", "record", "--from"), ("ratio",), ("setup", "record"), ("report",),
    ("compare", "run.csv"), ("trial", "run", "start", "--from"), ("bounce", "--axle", "front"),
    ("learn", "--car", "kestrel", "--surface", "loose"), ("trackside",), ("choose",), ("carry", "kestrel"),
)  # fmt: skip
ODD = (
    "pipe", "pipe.toml", "pipe.csv", "folder", "zero", "zero.toml", "zero.csv", "circle", "circle.csv", "nothing.csv",
    "x" * 300,
)  # fmt: skip


@pytest.fixture
def library(tmp_path, monkeypatch):
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    library = Library.create(tmp_path / "lib")
    library.add(*made_sweep())
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    write_run(library.path / "run.csv")
    monkeypatch.chdir(library.path)
    assert dynoan("trial", "new", "start", "--a", "soft", "--b", "hard").code == 0
    for end in ("", ".toml", ".csv"):
        os.mkfifo(f"pipe{end}")
        Path(f"zero{end}").symlink_to("/dev/zero")
        Path(f"circle{end}").symlink_to(f"circle{end}")
    Path("folder").mkdir()
    return library


@pytest.mark.parametrize("words", READERS, ids=" ".join)
def test_no_command_hangs_on_what_is_no_plain_file(library, words):
    for odd in ODD:
        said: list[str] = []

        def call(odd: str = odd, said: list[str] = said) -> None:
            try:
                done = dynoan(*words, odd)
                said.append(f"{done.code} {done.err}{done.out}")
            except (OSError, SystemExit, Exception) as error:
                said.append(f"2 {refusal(error).text}")

        thread = threading.Thread(target=call, daemon=True)
        thread.start()
        thread.join(300)
        assert said, f"{words} {odd}: hangs"
        assert said[0].startswith("2 "), (odd, said)
        assert "fault of the program" not in said[0], (odd, said)


@pytest.mark.parametrize("read", [reading.read, reading.read_log])
def test_what_is_read_is_bounded_and_said(library, read, monkeypatch):
    for name, words in (
        ("pipe", "not a regular file"),
        ("zero", "not a regular file"),
        ("folder", "a folder; name the"),
    ):
        with pytest.raises(reading.ReadError, match=words):
            read(name)
    monkeypatch.setattr(reading, "MAX_FILE", 10)
    with pytest.raises(reading.ReadError, match="more than the 10 that are read"):
        read("run.csv")
    with pytest.raises(FileNotFoundError):
        read("nothing.csv")


@pytest.mark.parametrize("folder", ["cars", "shocks", "setups", "layouts"])
def test_a_link_to_a_device_among_the_texts_is_named_for_what_it_is(library, folder):
    (library.path / folder / "z.toml").symlink_to("/dev/zero")
    with pytest.raises(LibraryError, match="not a regular file"):
        getattr(library, folder[:-1])("z")
    assert [f.file for f in library.check().faults] == [f"{folder}/z.toml"]


@pytest.mark.parametrize("folder", ["cars", "trials"])
def test_a_link_that_leads_nowhere_or_back_to_itself_is_named_once(library, folder):
    place = library.path / folder
    place.mkdir(exist_ok=True)
    (place / "gone.toml").symlink_to("/nowhere/gone.toml")
    (place / "round.toml").symlink_to(place / "round.toml")
    told = {f.file: f.fault for f in library.check().faults}
    assert (
        told.pop(f"{folder}/gone.toml")
        == "no such file; it is a link to what is gone: take it away, or bring that back"
    )
    assert told.pop(f"{folder}/round.toml").endswith("; it is a link that leads back to itself: take it away")
    assert not told


@pytest.mark.parametrize("degrees", [1e308, 401.0, -61.0])
def test_no_shock_is_that_hot(library, degrees):
    sweep = library.records()[0].id
    with pytest.raises(QuantityError, match="no shock's"):
        library.edit(sweep, temperature=degrees)
    done = dynoan("edit", sweep, "--temperature", f"{degrees:g} °C")
    assert (done.code, "--temperature: " in done.err) == (2, True)
    assert library.edit(sweep, temperature=35.0).temperature == 35.0


def test_a_sweep_removed_while_its_curve_is_asked_for_is_named(library):
    record = library.records()[0]
    library.remove(record.id)
    for ask in (
        lambda: library.sweep_bytes(record),
        lambda: library.hold_sound([record]),
        lambda: library.load(record.id),
    ):
        with pytest.raises(LookupError, match=r"no longer in the library|no sweep"):
            ask()


@pytest.mark.parametrize("mark", ["\u2028", "\u2029", "\x85", "\x0b", "\x0c", "\x1c"])
def test_a_remark_with_an_odd_end_of_line_keeps_the_cars_comments(library, mark):
    setup = library.record_setup(Setup("", library.car("kestrel"), "2026-05-02", remarks=f"a{mark}b"), CAR)
    assert library.setup(setup.name).remarks == f"a{mark}b"
    assert car_text_of(library.setup_text(setup.name), "x") == CAR
