"""Keeping rig files as question and answer: what is kept, what is not, who reads, and what the library knows then."""

from __future__ import annotations

import json

import pytest

import dynoan.jobs.add
from dynoan.errors import CallError, LibraryError, LookupFault, QuantityError
from dynoan.jobs import edit
from dynoan.jobs.add import AddQuestion, NewLibrary, answer
from dynoan.jobs.read.understanding import WORTH_PROCESSES, Sharing
from dynoan.library import Library
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Note, Table
from dynoan.workbench import Workbench
from tests.library.calling import write_run

ALL = {"shock": "FL-01", "pack": "gravel", "clicks": {"lsc": 6, "lsr": 8}}


@pytest.fixture
def told():
    return []


@pytest.fixture
def bench(library, told):
    return Workbench.find(library.path, progress=lambda label, done, of: told.append((label, done, of)))


def runs(folder, count):
    return [write_run(folder / f"{n}.csv", seed=n) for n in range(count)]


def test_what_is_kept_is_the_file_itself(bench, tmp_path):
    path = write_run(tmp_path / "a.csv")
    (kept,) = answer(bench, AddQuestion.asked(path, **ALL)).sweeps
    assert (kept.new, kept.record.shock, kept.record.clicks) == (True, "FL-01", ALL["clicks"])
    assert bench.library.original(kept.record.id) == path.read_bytes()


def test_twice_adds_nothing_and_says_what_differs(bench, tmp_path):
    path = write_run(tmp_path / "a.csv")
    first = answer(bench, AddQuestion.asked(path, **ALL))
    again = answer(bench, AddQuestion.asked(path, pack="tarmac"))
    assert (first.new, again.new, len(bench.library.records())) == (1, 0, 1)
    assert again.sweeps[0].record == first.sweeps[0].record
    assert again.warnings[0].startswith("a.csv: kept before with pack gravel, not tarmac")
    assert again.failures == ()


def test_a_fact_that_was_missing_completes_what_was_kept_before(bench, tmp_path):
    path = write_run(tmp_path / "a.csv")
    path.write_text("# Date: 4/11/2026\n" + path.read_text("utf-8"), "utf-8")
    answer(bench, AddQuestion.asked(path, shock="FL-01", pack="gravel"))
    more = {"clicks": ALL["clicks"], "dates": "month-first"}
    again = answer(bench, AddQuestion.asked(path, pack="tarmac", **more))
    (record,) = bench.library.records()
    assert (record.shock, record.pack, record.clicks, record.date) == ("FL-01", "gravel", ALL["clicks"], "2026-04-11")
    assert again.to_dict()["sweeps"][0]["completed"] == ["clicks", "date"]
    assert "kept before with pack gravel, not tarmac" in again.warnings[0]
    assert "what was missing of 1 is known now: clicks, date" in presenting.blocks(again, Look())[1].text
    assert answer(bench, AddQuestion.asked(path, **more)).sweeps[0].completed == ()


def test_several_sweeps_are_corrected_at_once_or_none(bench, tmp_path):
    kept = answer(bench, AddQuestion.asked(*runs(tmp_path, 3), shock="FL-01", pack="gravel")).sweeps
    ids = [sweep.record.id for sweep in kept]
    found = edit.answer(bench, edit.EditQuestion.asked(*ids[:2], ids[0], date="2026-05-02"))
    assert [record.id for record in found.records] == ids[:2]
    assert sorted(r.date or "" for r in bench.library.records()) == ["", "2026-05-02", "2026-05-02"]
    with pytest.raises(LookupFault):
        edit.answer(bench, edit.EditQuestion.asked(ids[2], "ffffffffff", date="2026-06-01"))
    assert bench.library.record(ids[2]).date is None


def test_what_is_to_be_said_of_many_files_is_said_once(bench, tmp_path):
    found = answer(bench, AddQuestion.asked(*runs(tmp_path, 5), shock="FL-01"))
    ids = " ".join(sweep.record.id for sweep in found.sweeps)
    said = "5 files (0.csv, 1.csv, 2.csv, …): kept without pack and clicks; say it with: dynoan edit "
    assert [text for text in found.warnings if "kept without" in text] == [
        f"{said}{ids} --pack NAME --clicks lsc=6,lsr=8"
    ]
    assert all(sweep.record.id in " ".join(sweep.remarks) for sweep in found.sweeps)


def test_good_files_are_kept_and_the_others_named(bench, tmp_path):
    paths = [*runs(tmp_path, 2), tmp_path / "gone.csv", tmp_path]
    paths.insert(1, tmp_path / "empty.csv")
    paths[1].touch()
    found = answer(bench, AddQuestion.asked(*paths, **ALL))
    assert [s.path.name for s in found.sweeps] == ["0.csv", "1.csv"]
    assert [f.path for f in found.failed] == [paths[1], *paths[3:]]
    assert len(found.failures) == 3
    assert not found.no


def test_a_sweep_is_refused_with_its_file_when_the_shock_has_no_such_click(bench, tmp_path):
    (bench.library.path / "shocks" / "FL-01.toml").write_text("[adjusters.lsc]\nclicks = 5\n")
    good, bad = runs(tmp_path, 2)
    answer(bench, AddQuestion.asked(good, shock="FL-01", clicks="lsc=5"))
    found = answer(bench, AddQuestion.asked(bad, shock="FL-01", clicks="lsc=6"))
    assert found.failures == ("1.csv: lsc=6 is outside the clicks of shock FL-01: 0 to 5",)
    assert len(bench.library.records()) == 1


def test_a_failure_cannot_steer_the_screen(bench, tmp_path):
    found = answer(bench, AddQuestion.asked(write_run(tmp_path / "a.csv"), shock="a\x1b[31m\nb"))
    assert len(found.failures) == 1
    assert found.failures[0].isprintable()


def test_the_workbench_sees_what_was_added(bench, tmp_path):
    assert bench.records == ()
    answer(bench, AddQuestion.asked(write_run(tmp_path / "a.csv"), **ALL))
    assert [r.pack for r in bench.records] == ["gravel"]
    assert [a.name for a in bench.shock("FL-01").adjusters] == ["lsc", "lsr"]


def test_progress_counts_every_file_to_the_last(bench, tmp_path, told):
    paths = [*runs(tmp_path, 2), tmp_path / "gone.csv"]
    answer(bench, AddQuestion.asked(*paths))
    assert told == [("reading", n, 3) for n in (1, 2, 3)]


def test_what_was_read_before_a_stop_is_kept(bench, tmp_path):
    def stop(_label, done, _of):
        if done == 2:
            raise KeyboardInterrupt

    bench.progress = stop
    with pytest.raises(KeyboardInterrupt):
        answer(bench, AddQuestion.asked(*runs(tmp_path, 4)))
    assert len(Library(bench.library.path).records()) == 2


def test_a_new_folder_becomes_a_library_once_there_is_something_to_keep(tmp_path):
    new = NewLibrary(tmp_path / "new" / "lib", "us")
    nothing = answer(new, AddQuestion.asked(tmp_path / "gone.csv"))
    assert (nothing.made, new.folder.exists()) == (None, False)
    found = answer(new, AddQuestion.asked(tmp_path / "gone.csv", write_run(tmp_path / "a.csv"), **ALL))
    assert (found.made, found.new, len(found.failed)) == (new.folder, 1, 1)
    assert Library(new.folder).units == "us"


def test_a_folder_with_other_things_becomes_no_library(tmp_path):
    path = write_run(tmp_path / "a.csv")
    with pytest.raises(LibraryError, match="not empty"):
        answer(NewLibrary(tmp_path), AddQuestion.asked(path))
    assert not (tmp_path / "dynoan.toml").exists()


def test_plain_values_hold_the_promised_keys_and_the_frame_a_row_a_sweep(bench, tmp_path):
    found = answer(bench, AddQuestion.asked(*runs(tmp_path, 2), tmp_path / "gone.csv", shock="FL-01"))
    plain = json.loads(json.dumps(found.to_dict()))
    assert {"id", "shock", "pack", "clicks", "layout", "date", "path", "new", "warnings"} <= set(plain["sweeps"][0])
    assert plain["failed"] == [{"path": str(tmp_path / "gone.csv"), "error": found.failed[0].error}]
    assert "kept without pack and clicks" in plain["sweeps"][0]["warnings"][-1]
    frame = found.to_frame()
    assert list(frame["new"]) == [True, True]
    assert {"temperature_c", "gas_pressure_pa", "path"} <= set(frame.columns)


def test_text_says_how_many_are_new_and_which_are_not_kept(bench, tmp_path):
    paths = [*runs(tmp_path, 2), tmp_path / "gone.csv"]
    answer(bench, AddQuestion.asked(paths[0], **ALL))
    found = answer(bench, AddQuestion.asked(*paths, **ALL))
    table, count, failure, failures = presenting.blocks(found, Look())
    assert isinstance(table, Table)
    assert [row[1:4] for row in table.rows] == [["FL-01", "gravel", "lsc=6,lsr=8"]] * 2
    assert count == Note("kept 1 new; 1 kept before")
    assert failure == Note(found.failures[0], failed=True)
    assert failures == Note("1 of 3 files were not kept")
    again = presenting.blocks(answer(bench, AddQuestion.asked(paths[0], **ALL)), Look())
    assert again[1:] == [Note("kept before; nothing was added")]


@pytest.mark.parametrize("workers", [0, -1, 257])
def test_so_many_workers_cannot_be(workers):
    with pytest.raises(QuantityError) as wrong:
        AddQuestion.asked("a.csv", workers=workers)
    assert wrong.value.part == "workers"


def test_processes_read_only_where_that_pays(tmp_path):
    small = write_run(tmp_path / "a.csv")
    large = tmp_path / "large.csv"
    with large.open("wb") as out:
        out.truncate(WORTH_PROCESSES + 1)
    assert Sharing().for_files([small, small, tmp_path / "gone"]) == Sharing(workers=1)
    assert Sharing().for_files([large]) == Sharing(workers=1)
    assert Sharing().for_files([large, small]) == Sharing(workers=None)
    assert Sharing(3).for_files([small]) == Sharing(3)
    assert Sharing(cluster="tcp://10.0.0.5:8786").for_files([small]).cluster == "tcp://10.0.0.5:8786"


def test_a_cluster_that_does_not_answer_is_one_error_and_keeps_nothing(bench, tmp_path, monkeypatch):
    pytest.importorskip("distributed")
    monkeypatch.setattr("dynoan.batch.sharing.CONNECT", 0.2)
    with pytest.raises(CallError, match="no scheduler answers"):
        answer(bench, AddQuestion.asked(write_run(tmp_path / "a.csv"), cluster="tcp://127.0.0.1:9"))
    assert bench.library.records() == ()


def test_a_file_that_changed_since_it_was_read_is_refused(bench, tmp_path, monkeypatch):
    path = write_run(tmp_path / "a.csv")
    monkeypatch.setattr(dynoan.jobs.add, "fetched", lambda p: (p.name, p.read_bytes() + b"\n"))
    found = answer(bench, AddQuestion.asked(path))
    assert "do not match its SHA-256" in found.failures[0]
    assert found.sweeps == ()
