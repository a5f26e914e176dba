"""What the worlds of practice do to a library is what they say."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_allclose

from tests.worlds.packs import packs as valving
from tests.worlds.packs.adjusters import draw_adjusters
from tests.worlds.packs.practice import look_alike, scaled
from tests.worlds.packs.rows import PRACTICE, draw
from tests.worlds.packs.tests_of import Job, Shop, curve
from tests.worlds.packs.units import Unit


class TestLookAlikes:
    @pytest.mark.parametrize("share", [0.03, 0.10, 0.20])
    def test_lie_so_far_off_and_never_less_than_half(self, share: float):
        found = []
        for seed in range(12):
            rng = np.random.default_rng(seed)
            pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 4))
            found.append(valving.difference(pack, look_alike(rng, pack, share)))
        assert_allclose(np.median(found), share, rtol=0.02)
        assert min(found) >= 0.49 * share

    def test_are_not_a_known_pack_times_a_factor(self):
        bent = []
        for seed in range(12):
            rng = np.random.default_rng(seed)
            pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
            other = look_alike(rng, pack, 0.10)
            v = np.concatenate([-valving.SPEEDS, valving.SPEEDS])
            ratio = other.opened({"c": 0.5, "r": 0.5})(v) / pack.opened({"c": 0.5, "r": 0.5})(v)
            bent.append(np.std(ratio))
        assert np.median(bent) > 0.03


def test_a_rig_scales_force_friction_and_their_errors_alike():
    rng = np.random.default_rng(0)
    pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
    run = curve(Job(pack, Unit("RL-02", friction_n=20.0), {"c": 3, "r": 4}), Shop(), rng)
    other = scaled(run, 1.02)
    assert_allclose(other.force, 1.02 * run.force)
    assert_allclose(np.sqrt(np.diag(other.covariance)), 1.02 * np.sqrt(np.diag(run.covariance)))
    assert other.friction_n == pytest.approx(1.02 * run.friction_n)


@pytest.mark.parametrize(
    "row", [pytest.param(row.name, marks=[pytest.mark.thorough] if n else []) for n, row in enumerate(PRACTICE)]
)
def test_every_row_is_drawn_alike_twice_and_asks_something(row: str):
    one, two = draw(row, 3), draw(row, 3)
    assert one.asked or one.unknowns or one.histories
    assert_allclose(one.library.runs[-1].force, two.library.runs[-1].force)


def test_half_of_the_runs_are_counted_from_the_other_end():
    world = draw("map two ways 8", 1)
    most = {one.name: one.clicks for one in world.packs[0].adjusters}
    v, runs, told = world.speeds(), world.library.runs, []
    for number, run in enumerate(runs):
        turned = {name: most[name] - at for name, at in run.clicks.items()}
        written, other = (world.force(clicks, v, world.shock) for clicks in (run.clicks, turned))
        if np.max(np.abs(other / written - 1.0)) > 0.1:
            read = np.interp(v, run.velocity, run.force)
            nearer = np.mean(np.abs(read / other - 1.0)) < np.mean(np.abs(read / written - 1.0))
            told.append(nearer == (number >= len(runs) // 2))
    assert len(told) >= 5
    assert all(told)


def test_wear_is_called_a_change_and_new_oil_is_not():
    worn, oiled = draw("health months wear", 0), draw("health months oil", 0)
    assert {one.changed for one in worn.histories} == {frozenset({"compression", "rebound"})}
    assert {one.changed for one in oiled.histories} == {frozenset()}
    unit = worn.units[worn.shock]
    assert 0.88 >= float(unit.factor(0.1, 1.5)) / float(unit.factor(0.1, 0.0)) >= 0.79
