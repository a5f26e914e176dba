"""``dynoan sweeps``, ``edit``, ``remove`` and ``check``."""

from __future__ import annotations

import pytest

from dynoan.errors import LibraryError
from dynoan.library import Library
from tests.library.calling import dynoan
from tests.library.made import made_sweep


@pytest.fixture
def library(tmp_path, monkeypatch):
    library = Library.create(tmp_path / "lib")
    kept = (("FL-01", "gravel", {"lsc": 6, "lsr": 8}), ("FL-01", "tarmac", {"lsc": 6, "lsr": 2}),
            ("RL-02", "gravel", {"lsc": 1}))  # fmt: skip
    for number, (shock, pack, clicks) in enumerate(kept):
        library.add(*made_sweep(number, shock=shock, pack=pack, clicks=clicks))
    monkeypatch.chdir(library.path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    return library


@pytest.mark.parametrize(
    ("filters", "count"),
    [((), 3), (("pack=gravel",), 2), (("pack=gravel", "shock=FL-01"), 1), (("shock=FL-01,lsc=6",), 2), (("lsr=2",), 1),
     (("date=2026-03",), 3), (("pack=wet",), 0)],
)  # fmt: skip
def test_the_list_is_what_fits_every_filter(library, filters, count):
    done = dynoan("sweeps", *filters, "--json")
    assert done.code == 0
    assert len(done.result["sweeps"]) == count


def test_the_list_has_the_keys_that_others_rely_on(library):
    sweep = dynoan("sweeps", "pack=tarmac", "--json").result["sweeps"][0]
    assert {"id", "shock", "pack", "clicks", "layout", "date"} <= set(sweep)
    assert (sweep["clicks"], sweep["layout"], sweep["date"]) == ({"lsc": 6, "lsr": 2}, "trace", "2026-03-01")


def test_people_get_a_table_that_nothing_in_a_name_can_steer(library):
    library.edit(library.records()[0].id, pack="grüner Pack")
    done = dynoan("sweeps")
    assert "grüner Pack" in done.out
    assert "lsc=6,lsr=8" in done.out
    assert "sweeps: 3" in done.err


def test_a_wrong_filter_says_which_there_are(library):
    done = dynoan("sweeps", "pak=gravel")
    assert done.code == 2
    assert "shock, pack, date, lsc" in done.err


def test_a_damaged_file_is_left_out_and_named(library):
    record = library.records()[0]
    (library.path / record.file).write_bytes(b"gone wrong")
    done = dynoan("sweeps", "--json")
    assert len(done.result["sweeps"]) == 2
    assert record.file in done.warnings[0]


def test_edit_keeps_the_clicks_it_does_not_name(library):
    record = next(r for r in library.records() if r.pack == "tarmac")
    done = dynoan("edit", record.id[:6], "--clicks", "lsc=9", "--temperature", "95 °F", "--json")
    (sweep,) = done.result["sweeps"]
    assert (sweep["id"], sweep["clicks"], sweep["pack"]) == (record.id, {"lsc": 9, "lsr": 2}, "tarmac")
    assert sweep["temperature_c"] == pytest.approx(35.0)
    assert dynoan("edit", record.id, "--clicks", "", "--json").result["sweeps"][0]["clicks"] == {}


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "nothing to correct"), (("--clicks", "lsc"), "not like lsc=6"), (("--date", "soon"), "is no date"),
        (("--temperature", "35"), "has no unit"), (("--clicks", "lsc=21"), "0 to 20"),
        (("--pack", "x" * 999), "characters"),
    ],
)  # fmt: skip
def test_an_edit_that_cannot_be_changes_nothing(library, words, says):
    (library.path / "shocks" / "FL-01.toml").write_text("[adjusters.lsc]\nclicks = 20\n[adjusters.lsr]\nclicks = 20\n")
    record = next(r for r in library.records() if r.shock == "FL-01")
    done = dynoan("edit", record.id, *words)
    assert done.code == 2
    assert says in done.err
    assert library.record(record.id) == record


def test_remove_takes_all_or_none_of_what_is_named(library):
    ids = [r.id for r in library.records()]
    assert dynoan("remove", ids[0], "ffffffffff").code == 2
    assert len(library.records()) == 3
    done = dynoan("remove", ids[0], ids[1][:7], ids[0], "--json")
    assert done.result == {"removed": ids[:2]}
    assert [r.id for r in library.records()] == ids[2:]


def test_check_counts_files_and_exits_1_on_faults(library):
    done = dynoan("check", "--json")
    assert (done.code, done.result) == (0, {"files": 4, "faults": [], "to_fill_in": []})
    record = library.records()[0]
    path = library.path / record.file
    path.write_bytes(path.read_bytes()[:-1] + b"\x00\x01")
    (library.path / "cars" / "kestrel.toml").write_text("wheelbase = 3")
    done = dynoan("check", "--json")
    assert (done.code, done.result["files"]) == (1, 5)
    faults = {f["file"]: f["fault"] for f in done.result["faults"]}
    assert set(faults) == {record.file, "cars/kestrel.toml"}
    assert "checksum" in faults[record.file]
    assert "wheelbase: '3' has no unit" in faults["cars/kestrel.toml"]
    assert f"{record.file}: damaged" in dynoan("check").out


def test_an_empty_library_says_what_to_do(tmp_path):
    Library.create(tmp_path / "empty")
    done = dynoan("sweeps", "--library", tmp_path / "empty")
    assert (done.code, "dynoan add FILE" in done.out) == (0, True)


def test_remove_tells_programs_what_would_not_go(library, monkeypatch):
    ids = [record.id for record in library.records()]
    take = Library.remove

    def stuck(self, sweep_id):
        if sweep_id == ids[0]:
            raise LibraryError("the disk is read-only", where=f"sweeps/{sweep_id}.h5")
        return take(self, sweep_id)

    monkeypatch.setattr(Library, "remove", stuck)
    alone = dynoan("remove", ids[0], "--json")
    assert (alone.code, alone.out) == (2, ""), "no result where nothing was done: the shell prints an error's object"
    assert f"sweeps/{ids[0]}.h5: the disk is read-only" in alone.err
    both = dynoan("remove", ids[0], ids[1], "--json")
    assert (both.code, both.result["removed"]) == (2, [ids[1]])
    assert both.result["failed"] == [f"sweeps/{ids[0]}.h5: the disk is read-only"]
