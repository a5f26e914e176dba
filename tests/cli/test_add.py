"""``dynoan add``: what is kept, what is said of it, and what happens to files that are not understood."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from dynoan.cli.main import main
from dynoan.library import Library
from tests.library.calling import dynoan, write_run

ALL = ("--shock", "FL-01", "--pack", "gravel", "--clicks", "lsc=6,lsr=8")


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    return tmp_path


def test_a_new_folder_becomes_a_library_that_keeps_units(here):
    write_run(here / "a.csv")
    done = dynoan("add", "a.csv", *ALL, "--library", "new/lib", "--units", "us", "--json")
    assert done.code == 0, done.err
    (sweep,) = done.result["sweeps"]
    assert (sweep["shock"], sweep["pack"], sweep["clicks"], sweep["new"]) == (
        "FL-01",
        "gravel",
        {"lsc": 6, "lsr": 8},
        True,
    )
    library = Library(here / "new" / "lib")
    assert library.units == "us"
    assert library.load(sweep["id"]).samples == 1000
    assert library.original(sweep["id"]) == (here / "a.csv").read_bytes()


def test_the_same_file_twice_adds_nothing_and_says_so(here):
    write_run(here / "a.csv")
    first = dynoan("add", "a.csv", *ALL, "--library", "lib", "--json")
    again = dynoan("add", "a.csv", *ALL, "--library", "lib", "--json")
    assert again.code == 0
    assert again.result["sweeps"][0]["id"] == first.result["sweeps"][0]["id"]
    assert again.result["sweeps"][0]["new"] is False
    assert "nothing was added" in dynoan("add", "a.csv", *ALL, "--library", "lib").err
    assert len(Library(here / "lib").records()) == 1


def test_the_same_file_with_other_facts_keeps_the_old_and_says_how_to_correct(here):
    write_run(here / "a.csv")
    dynoan("add", "a.csv", *ALL, "--library", "lib")
    again = dynoan("add", "a.csv", "--pack", "tarmac", "--library", "lib", "--json")
    (sweep,) = again.result["sweeps"]
    assert sweep["pack"] == "gravel"
    way = f"dynoan edit {sweep['id']} --pack tarmac"
    assert again.warnings == [f"a.csv: kept before with pack gravel, not tarmac; to correct it: {way}"]


def test_what_the_file_states_need_not_be_repeated_and_what_is_typed_wins(here):
    write_run(here / "a.csv", facts="Shock: RL-02\nPack: mixed\nClicks: LSC 4 LSR 5\nDate: 2026-03-14\n")
    done = dynoan("add", "a.csv", "--clicks", "lsc=7", "--library", "lib", "--json")
    (sweep,) = done.result["sweeps"]
    assert (sweep["shock"], sweep["pack"], sweep["date"]) == ("RL-02", "mixed", "2026-03-14")
    assert sweep["clicks"]["lsc"] == 7
    assert any("lsc=4" in text and "lsc=7" in text for text in done.warnings)


def test_what_is_missing_is_named_with_the_way_to_say_it(here):
    write_run(here / "run.csv")
    done = dynoan("add", "run.csv", "--library", "lib", "--json")
    (sweep,) = done.result["sweeps"]
    words = f"kept without shock, pack and clicks; say it with: dynoan edit {sweep['id']} --shock NAME --pack NAME"
    assert any(words in text for text in done.warnings)
    edited = dynoan(
        "edit", sweep["id"], "--shock", "FL-01", "--pack", "gravel", "--clicks", "lsc=3", "--library", "lib"
    )
    assert edited.code == 0


def test_good_files_are_kept_and_bad_ones_named(here):
    write_run(here / "a.csv", seed=1)
    write_run(here / "b.csv", seed=2)
    (here / "empty.csv").write_bytes(b"")
    (here / "noise.csv").write_bytes(bytes(range(256)) * 20)
    done = dynoan(
        "add", "a.csv", "empty.csv", "noise.csv", "gone.csv", ".", "b.csv", *ALL, "--library", "lib", "--json"
    )
    assert done.code == 2
    assert [s["source"] for s in done.result["sweeps"]] == ["a.csv", "b.csv"]
    assert [f["path"] for f in done.result["failed"]] == ["empty.csv", "noise.csv", "gone.csv", "."]
    for failure, line in zip(done.result["failed"], done.err.splitlines(), strict=True):
        assert failure["path"] in line
        assert line.startswith("dynoan: ")
    assert len(Library(here / "lib").records()) == 2


def test_when_no_file_is_good_no_library_is_made(here):
    (here / "empty.csv").write_bytes(b"")
    assert dynoan("add", "empty.csv", "--library", "lib").code == 2
    assert not (here / "lib").exists()


def test_a_folder_with_other_things_is_not_made_a_library(here):
    write_run(here / "a.csv")
    done = dynoan("add", "a.csv", "--library", ".")
    assert done.code == 2
    assert "is no library" in done.err
    assert not (here / "dynoan.toml").exists()


def test_no_library_says_how_to_make_one(here):
    write_run(here / "a.csv")
    done = dynoan("add", "a.csv")
    assert done.code == 2
    assert f"no library at or above {here}; " in done.err
    assert "make one of a new or an empty folder with: dynoan add FILE --library NEW" in done.err
    assert len(done.err.splitlines()) == 1


def test_clicks_are_held_against_the_shocks_file(here):
    library = Library.create(here / "lib")
    (library.path / "shocks" / "FL-01.toml").write_text("[adjusters.lsc]\nclicks = 20\n")
    write_run(here / "a.csv")
    done = dynoan("add", "a.csv", "--shock", "FL-01", "--pack", "x", "--clicks", "lsc=21", "--library", "lib")
    assert (done.code, len(library.records())) == (2, 0)
    assert "a.csv: lsc=21 is outside the clicks of shock FL-01: 0 to 20" in done.err
    done = dynoan("add", "a.csv", "--shock", "FL-01", "--pack", "x", "--clicks", "hsr=2", "--library", "lib")
    assert "no adjuster 'hsr'; it has lsc" in done.err
    (library.path / "shocks" / "FL-01.toml").write_text("[adjusters.lcs]\nclicks = 20\n")
    done = dynoan("add", "a.csv", "--shock", "FL-01", "--clicks", "lsc=2", "--library", "lib")
    assert (done.code, done.err.count("shocks/FL-01.toml")) == (2, 1)
    assert "did you mean 'lsc'" in done.err


@pytest.mark.parametrize("name", ["../../evil", "/etc/passwd", "nul", "a" * 150])
def test_odd_names_are_kept_as_text_inside_the_library(here, name):
    write_run(here / "a.csv")
    done = dynoan("add", "a.csv", "--shock", name, "--pack", name, "--clicks", "lsc=1", "--library", "lib", "--json")
    assert done.code == 0
    assert done.result["sweeps"][0]["shock"] == name
    written = {p.relative_to(here).parts[0] for p in here.rglob("*")}
    assert written == {"a.csv", "lib"}


@pytest.mark.parametrize("name", ["x" * 10_000, "a\u202eb", "a\x1b[31m"])
def test_names_that_cannot_be_shown_are_refused(here, name):
    write_run(here / "a.csv")
    done = dynoan("add", "a.csv", "--shock", name, "--pack", "x", "--clicks", "lsc=1", "--library", "lib")
    assert done.code == 2
    assert done.err.replace("\n", "").isprintable()
    assert len(done.err) < 700


@pytest.mark.slow
def test_processes_keep_the_same_as_one(here):
    for number in range(5):
        write_run(here / f"{number}.csv", seed=number)
    files = [f"{n}.csv" for n in range(5)]
    (here / "bad.csv").write_bytes(b"\x00")
    for library, workers in (("one", "1"), ("two", "2")):
        words = ["add", *files, "bad.csv", *ALL, "--library", library, "--workers", workers, "--json"]
        done = subprocess.run([sys.executable, "-m", "dynoan", *words], capture_output=True, text=True, check=False)
        assert done.returncode == 2
        kept = json.loads(done.stdout)["result"]["sweeps"]
        assert [s["source"] for s in kept] == files
    one, two = Library(here / "one"), Library(here / "two")
    assert [r.id for r in one.records()] == [r.id for r in two.records()]
    for record in one.records():
        assert (one.load(record.id).channels["force"] == two.load(record.id).channels["force"]).all()


def test_stopped_on_the_way_it_keeps_what_it_added_and_the_same_command_adds_the_rest(here, monkeypatch, capsys):
    for seed, name in enumerate("abc"):
        write_run(here / f"{name}.csv", seed=seed)
    words = ("add", "a.csv", "b.csv", "c.csv", *ALL, "--library", "lib", "--json", "--workers", "1")
    add, come = Library.add, iter((False, True))

    def stopped(self, *args, **kwargs):
        if next(come):
            raise KeyboardInterrupt
        return add(self, *args, **kwargs)

    monkeypatch.setattr(Library, "add", stopped)
    monkeypatch.setattr(sys, "argv", ["dynoan", *words])
    with pytest.raises(SystemExit, match="130"):
        main()
    said = capsys.readouterr()
    assert json.loads(said.out)["error"]["kind"] == "stopped"
    assert "the same command adds the rest" in said.err
    monkeypatch.setattr(Library, "add", add)
    assert [sweep["new"] for sweep in dynoan(*words).result["sweeps"]] == [False, True, True]
