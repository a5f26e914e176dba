"""The valve's law against closed forms, its derivatives, left-out errors against leaving out, and the two views."""

from __future__ import annotations

import re

import numpy as np
import pytest

from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.data import axes_of, gather
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.clickmap.trends.discrepancy import leave_one_out
from dynoan.analysis.clickmap.trends.interpolated import additive, left_out_errors
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.hydraulic import fit_hydraulic
from dynoan.analysis.clickmap.valve.law import INDEX, PARAMETERS, Roles, log_force, look_up, opened, valve_force, ways
from dynoan.analysis.clickmap.valve.slopes import log_force_slopes
from tests.analysis.made_packs import FOUR, TWO, low_only, low_places, made_pack, measured, sweeps_of
from tests.checks import check
from tests.oracles import hydraulics

SPEEDS = np.geomspace(0.02, 0.6, 12)
THETA = np.array([np.log(0.07), np.log(0.15), 0.6, np.log(380), np.log(0.7), 0.3, np.log(0.5), 1.05, 0.3, 0.1,
                  np.log(1.8), np.log(0.004), np.log(0.12), 0.52, 0.4, 0.15, 8.0])  # fmt: skip
ROLES = Roles(bleed=0, opening=1, crossing=2)
TURNED = np.random.default_rng(1).random((6, 3))


def _only_bleed(speed_at_1000: float) -> np.ndarray:
    theta = THETA.copy()
    theta[INDEX["bleed"]] = np.log(speed_at_1000)
    theta[INDEX["opening"]], theta[INDEX["port"]] = np.log(1e7), np.log(1e6)
    theta[INDEX["leak"]], theta[INDEX["bleed_power"]] = np.log(1e-12), 0.5
    theta[INDEX["blow"]], theta[INDEX["rest"]] = np.log(1e-12), 0.0
    return theta


def test_a_bleed_alone_is_the_orifice_law():
    """The published bleed force (its source stands in the check values), from the click map's own group."""
    c = check("h04")
    i = c.inputs
    unit = float(np.sqrt(1000 * 2 * (i["Cd"] * i["bleed_m2"]) ** 2 / (i["density_kg_m3"] * i["piston_m2"] ** 3)))
    force = np.exp(log_force(_only_bleed(unit), np.zeros((1, 0)), Roles(None, None), np.array([i["velocity_m_s"]])))
    np.testing.assert_allclose(force[0, 0], c.expected, rtol=2e-6, err_msg=c.source)
    area = hydraulics.bleed_area(unit_speed=unit, piston=i["piston_m2"], discharge=i["Cd"], density=i["density_kg_m3"])
    np.testing.assert_allclose(area, i["bleed_m2"])


def test_a_leak_alone_is_proportional_and_a_port_alone_is_a_square():
    alone = np.zeros((1, 0)), Roles(None, None), SPEEDS
    leak = _only_bleed(1e-9)
    leak[INDEX["leak"]] = np.log(0.2)
    np.testing.assert_allclose(np.exp(log_force(leak, *alone))[0], SPEEDS / 0.2 * 1000, rtol=1e-4)
    port = _only_bleed(1e3)
    port[INDEX["port"]] = np.log(1.5)
    np.testing.assert_allclose(np.exp(log_force(port, *alone))[0], 1000 * (SPEEDS / 1.5) ** 2, rtol=1e-4, atol=0.02)


def test_speed_and_force_undo_each_other():
    at = ways(THETA, TURNED, ROLES)
    np.testing.assert_allclose(at.speed(valve_force(at, SPEEDS)), np.tile(SPEEDS, (6, 1)), rtol=1e-7)
    np.testing.assert_allclose(look_up(at, SPEEDS), valve_force(at, SPEEDS), rtol=1e-3)


def test_derivatives_against_differences():
    _, slopes = log_force_slopes(THETA, TURNED, ROLES, SPEEDS)
    for j, name in enumerate(PARAMETERS):
        up, down = THETA.copy(), THETA.copy()
        up[j] += 1e-4
        down[j] -= 1e-4
        differences = (log_force(up, TURNED, ROLES, SPEEDS) - log_force(down, TURNED, ROLES, SPEEDS)) / 2e-4
        np.testing.assert_allclose(slopes[:, :, j], differences, rtol=2e-3, atol=2e-4, err_msg=name)


@pytest.mark.parametrize("shape", [-2.0, 0.0, 1e-9, 3.0])
def test_openings_run_from_closed_to_open_without_turning_back(shape):
    x = np.linspace(0, 1, 51)
    share = opened(x, shape)
    assert share[0] == 0
    assert share[-1] == pytest.approx(1)
    assert np.all(np.diff(share) > 0)


def test_left_out_errors_are_those_of_leaving_out():
    """The short cut over blocks of the inverse gives what fitting without each test gives."""
    data = gather("compression", axes_of("compression", FOUR), sweeps_of(made_pack(2), 2))
    short = left_out_errors(data)
    for t in (0, 4):
        rest = data.without(t)
        fitted = FittedDirection(rest, additive(rest), MapSpread(discrepancy=0.05), np.zeros(rest.logs.size))
        long = data.logs[t] - fitted.logs(data.clicks[t : t + 1], data.speeds)[0]
        # What all tests share is one more correlation, which the short cut has and a fit without the test cannot use.
        np.testing.assert_allclose(short[t], long, atol=0.03)


@pytest.mark.parametrize("seeds", [2, pytest.param(6, marks=pytest.mark.thorough)])
def test_left_out_bands_hold(seeds):
    held = []
    for seed in range(seeds):
        data = gather("rebound", axes_of("rebound", FOUR), sweeps_of(made_pack(seed), seed))
        fitted = fit_hydraulic(data)
        error, sd = leave_one_out(fitted.total, fitted.residual, fitted.data.tests)
        held += list((np.abs(error) <= 1.96 * sd).ravel())
    assert np.mean(held) > 0.9


@pytest.mark.thorough
def test_either_view_can_be_insisted_on_and_the_better_is_chosen():
    places = low_places((10, 10), (0, 20), (20, 0), (5, 15), (15, 5))
    tests = low_only(sweeps_of(made_pack(3), 3, places))
    views = {view: fit_map("p", TWO, tests, view=view) for view in ("hydraulic", "interpolated")}
    assert all(made.view == view for view, made in views.items())
    best = min(views.values(), key=lambda made: made.loo_error_pct)
    assert fit_map("p", TWO, tests).view == best.view == "hydraulic"


def test_an_odd_shock_is_left_out_of_the_mean_and_named():
    pack = made_pack(4)
    places = low_places((10, 10), (0, 20), (20, 0), (20, 20), (0, 0), (5, 14), (14, 5), (3, 10))
    tests = low_only(sweeps_of(pack, 4, places, shocks=4))
    plain = fit_map("p", TWO, tests)
    worn = [
        Tested(t.shock, t.from_closed, measured(pack, place, 70 + i, scale=(1.0, 0.85), shock=t.shock))
        if t.shock == "S3" else t
        for i, (place, t) in enumerate(zip(places, tests, strict=True))
    ]  # fmt: skip
    made = fit_map("p", TWO, worn)
    (said,) = [note for note in made.notes if note.startswith("S3 is ")]
    told = re.match(r"S3 is about (\d+) % weaker in rebound at all speeds", said)
    assert told is not None
    assert abs(int(told[1]) - 15) <= 3
    at = {"lsc": 10, "lsr": 10}
    np.testing.assert_allclose(made.force(at, -SPEEDS)[0], plain.force(at, -SPEEDS)[0], rtol=0.03)
