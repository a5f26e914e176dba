"""One library on two machines and a sync folder between them: copies are known as such, and nothing is lost."""

from __future__ import annotations

import shutil

import pytest

from dynoan.library import Library
from dynoan.library.car_file import car_from_text
from dynoan.model.setup import Setup
from tests.library.made import CAR, made_sweep

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


@pytest.mark.parametrize("name", ["kestrel (conflicted copy)", "kestrel.sync-conflict-20260502-AB"])
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
