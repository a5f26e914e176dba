"""The bands of a launch hold what cars drawn from the ± of the file really do, figure by figure.

The cars and what they do come from `unsure`, which knows nothing of bands. The curves are known exactly, so that the
car's own values are all that is open, or as unsure as a map of a few tests, so that both are.
"""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.launch.compare import car_damping
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large.model import large_car
from dynoan.jobs.launch.drive import DriveAsked, RunAsked
from dynoan.jobs.launch.measure_first import unsure_run
from dynoan.jobs.launch.settings import LaunchCase
from dynoan.library.car_file import car_from_data
from dynoan.model.curve import Curve
from dynoan.model.side import Side
from tests.worlds.cars.unsure import CURVES, PLUS_MINUS, RISE, Stated, drawn, figures

DURATION = 1.5
#: by case: what differs from the usual car, and the torque it is driven by [N m], none: all the grip there is
CASES = {
    "all the grip": ({}, None), "front wheels lift": ({"grip": 1.85, "cg_height": 0.62}, None),
    "wheels spin": ({"grip": 0.65, "sliding": 0.55}, 1350.0),
    "wheels may spin": ({"grip": 0.65, "sliding": 0.55}, 1000.0),
}  # fmt: skip
#: the same with curves that are as unsure as the car
WITH_CURVES = {f"{name}, curves unsure": CASES[name] for name in ("all the grip", "wheels spin")}
DRAWN = 100
#: the model of the launch and bodies and rods differ by so much of a figure: no band can be narrower [1]
MODELS = 2e-3


def text(value, half, unit):
    return f"{value:.12g} ± {half:.12g} {unit}"


def file_of(stated):
    def of(key, unit, scale=1.0):
        return text(getattr(stated, key) / scale, PLUS_MINUS[key] / scale, unit)

    (lower, upper), (lower_body, upper_body) = stated.rods.axle, stated.rods.body
    axles = {
        axle: {
            "unsprung": getattr(stated, f"{axle}_unsprung"), "spring": of(f"{axle}_spring", "N/m"),
            "spring_ratio": stated.spring_ratio, "tyre": of(f"{axle}_tyre", "N/m"),
            "shock_ratio": f"{getattr(stated, f'{axle}_ratio')} ± {PLUS_MINUS[f'{axle}_ratio']}",
        } for axle in ("front", "rear")
    }  # fmt: skip
    axles = {n: v | {"unsprung": f"{v['unsprung']} kg"} for n, v in axles.items()}
    masses = {c: stated.front_mass if c[0] == "f" else stated.rear_mass for c in ("fl", "fr", "rl", "rr")}
    corners = {c: {"mass": f"{mass} kg"} for c, mass in masses.items()}
    point = lambda p: [f"{p[0]} m", f"{p[1]} m"]  # noqa: E731
    return {
        "wheelbase": f"{stated.wheelbase} m", "cg_height": of("cg_height", "m"), "driven": "rear",
        "pitch_inertia": of("pitch_inertia", "kg m2"), "wheel_radius": f"{stated.wheel_radius} m", **axles, **corners,
        "wheel_inertia": f"{stated.wheel_inertia} kg m2",
        "surfaces": {"made": {"grip": f"{stated.grip} ± {PLUS_MINUS['grip']}",
                              "sliding_grip": f"{stated.sliding} ± {PLUS_MINUS['sliding']}",
                              "load_sensitivity": f"{stated.falls} ± {PLUS_MINUS['falls']}"}},
        "links": {"lower": {"axle": point(lower), "body": [point(lower_body)]},
                  "upper": {"axle": point(upper), "body": [point(upper_body)]}},
    }  # fmt: skip


def curve_of(stated, share):
    """The curve of every shock, its band so wide."""
    speeds = np.linspace(0.0, 1.0, 21)
    force = stated.coefficient * speeds
    side = Side((), (), speeds, (1 - share) * force, (1 + share) * force, 1.0, forces=force)
    return Curve(side, side)


def banded(stated, torque, share=0.0):
    car = car_from_data(file_of(stated), "cars/made.toml", "made")
    assert len(car.plus_minus) == len(PLUS_MINUS)
    curves = dict.fromkeys(car.corners, curve_of(stated, share))
    half = half_car(car, curves)
    case = LaunchCase("made", car, half, car_damping(car, curves), large_car(car, half), curves)
    asked = RunAsked(DriveAsked(torque=torque, rise=RISE), DURATION)
    said = []
    found = unsure_run(case, asked, car.surfaces["made"], said)
    assert not said
    return found


def held(case, share=0.0, open_values=PLUS_MINUS):
    """Return how often each figure's band holds the truth, and the figures that are nothing at all."""
    other, torque = (CASES | WITH_CURVES)[case]
    stated = Stated(**other)
    found = banded(stated, torque, share)
    truths = [figures(car, torque, DURATION) for car in drawn(stated, DRAWN, plus_minus=open_values)]
    out = {}
    for key in truths[0]:
        values, room = np.array([t[key] for t in truths]), MODELS * abs(found.metrics[key])
        if np.ptp(values) > 1e-9:
            out[key] = float(np.mean((values >= found.low[key] - room) & (values <= found.high[key] + room)))
    return out


@pytest.mark.thorough
@pytest.mark.parametrize("case", CASES)
def test_bands_hold_the_true_figures(case):
    """A hundred launches of bodies and rods, half a minute."""
    shares = held(case)
    assert len(shares) > 20
    assert 0.90 <= np.mean(list(shares.values())) <= 0.98, shares
    assert min(shares.values()) >= 0.88, shares  # 95 %, less three times what 100 draws leave open


@pytest.mark.thorough
@pytest.mark.parametrize("case", WITH_CURVES)
def test_bands_of_curves_and_car_together_hold_the_true_figures(case):
    shares = held(case, CURVES["front_push"], PLUS_MINUS | CURVES)
    assert len(shares) > 20
    assert 0.90 <= np.mean(list(shares.values())) <= 0.98, shares
    assert min(shares.values()) >= 0.88, shares


@pytest.mark.parametrize("case", [
    "all the grip", "wheels spin", pytest.param("front wheels lift", marks=pytest.mark.thorough),
    pytest.param("wheels may spin", marks=pytest.mark.thorough),
])  # fmt: skip
def test_the_stated_car_is_what_bodies_and_rods_make_of_it(case):
    """Before any band: the same car in both worlds does the same, so that a band missed is the band's fault."""
    other, torque = CASES[case]
    stated = Stated(**other)
    found, true = banded(stated, torque), figures(stated, torque, DURATION)
    for key, value in true.items():
        assert found.metrics[key] == pytest.approx(value, rel=0.015, abs=1e-3), key
        assert found.low[key] <= found.metrics[key] <= found.high[key], key
