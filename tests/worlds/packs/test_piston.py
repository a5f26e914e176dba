"""Packs made from seats, needles and shims are what they are said to be; and maps of nine tests hold them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from tests.worlds.packs import piston
from tests.worlds.packs.with_dynoan import program

SPEEDS = np.geomspace(0.02, 0.48, 8)
V = np.concatenate([-SPEEDS[::-1], SPEEDS])


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


def _points(seed: int) -> np.ndarray:
    """Error over force and whether the band holds, of three packs at 25 clicks never tested, (2, points)."""
    packs, library, rng = piston.library(seed)
    rows = []
    for pack in packs:
        said = program.map(library, pack.name)  # type: ignore[misc]
        seen = [run.clicks for run in library.of(pack.name)]
        for _ in range(25):
            clicks = {name: int(rng.integers(0, piston.LAST + 1)) for name in piston.NAMES}
            if clicks in seen:
                continue
            true, band = pack.force(clicks, V), said.band(clicks, V, "RL-02", 0.0)
            rows.append([np.abs(band.value / true - 1.0), (band.low <= true) & (true <= band.high)])
    return np.concatenate([np.array(row, float) for row in rows], axis=1)


@pytest.mark.parametrize("seeds", [(0,), pytest.param(range(1, 9), marks=pytest.mark.thorough)])
def test_bands_hold_at_clicks_never_tested(seeds):
    error, held = np.concatenate([_points(seed) for seed in seeds], axis=1)
    assert np.mean(held) >= 0.90
    assert np.median(error) < 0.015
