"""One library on two machines and a sync folder between them: copies are known as such, and nothing is lost."""

from __future__ import annotations

import shutil
import unicodedata
from dataclasses import replace

import pytest

from dynoan.errors import DynoanError
from dynoan.library import Library
from dynoan.library.car_edit import CornerSetting
from dynoan.library.car_file import car_from_text
from dynoan.library.car_learned import NewValue
from dynoan.library.copies import ADVICE
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial, TrialRun
from dynoan.window.desk import Desk
from tests.faults.syncing import Tool
from tests.faults.two_machines import TYPED, Ledger, Near, Person, two_places, verified
from tests.library.calling import dynoan
from tests.library.made import CAR, made_sweep
from tests.window.conftest import Window

NAMES = ("{} (conflicted copy 2026-05-02).h5", "{} (Team's conflicted copy).h5", "{}.sync-conflict-20260502-AB.h5",
         "{} (1).h5", "{} - Copy.h5", "{}-laptop.h5", "Copy of {}.h5")  # fmt: skip


@pytest.fixture
def machines(tmp_path):
    """The same library on two machines, after a sync."""
    one = Library.create(tmp_path / "one")
    for number in range(3):
        one.add(*made_sweep(number))
    return one, Library(shutil.copytree(one.path, tmp_path / "two"))


def sync(one: Library, two: Library, pattern: str) -> None:
    """Carry what the second machine has to the first, as sync tools do: a file that differs becomes a copy."""
    for path in sorted((two.path / "sweeps").glob("*.h5")):
        there = one.path / "sweeps" / path.name
        if there.exists() and there.read_bytes() != path.read_bytes():
            there = there.with_name(pattern.format(path.stem))
        shutil.copy(path, there)


@pytest.mark.parametrize("pattern", NAMES)
def test_a_sweep_that_two_machines_edited_counts_once_and_its_copy_is_named(machines, pattern):
    one, two = machines
    edited, other = (r.id for r in one.records()[:2])
    one.edit(edited, pack="tarmac")
    two.edit(edited, pack="mixed")
    two.edit(other, pack="snow")
    new = two.add(*made_sweep(9)).id
    sync(one, two, pattern)
    assert {r.id for r in one.records()} == {*(r.id for r in two.records()), new}
    assert next(r.pack for r in one.records() if r.id == edited) == "tarmac"
    named = {pattern.format(i) for i in (edited, other)}
    assert {f.file for f in one.faults()} == {f.file for f in one.check().faults} == {f"sweeps/{n}" for n in named}
    assert all("two machines" in f.fault for f in one.check().faults)
    assert all((one.path / "sweeps" / n).exists() for n in named), "nothing is taken away"


def test_the_copy_can_be_put_in_the_place_of_the_file(machines):
    one, two = machines
    edited = one.records()[0].id
    two.edit(edited, pack="mixed")
    sync(one, two, NAMES[0])
    (one.path / "sweeps" / NAMES[0].format(edited)).replace(one.path / "sweeps" / f"{edited}.h5")
    assert one.records() == two.records()
    assert one.check().faults == ()


def test_a_damaged_copy_is_named_as_damaged(machines):
    one, _ = machines
    name = NAMES[0].format(one.records()[0].id)
    (one.path / "sweeps" / name).write_bytes((one.path / one.records()[0].file).read_bytes()[:-1] + b"x")
    (fault,) = one.check().faults
    assert "checksum" in fault.fault


def test_the_window_sees_a_file_that_comes_in_its_place(tmp_path, monkeypatch):
    """Copying over a file, as `cp` and some sync tools do, leaves the folder's own time of change as it is."""
    monkeypatch.setattr("dynoan.window.at_hand.BELIEVED", 0.0)
    one = Library.create(tmp_path / "one")
    kept = [one.add(*made_sweep(number, samples=20)).id for number in range(2)]
    two = Library(shutil.copytree(one.path, tmp_path / "two"))
    path, other = (lib.path / "sweeps" / f"{kept[0]}.h5" for lib in (one, two))
    two.edit(kept[0], pack="tarmac")
    desk = Desk(one)
    assert desk.packs() == ("gravel",)
    for data, packs in ((other.read_bytes()[:30], ("gravel",)), (other.read_bytes(), ("gravel", "tarmac"))):
        before, stamp = path.parent.stat().st_mtime_ns, desk.stamp()
        path.write_bytes(data)
        assert path.parent.stat().st_mtime_ns == before
        assert (desk.packs(), desk.stamp() != stamp) == (packs, True)
    desk.close()


@pytest.mark.parametrize("seed", [1, *(pytest.param(n, marks=pytest.mark.thorough) for n in range(2, 12))])
def test_two_people_at_two_machines_lose_nothing(tmp_path, seed):
    """A short one; `python -m tests.faults.two_machines` has windows, too, and processes at work at once."""
    tool, ledger = Tool(*two_places(tmp_path), seed=seed), Ledger()
    people = [Person(Near(m.folder), ledger, 2 * seed + n) for n, m in enumerate(tool.machines)]
    for person in people * 9:
        person.jobs = TYPED
        person.act()
        tool.step(chance=0.4)
    tool.settle()
    assert [*people[0].faults, *people[1].faults, *verified(tool, ledger)] == []
    assert min(len(ledger.marks), tool.halves) > 3, "hardly anything was put to the test"


def test_a_loss_between_two_machines_is_seen(tmp_path):
    tool, ledger = Tool(*two_places(tmp_path)), Ledger()
    ledger.add("remark-1-", "setups/")
    one, two = (machine.folder for machine in tool.machines)
    shutil.copy(one / "cars" / "kestrel.toml", two / "cars" / "kestrel (Konfliktkopie).toml")
    tool.copies.add("cars/kestrel (Konfliktkopie).toml")
    next((two / "sweeps").iterdir()).unlink()
    (two / "trials" / "start.toml").write_text("broken")
    found = verified(tool, ledger)
    assert [text.partition(": ")[2] for text in found[:3]] == ["lost: remark-1- of setups/"] * 2 + [
        "named, and no copy: trials/start.toml"
    ]
    assert found[3:] == ["the machines list different sweeps"]


@pytest.mark.parametrize("half", [CAR[:232].encode() + bytes(len(CAR) - 232), b"", b"fl = 3\n", CAR[:-30].encode()])
def test_nothing_is_built_upon_half_a_car(tmp_path, half):
    library = Library.create(tmp_path / "one")
    path = library.path / "cars" / "kestrel.toml"
    path.write_bytes(half)
    window = Window(library.path)
    tried = {"car": "kestrel", "front.spring": "52 N/mm"}
    told = window.post("/car/put-on", tried)
    assert (told.status_code, "kestrel" in told.text, "fault of the program" in told.text) == (200, True, False)
    for change in (
        lambda: library.write_learned("kestrel", {"cg_height": NewValue(0.5, 0.51, 0.01)}, write=True),
        lambda: library.write_settings("kestrel", {"fl": CornerSetting("gravel", {"lsc": 3})}),
    ):
        with pytest.raises(DynoanError, match=r"cars/kestrel\.toml"):
            change()
    assert path.read_bytes() == half
    path.write_text(CAR)
    assert "52 N/mm" in window.post("/car/put-on", tried).text
    window.desk.close()


CONFLICTS = (
    "{} (conflicted copy)", "{}.sync-conflict-20260502-AB", "{}_conflict-20260502-101010", "{} (Case Conflict)",
    "[Conflict] {}", "{} (In Konflikt stehende Kopie von Werkstatt)", "{} (Konfliktkopie)", "{} (copie en conflit)",
    "{} (Copia en conflicto)", "{} (Co\u0301pia em conflito)", "{} (copia in conflitto)", "{} (motstridende kopi)",
    "{} (конфликтующая копия)", "{} (競合コピー)", "{} (冲突副本)", "{} (ÇAKIŞAN kopya)", "{} (CONFLİCT)",
)  # fmt: skip


@pytest.mark.parametrize("name", [name.format("kestrel") for name in CONFLICTS])
def test_a_copy_of_a_text_is_named(machines, name):
    one, _ = machines
    (one.path / "cars" / "kestrel.toml").write_text(CAR)
    (one.path / "cars" / f"{name}.toml").write_text(CAR.replace("2430", "2431"))
    (fault,) = one.check().faults
    assert (fault.file, "two machines" in fault.fault) == (f"cars/{name}.toml", True)


def test_two_machines_add_the_same_file_and_different_ones(machines):
    one, two = machines
    same = {machine.add(*made_sweep(7)).id for machine in machines}
    assert len(same) == 1
    shutil.rmtree(one.path / "cache", ignore_errors=True)
    two.add(*made_sweep(8))
    sync(one, two, NAMES[0])
    # The moment of adding stands in the file: the same sweep added on both machines is a copy, not a second run.
    assert {r.id for r in one.records()} == {r.id for r in two.records()}


def test_a_clock_that_was_set_back_loses_no_order_and_no_setup(machines, monkeypatch):
    one, _ = machines
    car = car_from_text(CAR, "cars/kestrel.toml")
    for moment in ("2026-05-02T10:00:00.000Z", "2020-01-01T00:00:00.000Z"):
        monkeypatch.setattr("dynoan.library.text_shelf.now", lambda moment=moment: moment)
        one.record_setup(Setup("", car, "2026-05-02", remarks=moment), CAR)
    assert [s.name for s in one.setups()] == ["2026-05-02-kestrel-2", "2026-05-02-kestrel"]
    assert one.add(*made_sweep(50)).new
    assert one.check().faults == ()


@pytest.fixture
def outing(machines):
    """A library with a setup and a trial of two runs."""
    one, _ = machines
    (one.path / "cars" / "kestrel.toml").write_text(CAR)
    one.record_setup(Setup("", car_from_text(CAR, "cars/kestrel.toml"), "2026-05-02", good=True), CAR)
    runs = tuple(TrialRun(s, t, f"{t} s", "2026-05-02T10:00") for s, t in (("a", 4.8), ("b", 4.7)))
    one.trials.keep_new(Trial("start", "soft", "hard", less=True, unit="s", date="2026-05-02", runs=runs))
    return one


BY_HAND = ("{} (1)", "{} - Copy", "{} - Kopie (2)", "{} copie", "Copy of {}", "Kopie von {}", "{} - コピー")


@pytest.mark.parametrize("pattern", [*CONFLICTS, *BY_HAND])
def test_a_copy_of_a_setup_or_a_trial_counts_once_is_named_and_stays(outing, pattern):
    for folder, base in (("setups", "2026-05-02-kestrel"), ("trials", "start")):
        name = f"{pattern.format(base)}.toml"
        shutil.copy(outing.path / folder / f"{base}.toml", outing.path / folder / name)
        assert [f.fault.split(";")[0] for f in outing.check().faults if f.file.startswith(folder)] == [ADVICE]
    setups, faults = outing.readable_setups()
    assert ([s.name for s in setups], len(faults)) == (["2026-05-02-kestrel"], 1)
    trials, faults = outing.trials.readable()
    assert ([t.name for t in trials], len(faults)) == (["start"], 1)
    for words in (("setup", "list"), ("trial", "list"), ("setup", "recall")):
        done = dynoan("--library", outing.path, *words)
        assert (done.code, ADVICE in done.err) == (0, True), done.err


def test_a_second_setup_of_a_day_and_a_trial_run_again_are_no_copies(outing):
    car = car_from_text(CAR, "cars/kestrel.toml")
    again = outing.record_setup(Setup("", car, "2026-05-02", recorded="2026-05-02T12:00:00.000Z"), CAR)
    (outing.path / "setups" / f"{again.name}.toml").rename(outing.path / "setups" / "2026-05-02-kestrel (2).toml")
    run = TrialRun("a", 4.9, "4.9 s", "2026-05-09T10:00")
    outing.trials.keep_new(Trial("start (2)", "soft", "hard", less=True, unit="s", date="2026-05-09", runs=(run,)))
    outing.trials.keep_new(Trial("start copy", "soft", "hard", less=True, unit="s", date="2026-05-09"))
    (outing.path / "cars" / "kestrel - Copy.toml").write_text(CAR)
    assert outing.check().faults == ()
    assert len(outing.readable_setups()[0]) == 2
    assert len(outing.trials.readable()[0]) == 3


def test_a_conflict_copy_that_no_reader_meets_is_named_too(machines):
    one, _ = machines
    names = ("dynoan (conflicted copy).toml", "cars/kestrel.toml.sync-conflict-20260502", "trials/start.toml_conflict")
    for name in names:
        (one.path / name).parent.mkdir(exist_ok=True)
        (one.path / name).write_text("")
    assert {f.file for f in one.check().faults} == set(names)


@pytest.mark.parametrize("name", ["conflict", "Konflikt", "conflict-kestrel", "no conflict", "kestrel2 conflict 3"])
def test_a_thing_that_is_called_conflict_is_no_copy(outing, name):
    (outing.path / "cars" / f"{name}.toml").write_text(CAR)
    outing.trials.keep_new(Trial(name, "soft", "hard", less=True, unit="s", date="2026-05-09"))
    outing.record_setup(Setup("", replace(outing.car(name), name=name), "2026-05-09"), CAR)
    (outing.path / f"{name}.csv").write_text("a run")
    assert outing.check().faults == ()
    assert name in {t.name for t in outing.trials.readable()[0]}
    assert len(outing.readable_setups()[0]) == 2


def test_a_copy_called_conflict_beside_its_original_is_one(outing):
    shutil.copy(outing.path / "trials" / "start.toml", outing.path / "trials" / "start-conflict.toml")
    assert [f.file for f in outing.check().faults] == ["trials/start-conflict.toml"]


@pytest.mark.parametrize("folder", ["cars", "setups", "trials"])
@pytest.mark.parametrize("name", ["Co\u0301pia", "[old] kestrel", "kestrel: wet", "50% stiffer"])
def test_a_text_that_another_machine_named_is_read_and_edited_in_place(outing, folder, name):
    """A disk may spell letters as two characters; other programs write marks that this one would write as %XX."""
    first = next((outing.path / folder).iterdir())
    first.rename(outing.path / folder / f"{name}.toml")
    assert outing.check().faults == ()
    if folder == "cars":
        assert outing.car(name).wheelbase == 2.43
        outing.write_settings(name, {"fl": CornerSetting("gravel", {"lsc": 3})})
        assert outing.car(unicodedata.normalize("NFC", name)).corners["fl"].clicks["lsc"] == 3
    elif folder == "setups":
        assert outing.edit_setup(replace(outing.setup(name), remarks="wet")).remarks == "wet"
    else:
        assert len(outing.trials.add_runs(name, (TrialRun("a", 5.0, "5.0 s"),)).runs) == 3
    assert [p.name for p in (outing.path / folder).iterdir()] == [f"{name}.toml"]


def test_two_files_of_one_name_in_other_bytes_are_named(outing):
    for spelled in ("Co\u0301pia", "C\u00f3pia"):
        (outing.path / "cars" / f"{spelled}.toml").write_text(CAR)
    (fault,) = outing.check().faults
    assert (fault.file, "written with other bytes" in fault.fault) == ("cars/Co\u0301pia.toml", True)


@pytest.mark.parametrize(("one", "other"), [("Kestrel", "kestrel"), ("ÄÖ", "äö")])
def test_two_names_that_a_disk_without_case_takes_for_one_are_named(outing, one, other):
    for name in (one, other):
        (outing.path / "cars" / f"{name}.toml").write_text(CAR)
    (fault,) = outing.check().faults
    assert fault.file == f"cars/{max(one, other)}.toml"
    assert fault.fault.startswith(f"this and '{min(one, other)}.toml' differ by upper and lower case alone")
    assert outing.car(one).wheelbase == outing.car(other).wheelbase
