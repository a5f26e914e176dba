"""The bands of damping ratios hold what corners drawn from the ± of their file and from their curve's band really have.

Corners and their ratios come from `corners`, which knows nothing of bands.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from dynoan.analysis.choosing.aims import CornerAim
from dynoan.analysis.choosing.at_setting import ratios_at
from dynoan.analysis.corner.ratio_measures import SwingMotion
from dynoan.analysis.corner.ratios import corner_ratios, direction_ratios
from dynoan.jobs.car_spread import car_ends, ratio_spread, widened_ratios
from dynoan.library.car_file import car_from_data
from dynoan.model.clickmap import DirectionMap
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.side import Side
from tests.made import made_map
from tests.worlds.cars.corners import BODY, CORNERS, HIGH, HOP, LOW, OFF, SIGMA, drawn, ratios

DRAWN = 150
FIGURES = ("low", "high", "body", "hop", "random")


def curve_of(stated):
    speeds = np.concatenate([np.linspace(0, 0.2, 41), np.linspace(0.25, 2.5, 46)])

    def side(direction, off):
        force = np.array([stated.force(float(v), direction) for v in speeds])
        return Side((), (), speeds, (1 - off) * force, (1 + off) * force, speeds[-1], forces=force)

    return Curve(side("compression", OFF["push"]), side("rebound", OFF["pull"]))


def car_of(stated):
    units = {"mass": " kg", "unsprung": " kg", "spring": " N/m", "spring_ratio": "", "shock_ratio": "", "tyre": " N/m"}
    own = {k: f"{getattr(stated, k):.12g} ± {OFF[k] * getattr(stated, k):.12g}{unit}" for k, unit in units.items()}
    data = {"front": own, "rear": own} | {c: {} for c in ("fl", "fr", "rl", "rr")}
    return car_from_data(data, "cars/made.toml", "made")


@cache
def banded(name):
    """The ratios of a corner as the program tells them."""
    stated = CORNERS[name]
    car, curve, motion = car_of(stated), curve_of(stated), SwingMotion(BODY, HOP, SIGMA)
    found = corner_ratios(car.corners["fl"], curve, LOW, HIGH, motion)
    return widened_ratios(found, car_ends(car), lambda c: direction_ratios(c, curve, LOW, HIGH, motion))


@cache
def truths(name):
    return {d: [ratios(corner, d) for corner in drawn(CORNERS[name], DRAWN)] for d in DIRECTIONS}


@pytest.mark.parametrize("name", CORNERS)
@pytest.mark.parametrize("direction", DIRECTIONS)
def test_the_stated_corner_is_the_same_in_both_worlds(name, direction):
    true, found = ratios(CORNERS[name], direction), banded(name).side(direction)
    for key in FIGURES:
        assert getattr(found, key).value == pytest.approx(true[key], rel=5e-3), key


@pytest.mark.parametrize("name", CORNERS)
def test_bands_of_curve_and_car_together_hold(name):
    shares = {}
    for direction in DIRECTIONS:
        found = banded(name).side(direction)
        for key in FIGURES:
            band, of = getattr(found, key), np.array([t[key] for t in truths(name)[direction]])
            shares[direction, key] = float(np.mean((of >= band.low) & (of <= band.high)))
    assert 0.90 <= np.mean(list(shares.values())) <= 0.98, shares
    assert min(shares.values()) >= 0.90, shares
    assert max(shares.values()) <= 0.99, shares


@pytest.mark.parametrize("name", CORNERS)
def test_limits_of_what_is_chosen_hold(name):
    """The same corners with a pack of one screw, as `choose` tells the ratios of a setting."""
    car, curve, shares = car_of(CORNERS[name]), curve_of(CORNERS[name]), []
    aim = CornerAim(car.corners["fl"], (), spread=ratio_spread(car, "fl"))
    for direction in DIRECTIONS:
        side = getattr(curve, direction)
        table = DirectionMap(("r",), side.speeds, np.stack([side.forces, 2 * side.forces]),
                             np.stack([side.high - side.forces] * 2), side.top_speed)  # fmt: skip
        pack = replace(made_map("gravel"), compression=table, rebound=table)
        bands = ratios_at(pack, aim, {"r": 0}, direction, [LOW, HIGH])
        for key, band in zip(("low", "high"), bands, strict=True):
            of = np.array([t[key] for t in truths(name)[direction]])
            shares.append(float(np.mean((of >= band.low) & (of <= band.high))))
    assert all(0.90 <= share <= 0.98 for share in shares), shares
