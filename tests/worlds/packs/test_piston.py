"""Packs made from seats, needles and shims are what they are said to be; and maps of nine tests hold them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from tests.worlds.packs import piston
from tests.worlds.packs.piston_score import V, library_points
from tests.worlds.packs.with_dynoan import program


class TestPiston:
    def test_a_bleed_alone_is_the_orifice_equation(self):
        pack = piston.closed(piston.draw_packs(np.random.default_rng(0))[0])
        way = replace(pack.compression, clearance=1e-9)
        speeds = np.array([0.05, 0.1, 0.2])
        flow = way.area * speeds
        pressure = 0.5 * piston.DENSITY * (flow / (piston.DISCHARGE * way.bleed(7))) ** 2
        assert_allclose(way.force(speeds, 7, 5), way.area * pressure, rtol=2e-3)

    def test_a_needle_opens_no_wider_than_its_seat(self):
        way = piston.draw_packs(np.random.default_rng(1))[0].compression
        areas = np.array([way.bleed(n) for n in range(400)])
        assert np.all(np.diff(areas[:20]) > 0.0)
        assert areas.max() <= np.pi / 4 * way.seat**2 * (1 + 1e-12)

    def test_shims_open_at_the_pressure_that_lifts_the_spring(self):
        way = piston.draw_packs(np.random.default_rng(2))[1].rebound
        opens = way.spring / way.face
        assert way.shims(0.999 * opens, 0) == 0.0
        assert way.shims(1.01 * opens, 0) > 0.0
        assert way.shims(1e9, 0) <= piston.orifice(way.holes, 1e9)

    @pytest.mark.parametrize("seed", range(3))
    def test_forces_are_a_shocks_and_fall_with_every_click(self, seed: int):
        for pack in piston.draw_packs(np.random.default_rng(seed)):
            middle = dict.fromkeys(piston.NAMES, 10)
            for name in piston.NAMES:
                forces = np.array([np.abs(pack.force({**middle, name: n}, V)) for n in (0, 10, 20)])
                assert np.all(np.diff(forces, axis=0) <= 1e-9 * forces[1:])
            assert 60.0 < float(pack.force(middle, [0.1])[0]) < 2500.0


@pytest.mark.parametrize("seeds", [(0,), pytest.param(range(1, 9), marks=pytest.mark.thorough)])
def test_bands_hold_at_clicks_never_tested(seeds):
    error, held = np.concatenate([library_points(program, seed) for seed in seeds], axis=1)
    assert np.mean(held) >= 0.90
    assert np.median(error) < 0.015
