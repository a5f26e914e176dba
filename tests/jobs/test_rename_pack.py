"""A pack's new name stands wherever its old one stood, and nowhere else."""

from __future__ import annotations

import pytest

from dynoan.errors import CallError, LookupFault
from dynoan.jobs.rename_pack import RenamePackQuestion, answer
from dynoan.jobs.setup.record import SetupRecordQuestion
from dynoan.jobs.setup.record import answer as record
from dynoan.workbench import Workbench
from tests.library.made import CAR, made_sweep


@pytest.fixture
def bench(library):
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    library.add(*made_sweep(1))
    library.add(*made_sweep(2, pack="tarmac"))
    made = Workbench.find(library.path)
    record(made, SetupRecordQuestion.asked("kestrel", date="2026-05-02", remarks='pack = "gravel" was right'))
    return made


def test_sweeps_cars_and_setups_bear_the_new_name(bench):
    found = answer(bench, RenamePackQuestion("gravel", 'P "2"'))
    assert len(found.sweeps) == 1
    assert found.files == ("cars/kestrel.toml", "setups/2026-05-02-kestrel.toml")
    assert set(bench.library.packs()) == {'P "2"', "tarmac"}
    assert bench.library.car("kestrel").corners["fl"].pack == 'P "2"'
    (setup,) = bench.library.setups()
    assert (setup.car.corners["fl"].pack, setup.remarks) == ('P "2"', 'pack = "gravel" was right')
    assert bench.library.car_text("kestrel").replace('"P \\"2\\""', '"gravel"') == CAR


def test_two_packs_become_one_only_where_that_is_said(bench):
    with pytest.raises(CallError, match="would become one pack's"):
        answer(bench, RenamePackQuestion("gravel", "tarmac"))
    answer(bench, RenamePackQuestion("gravel", "tarmac", merge=True))
    assert bench.library.packs() == ("tarmac",)


def test_a_pack_that_nobody_knows_is_refused(bench):
    with pytest.raises(LookupFault, match=r"gravle.*did you mean 'gravel'"):
        answer(bench, RenamePackQuestion("gravle", "wet"))


@pytest.mark.parametrize("new", ["", "gravel", "a\nb"])
def test_a_name_that_cannot_be_is_refused(bench, new):
    with pytest.raises(CallError):
        answer(bench, RenamePackQuestion("gravel", new))
