"""Damping in oil that is warmer than the tests': the band holds shocks as they thin."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from dynoan.analysis.clickmap.warmth import in_oil
from tests.worlds.packs import packs as valving
from tests.worlds.packs.adjusters import draw_adjusters
from tests.worlds.packs.tests_of import Job, Shop, curve
from tests.worlds.packs.units import Spread, draw_unit
from tests.worlds.packs.with_dynoan import curve_of

V = np.concatenate([-valving.SPEEDS[::-1], valving.SPEEDS])


@pytest.mark.parametrize("celsius", [5.0, 60.0, 80.0])
def test_the_band_holds_shocks_that_thin_each_in_its_own_way(celsius: float):
    held, wider = [], []
    for seed in range(60):
        rng = np.random.default_rng(seed)
        pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
        unit, clicks = draw_unit(rng, "RL-02", Spread()), {"c": 5, "r": 5}
        cool = curve_of(curve(Job(pack, unit, clicks), Shop(repeat=0.0), rng))
        warm = in_oil(cool, celsius)
        low, high = warm.band(V)
        true = unit.factor(V, 0.0, celsius) * pack.force(clicks, V)
        held.append(np.mean((low <= true) & (true <= high)))
        wider.append(np.median((high - low) / np.subtract(*cool.band(V)[::-1])))
    assert 0.90 <= np.mean(held) <= 1.0
    assert np.median(wider) > 1.2


def test_at_its_own_temperature_nothing_changes_and_there_and_back_is_wider():
    rng = np.random.default_rng(1)
    pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
    unit = draw_unit(rng, "RL-02", Spread())
    cool = curve_of(curve(Job(pack, unit, {"c": 5, "r": 5}), Shop(), rng))
    same, back = in_oil(cool, 25.0), in_oil(in_oil(cool, 70.0), 25.0)
    assert_allclose(same(V), cool(V))
    assert_allclose(same.band(V), cool.band(V))
    assert_allclose(back(V), cool(V))
    assert np.all(np.subtract(*back.band(V)[::-1]) >= np.subtract(*cool.band(V)[::-1]) - 1e-9)


def test_friction_does_not_thin_and_damping_loses_what_is_stated():
    rng = np.random.default_rng(2)
    pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
    unit = replace(draw_unit(rng, "RL-02", Spread()), friction_n=25.0)
    cool = curve_of(curve(Job(pack, unit, {"c": 5, "r": 5}), Shop(), rng))
    warm = in_oil(cool, 65.0)
    assert_allclose(warm(V) / cool(V), np.exp(-0.0017 * 40.0))
    # 1 to 2.5 % per 10 K: common practice, no source
    assert 0.90 <= float(warm(0.1) / cool(0.1)) <= 0.96
    assert_allclose(warm.total(V) - warm(V), cool.total(V) - cool(V), atol=1e-6)


def test_of_oil_nobody_told_the_band_says_so():
    rng = np.random.default_rng(3)
    pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
    told = curve_of(curve(Job(pack, draw_unit(rng, "RL-02", Spread()), {"c": 5, "r": 5}), Shop(), rng))
    untold = in_oil(replace(told, temperature=None), 25.0)
    assert np.median(np.subtract(*untold.band(V)[::-1]) / np.subtract(*told.band(V)[::-1])) > 1.3
