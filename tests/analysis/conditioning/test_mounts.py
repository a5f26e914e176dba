"""Mounts that give: friction and gas bend them as damping does, unlike the oil, which only damping squeezes."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest

from dynoan.analysis.conditioning.channels.blocks import cut
from dynoan.analysis.conditioning.channels.mounts import behind
from dynoan.analysis.conditioning.channels.record import prepare
from dynoan.analysis.conditioning.channels.velocity import find_motion
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.fitting.fit import fit
from tests.analysis.conditioning.test_resting import recorded

FINE, EVERY = 1e-4, 5  # steps of the simulation [s], and how many of them make a sample
SPRING, FRICTION, TURN, GAS = 1.0e6, 35.0, 0.002, 150.0


@cache
def behind_a_bush() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Travel of the machine, force and speed of the shock, four speeds of three turns; the spring carries all force.

    A digressive valve, 900 N at 0.3 m/s.
    """
    tops = (0.04, 0.08, 0.16, 0.3)
    x = np.concatenate([-0.02 * np.cos(top / 0.02 * np.arange(0, 3 * 2 * np.pi * 0.02 / top, FINE)) for top in tops])
    force, speed = np.empty(len(x)), np.empty(len(x))
    at, v = x[0] - GAS / SPRING, 0.0
    for i, now in enumerate(x):
        load = SPRING * (now - at) - GAS
        for _ in range(2):  # of a load that the shock's speed answers
            turned = math.tanh(v / TURN)
            resists = 6000.0 * v / (1 + abs(v) / 0.3) + FRICTION * turned + SPRING * FINE * v - load
            v -= resists / (6000.0 / (1 + abs(v) / 0.3) ** 2 + FRICTION / TURN * (1 - turned**2) + SPRING * FINE)
        at += v * FINE
        force[i], speed[i] = SPRING * (now - at), v
    return x[::EVERY], force[::EVERY], speed[::EVERY]


def test_friction_behind_a_bush_is_told_and_so_is_the_bush():
    x, force, _ = behind_a_bush()
    found = condition(recorded(x, force, noise=0.5, rate=1 / (FINE * EVERY)))
    said = next(line for line in found.findings if "the mounts (bushes, joints), or a hose, give" in line)
    least, most = (1e3 * float(said.split(part)[1].split()[0]) for part in ("spring of ", " to "))
    assert least < SPRING < most
    assert found.friction == pytest.approx(FRICTION, abs=2.2 * found.friction_sd)


def test_the_shock_moves_by_less_than_the_machine():
    x, force, speed = behind_a_bush()
    record = prepare(recorded(x, force, noise=0.0, rate=1 / (FINE * EVERY)))
    motion = find_motion(record, cut(x))
    off = [np.std(behind(record, motion, give).velocity - speed) for give in (0.0, 1.0 / SPRING)]
    assert off[1] < 0.4 * off[0]
    assert behind(record, motion, 0.0) is motion


def test_that_nothing_rubs_behind_a_bush_is_no_certainty():
    """At fewer samples friction passes for the valve's there; the band of friction and of damping reaches over both."""
    x, force, _ = behind_a_bush()
    found = fit(recorded(x[::2], force[::2], noise=0.5, rate=1 / (2 * FINE * EVERY)))
    assert found.friction + 2.0 * found.friction_sd > FRICTION
    v = np.array([0.02, 0.1, 0.25, -0.02, -0.1, -0.25])
    low, high = found.total_band(v)
    truth = 6000.0 * v / (1 + np.abs(v) / 0.3) + FRICTION * np.sign(v)
    assert np.all((low < truth) & (truth < high))
