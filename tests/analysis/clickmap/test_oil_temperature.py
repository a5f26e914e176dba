"""Damping in oil that is warmer than the tests': the band holds shocks as they thin."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from dynoan.analysis.clickmap.every_click.oil_temperature import in_oil, thinning_of
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.loss_per_kelvin import thinning, thinning_sd
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.model.clickmap import ClickMap
from dynoan.model.shock import Adjuster
from tests.made import SPEEDS, made_curve
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
    assert_allclose(back(V), cool(V), rtol=1e-3)
    assert np.all(np.subtract(*back.band(V)[::-1]) >= np.subtract(*cool.band(V)[::-1]) - 1e-9)


def test_friction_does_not_thin_and_damping_loses_what_is_stated():
    rng = np.random.default_rng(2)
    pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
    unit = replace(draw_unit(rng, "RL-02", Spread()), friction_n=25.0)
    cool = curve_of(curve(Job(pack, unit, {"c": 5, "r": 5}), Shop(), rng))
    warm = in_oil(cool, 65.0)
    assert_allclose(warm(V) / cool(V), np.exp(-40.0 * thinning(np.abs(V))), rtol=1e-3)
    # 1 to 2.5 % per 10 K, and more where leaks rule: common practice, no source
    assert 0.90 <= float(warm(0.25) / cool(0.25)) <= 0.96
    assert float(warm(0.03) / cool(0.03)) < float(warm(0.25) / cool(0.25)) - 0.03
    assert_allclose(warm.total(V) - warm(V), cool.total(V) - cool(V), atol=1e-6)


def test_of_oil_nobody_told_the_band_says_so():
    rng = np.random.default_rng(3)
    pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2))
    told = curve_of(curve(Job(pack, draw_unit(rng, "RL-02", Spread()), {"c": 5, "r": 5}), Shop(), rng))
    untold = in_oil(replace(told, temperature=None), 25.0)
    assert np.median(np.subtract(*untold.band(V)[::-1]) / np.subtract(*told.band(V)[::-1])) > 1.3


def made_warm(rate: float, temperatures: tuple[float, float], count: int = 6) -> ClickMap:
    """A map of some tests at two temperatures of a pack that loses `rate` [1/K] alike at all speeds and clicks."""
    tests = []
    for i, n in enumerate((0, 2, 4, 6, 8, 5)[:count]):
        cool, celsius = made_curve(lsc=n, lsr=n), temperatures[i % 2]
        factor = float(np.exp(-rate * (celsius - 25.0)))
        sides = {d: replace(cool.side(d), forces=factor * cool.side(d).force(SPEEDS), low=factor * cool.side(d).low,
                            high=factor * cool.side(d).high) for d in ("compression", "rebound")}  # fmt: skip
        curve = replace(cool, **sides, temperature=celsius, friction_sd=1.0)
        tests.append(Tested("RL-03", {"lsc": n, "hsc": 6, "lsr": n, "hsr": 6}, curve, "2026-03-01"))
    return fit_map("gravel", tuple(Adjuster(name, 10) for name in ("lsc", "hsc", "lsr", "hsr")), tests)


def test_tests_at_two_temperatures_tell_what_the_pack_itself_loses():
    at = np.array([0.25])
    told = thinning_of(made_warm(0.0002, (22.0, 62.0)))["compression"]
    assert abs(float(np.interp(0.25, told.speeds, told.rate)) - 0.0002) < 0.0007
    assert float(np.interp(0.25, told.speeds, told.sd)) < 0.9 * float(thinning_sd(at)[0])


def test_tests_at_one_temperature_tell_nothing_of_it():
    told = thinning_of(made_warm(0.0, (25.0, 25.0), 1))["rebound"]
    assert_allclose(told.rate, thinning(told.speeds))
    assert_allclose(told.sd, thinning_sd(told.speeds))


def test_tests_are_brought_to_the_middle_of_their_temperatures_so_that_none_has_far_to_go():
    """From the coolest one, what a leak loses more than is taken for granted would be missing at every click."""
    assert made_warm(0.012, (39.0, 45.0)).reference_c == 42.0
    assert made_warm(0.012, (39.0, 45.0), 3).reference_c == 39.0
    assert made_warm(0.012, (45.0, 39.0), 3).reference_c == 45.0
