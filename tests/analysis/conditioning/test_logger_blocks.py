"""A rig that records each speed as a block: few cycles from any place of the stroke, at a rate of its own, with pauses.

The shock and the rig are made from the physics alone: a bleed that follows a square law and a spring-loaded valve side
by side, friction that turns around over a millimetre a second, a gas spring, and a crank at 12.7 to 508 mm/s.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from dynoan.analysis.fitting.fit import fit
from dynoan.model.arrays import FloatArray
from dynoan.model.record_motion import peaks, velocity
from dynoan.reading import read_bytes

RADIUS = 0.0254  #: of the crank [m]
SPEEDS = (0.0127, 0.0254, 0.0508, 0.127, 0.254, 0.508)  #: peak of each block [m/s]
FRICTION, GAS, GAS_RATE = 15.0, 125.0, 400.0  #: [N], [N], [N/m]
PROBED = np.array([-0.45, -0.2, -0.1, -0.05, -0.025, 0.025, 0.05, 0.1, 0.2, 0.45])


@dataclass(frozen=True)
class Logger:
    """How blocks are recorded."""

    name: str
    cycles: float
    pause: float  #: [s]
    start: float  #: angle of the crank that a block begins at; at zero it passes the middle, rising [rad]
    rate: float | None = None  #: None for so many samples a cycle at each speed [Hz]
    a_cycle: int = 0


LOGGERS = (
    Logger("one cycle of 360 samples each", 1.0, 1.0, np.pi / 2, a_cycle=360),
    Logger("one cycle each, no pause", 1.0, 0.0, np.pi / 2, a_cycle=500),
    Logger("two of 200 from the bottom", 2.0, 0.0, -np.pi / 2, a_cycle=200),
    Logger("three and a bit of 100 from anywhere", 3.3, 2.0, 1.0, a_cycle=100),
    Logger("two at one rate, pauses", 2.0, 0.5, 0.0, rate=500.0),
    Logger("two and a quarter at one rate, pauses", 2.25, 0.5, 0.0, rate=500.0),
)


def damping(v: FloatArray) -> FloatArray:
    """Return the force of the bleed and the valve beside it. [N]"""
    shut = np.where(v > 0, 150.0, 260.0)
    bleed = 2.4e5 * np.where(v > 0, 1.0, 1.5) * v**2
    valve = shut + 2800.0 * np.abs(v)
    return np.sign(v) * bleed * valve / np.cbrt(bleed**3 + valve**3 + 1e-9)


def recorded(logger: Logger) -> bytes:
    """Return the file of a rig that logs so, in millimetres and newtons."""
    noise = np.random.default_rng(2)
    at, rows = 0.0, []
    for speed in SPEEDS:
        turning = speed / RADIUS
        step = 1 / logger.rate if logger.rate else 2 * np.pi / turning / logger.a_cycle
        t = np.arange(0.0, logger.cycles * 2 * np.pi / turning, step)
        x, v = RADIUS * np.sin(turning * t + logger.start), speed * np.cos(turning * t + logger.start)
        force = damping(v) + GAS + GAS_RATE * x + FRICTION * np.tanh(v / 0.001) + noise.normal(0, 1.5, len(t))
        rows += [f"{at + a:.4f},{1e3 * b:.3f},{c:.1f}" for a, b, c in zip(t, x, force, strict=True)]
        at += float(t[-1]) + step + logger.pause
    return "\n".join(["Time [s],Disp [mm],Force [N]", *rows, ""]).encode()


OFTEN = LOGGERS[3:6:2]  #: of those with pauses and of those without; the others on demand
TRIED = [pytest.param(one, id=one.name, marks=() if one in OFTEN else pytest.mark.thorough) for one in LOGGERS]


@pytest.fixture(scope="module", params=TRIED)
def logged(request):
    """Return a logger and the sweep that is read of its file."""
    (sweep,) = read_bytes(recorded(request.param), "blocks.csv")
    return request.param, sweep


def test_every_block_is_used_and_the_bands_hold_the_truth(logged):
    logger, sweep = logged
    curve = fit(sweep)
    assert any(f"cycles in {len(SPEEDS)} blocks of constant speed" in said for said in curve.findings)
    low, high = curve.band(PROBED)
    inside = (low <= damping(PROBED)) & (damping(PROBED) <= high)
    assert inside.mean() >= 0.9, logger.name
    assert np.median(high - low) < 0.04 * np.ptp(damping(PROBED))
    assert curve.friction == pytest.approx(FRICTION, abs=6.0)


def test_speeds_are_those_of_the_crank(logged):
    _, sweep = logged
    assert peaks(sweep)["compression"].velocity == pytest.approx(SPEEDS[-1], rel=0.03)
    first = velocity(sweep)[: sweep.samples // 20]
    assert np.nanmax(np.abs(first)) == pytest.approx(SPEEDS[0], rel=0.1)


def test_nothing_is_said_of_motions_that_are_not_there(logged):
    logger, sweep = logged
    said = " ".join(sweep.warnings)
    assert not any(word in said for word in ("random", "swept", "uneven"))
    assert ("the logger paused" in said) == (logger.pause > 0)
