"""Planned runs lower the error of the map more than the same number of one-at-a-time runs."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.plan import Plan, plan
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.errors import CallError
from dynoan.model.shock import Adjuster
from tests.analysis.made_packs import FOUR, TWO, OtherPack, low_only, low_places, made_pack, sweeps_of, units
from tests.worlds.packs.rows import draw
from tests.worlds.packs.score import try_plan
from tests.worlds.packs.with_dynoan import program

NAMES = ("lsc", "hsc", "lsr", "hsr")
BASE = dict.fromkeys(NAMES, 10)
ONE_AT_A_TIME = (BASE, *(BASE | {name: click} for name in NAMES for click in (0, 20)))
SPEEDS = np.geomspace(0.025, 0.5, 10)


def _error(pack: OtherPack, seed: int, settings: tuple[dict[str, int], ...]) -> float:
    scale = units(np.random.default_rng(seed), 1)[0]
    made = fit_map("p", FOUR, sweeps_of(pack, seed, settings), view="hydraulic")
    rng = np.random.default_rng(5)
    errors = []
    for _ in range(100):
        clicks = {name: int(rng.integers(0, 21)) for name in NAMES}
        truth = np.concatenate([f * s for f, s in zip(pack.forces(SPEEDS, clicks), scale, strict=True)])
        force = np.abs(made.force(clicks, np.concatenate([SPEEDS, -SPEEDS]))[0])
        errors.append(np.abs(force / truth - 1))
    return float(np.mean(errors))


@pytest.mark.slow
@pytest.mark.thorough
def test_planned_runs_beat_one_at_a_time_in_nine_of_ten_packs():
    wins, count = 0, 6
    for seed in range(60, 70):
        pack = made_pack(seed)
        made = plan("p", FOUR, sweeps_of(pack, seed, (BASE,)), count=count - 1)
        planned = (BASE, *(run.from_closed for run in made.runs))
        wins += _error(pack, seed, planned) < _error(pack, seed, ONE_AT_A_TIME[:count])
    assert wins >= 9


@pytest.fixture(scope="module")
def five() -> Plan:
    """Five runs more of a pack that is tested."""
    return plan("p", FOUR, sweeps_of(made_pack(3), 3), count=5)


@pytest.mark.thorough
def test_each_run_lowers_the_error_and_the_sums_agree(five):
    made = five
    assert all(run.gain >= -1e-9 for run in made.runs)
    assert made.error_now - sum(run.gain for run in made.runs) == pytest.approx(made.error_after)
    assert [run.error_after for run in made.runs] == sorted((run.error_after for run in made.runs), reverse=True)


def test_a_new_pack_can_be_planned_and_tested_ones_need_less(five):
    new = plan("p", FOUR, (), count=3)
    assert new.error_now > 5 * five.error_now
    assert new.runs[0].gain > five.runs[0].gain
    assert new.stop_after == 3


@pytest.mark.parametrize(
    ("row", "seeds"),
    [("plan stepped", range(54, 55)),
     *(pytest.param(row, range(60, 68), marks=pytest.mark.thorough)
       for row in ("plan regular", "plan stepped", "plan dead clicks", "plan any"))],
)  # fmt: skip
def test_the_error_told_for_after_the_runs_is_about_the_true_one(row, seeds):
    """Of packs made apart from the map, odd adjusters among them; a true error is never many times the one told."""
    cells = try_plan(program, [draw(row, seed) for seed in seeds])
    assert 0.5 < cells["true / stated, rms"] < 1.6
    assert cells["beyond twice"] <= 0.15


def test_it_says_when_to_stop():
    settings = low_places(*np.random.default_rng(1).integers(0, 21, (12, 2)).tolist())
    assert plan("p", TWO, low_only(sweeps_of(made_pack(3), 3, settings)), count=3).stop_after == 0


def test_untested_adjusters_are_tested_first():
    settings = tuple(BASE | {"lsc": n, "lsr": n} for n in (0, 10, 20))
    first = plan("p", FOUR, sweeps_of(made_pack(4), 4, settings), count=1).runs[0]
    assert first.from_closed["hsc"] != 10
    assert first.from_closed["hsr"] != 10


def test_runs_hold_a_ladder_of_speeds_within_reach():
    run = plan("p", FOUR, (), count=1, top=0.3).runs[0]
    assert min(run.speeds) <= 0.03
    assert max(run.speeds) <= 0.3
    assert list(run.speeds) == sorted(set(run.speeds))


@pytest.mark.parametrize("adjusters", [(Adjuster("c", 14), Adjuster("r", 14)), (Adjuster("cr", 24),), ()])
def test_adjusters_of_any_kind(adjusters):
    made = plan("p", adjusters, (), count=2)
    assert all(set(run.from_closed) == {a.name for a in adjusters} for run in made.runs)
    assert made.error_after < made.error_now


def test_a_silly_number_of_runs_is_refused():
    with pytest.raises(CallError, match="runs: wanted 1 to 50, found 0"):
        plan("p", FOUR, (), count=0)
