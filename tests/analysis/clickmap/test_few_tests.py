"""Five tests of a pack with four adjusters: what a shop runs. Bands hold the truth and are of use."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import pytest

from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.statistics import Z95
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.shock import Adjuster
from dynoan.model.side import Side
from fixtures.rig import PACKS, MadeShock

NAMES = ("lsc", "hsc", "lsr", "hsr")
ADJUSTERS = tuple(Adjuster(name, 20) for name in NAMES)
#: the middle, low-speed screws both ways, high-speed screws both ways
FIVE = ((10, 10, 10, 10), (2, 10, 10, 2), (18, 10, 10, 18), (10, 2, 2, 10), (10, 18, 18, 10))
GRID = np.concatenate([[0.0], np.geomspace(0.006, 0.55, 60)])
SPLIT_N, NOISE = 2.0, 0.006
SPEEDS = np.geomspace(0.03, 0.5, 8)


def _side(made: MadeShock, clicks: dict[str, int], sign: float, rng: np.random.Generator, split: float) -> Side:
    wave = np.interp(np.log(GRID[1:]), np.log([0.006, 0.03, 0.12, 0.55]), NOISE * rng.standard_normal(4))
    true = np.abs(made.damping(sign * GRID[1:], clicks))
    force = np.concatenate([[0.0], np.maximum(true * (1.0 + wave) + split, 0.5)])
    half = Z95 * np.hypot(SPLIT_N, NOISE * force)
    return Side((), (), GRID, np.maximum(force - half, 0.0), force + half, top_speed=0.55, low_speed=0.006,
                forces=force)  # fmt: skip


@lru_cache
def _map(pack: str) -> ClickMap:
    rng, tests = np.random.default_rng(5), []
    for row in FIVE:
        clicks = dict(zip(NAMES, row, strict=True))
        split = SPLIT_N * rng.standard_normal()
        sides = [_side(PACKS[pack], clicks, sign, rng, split) for sign in (1.0, -1.0)]
        curve = Curve(*sides, friction=18.0 - split, friction_sd=SPLIT_N)
        tests.append(Tested("FL-01", clicks, curve))
    return fit_map(pack, ADJUSTERS, tests)


#: two packs of three are asked on demand: each wants a map of its own
ONE_OFTEN = [pytest.param(pack, marks=() if pack == "mixed" else pytest.mark.thorough) for pack in PACKS]


@pytest.mark.parametrize("pack", ONE_OFTEN)
def test_bands_hold_and_are_of_use(pack):
    """Friction taken for damping differs from test to test by a few newtons: no doubt of the valve."""
    made, rng, held, wide, error = _map(pack), np.random.default_rng(8), [], [], []
    for _ in range(40):
        clicks = {name: int(rng.integers(2, 19)) for name in NAMES}
        curve = curve_at(made, clicks, pieces=False)
        for sign in (1.0, -1.0):
            true, (low, high) = PACKS[pack].damping(sign * SPEEDS, clicks), curve.band(sign * SPEEDS)
            held.append((low <= true) & (true <= high))
            wide.append((high - low)[3:] / 2 / np.abs(true[3:]))
            error.append(np.abs(curve(sign * SPEEDS) / true - 1.0)[3:])
    assert np.mean(held) >= 0.90
    assert np.median(error) < 0.015
    assert np.median(wide) < 0.08


@pytest.mark.parametrize("pack", ONE_OFTEN)
def test_at_a_tested_setting_a_map_is_about_as_sure_as_its_test(pack):
    curve = curve_at(_map(pack), dict.fromkeys(NAMES, 10), pieces=False)
    for velocity in (0.05, 0.1, 0.3, -0.05, -0.1, -0.3):
        low, high = curve.band(velocity)
        force = abs(float(curve(velocity)))
        assert float(high - low) / 2 < 0.04 * force + 1.5 * Z95 * SPLIT_N
