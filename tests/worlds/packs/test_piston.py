"""Packs made from flow through restrictions are what they are said to be; and maps of nine tests hold them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from tests.worlds.packs import foot_valve, piston
from tests.worlds.packs.piston_score import LIBRARIES, V, library_points
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

    @pytest.mark.thorough
    @pytest.mark.parametrize("seed", range(3))
    def test_forces_are_a_shocks_and_fall_with_every_click(self, seed: int):
        for pack in piston.draw_packs(np.random.default_rng(seed)):
            middle = dict.fromkeys(piston.NAMES, 10)
            for name in piston.NAMES:
                forces = np.array([np.abs(pack.force({**middle, name: n}, V)) for n in (0, 10, 20)])
                assert np.all(np.diff(forces, axis=0) <= 1e-9 * forces[1:])
            assert 60.0 < float(pack.force(middle, [0.1])[0]) < 2500.0


class TestFootValve:
    def test_a_sharp_edge_takes_pressure_with_the_square_of_flow_and_a_narrow_one_in_proportion(self):
        wide, narrow = (foot_valve.edge(area, np.array([1e5, 2e5])) for area in (1e-4, 1e-10))
        assert_allclose(wide[1] / wide[0], np.sqrt(2.0), rtol=5e-3)
        assert_allclose(narrow[1] / narrow[0], 2.0, rtol=0.05)

    def test_a_plate_stiffens_where_it_meets_the_next(self):
        valve = foot_valve.draw_packs(np.random.default_rng(0))[0].foot
        at = valve.held + valve.meets / valve.bend
        lifts = valve.plate(np.array([valve.held, at, at + valve.meets / valve.bend]))
        assert_allclose(lifts, [0.0, valve.meets, valve.meets * (1.0 + 1.0 / valve.stiffer)], rtol=1e-9, atol=1e-15)

    def test_pressure_drives_the_flow_that_it_is_read_from(self):
        valve = foot_valve.draw_packs(np.random.default_rng(1))[1].piston
        flows = valve.flow(0.3, 0.6)[50:300:50]
        assert_allclose(valve.pressure(flows, 0.3, 0.6), foot_valve.PRESSURES[50:300:50], rtol=1e-9)

    @pytest.mark.parametrize("seed", range(3))
    def test_forces_are_a_shocks_and_fall_with_every_click(self, seed: int):
        for pack in foot_valve.draw_packs(np.random.default_rng(seed)):
            middle = {name: last // 2 for name, last in foot_valve.LAST.items()}
            for name, last in foot_valve.LAST.items():
                forces = np.array([np.abs(pack.force({**middle, name: n}, V)) for n in (0, last // 2, last)])
                assert np.all(np.diff(forces, axis=0) <= 1e-9 * forces[1:])
            assert 60.0 < float(pack.force(middle, [0.1])[0]) < 2500.0


@pytest.mark.parametrize(
    ("kind", "seeds", "packs"),
    [("foot valve", (0,), 1), *(pytest.param(kind, range(9), 3, marks=pytest.mark.thorough) for kind in LIBRARIES)],
)
def test_bands_hold_at_clicks_never_tested(kind: str, seeds, packs):
    error, held = np.concatenate([library_points(program, seed, kind, packs) for seed in seeds], axis=1)
    assert np.mean(held) >= 0.90
    assert np.median(error) < 0.015
