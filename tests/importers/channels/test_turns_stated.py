"""A record without time of which the turns are stated: as many as it holds, by travel or the crank's angle."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.reading import read_bytes

HERTZ, HALF = 1.6, 0.025
SPEED = 2 * np.pi * HERTZ * HALF


def record(turns: float, start: float, step: float = 1.0, *, closing: bool = True):
    """Angle [°], travel [m] and force [N] of a crank."""
    angle = np.arange(start, start + 360 * turns + (step / 2 if closing else -step / 2), step)
    speed = SPEED * np.sin(np.radians(angle))
    return angle, -HALF * np.cos(np.radians(angle)), 4000 * speed + 130 - 30 * np.sign(speed)


def read(head: str, *columns: np.ndarray):
    rows = "".join(",".join(f"{x:.4f}" for x in row) + "\n" for row in zip(*columns, strict=True))
    (sweep,) = read_bytes((head + rows).encode(), "turns.csv")
    return sweep


@pytest.mark.parametrize("turns", [1, 1.5, 2, 2.25, 3])
@pytest.mark.parametrize("start", [0, 30, 90, 180])
def test_the_rate_is_that_of_the_stated_frequency(turns, start):
    _, x, force = record(turns, start)
    if (turns, start) == (
        1.5,
        90,
    ):  # from the middle to the middle the other way: no turn is whole on either side of it
        with pytest.raises(ReadError, match="no time and no sample rate"):
            read("Frequency: 1.6 Hz\nPosition (mm),Force (N)\n", 1e3 * x, force)
        return
    sweep = read("Frequency: 1.6 Hz\nPosition (mm),Force (N)\n", 1e3 * x, force)
    assert sweep.rate == pytest.approx(360 * HERTZ, rel=0.01)


@pytest.mark.parametrize("closing", [True, False])
@pytest.mark.parametrize("start", [0, 40, 90])
def test_the_first_sample_again_at_the_end_is_no_step_of_a_turn(start, closing):
    _, x, force = record(1, start, 5, closing=closing)
    sweep = read("Frequency: 1.6 Hz\nPosition (mm),Force (N)\n", 1e3 * x, force)
    assert sweep.rate == pytest.approx(72 * HERTZ, rel=1e-6)


@pytest.mark.parametrize("said", ["RPM: 96", "Speed: 96 rpm", "Frequency 1.6 Hz"])
def test_an_angle_is_time_where_the_turns_are_stated(said):
    angle, x, force = record(2.3, 20, 2)
    sweep = read(f"{said}\nAngle (deg),Position (mm),Force (N)\n", angle % 360, 1e3 * x, force)
    assert sweep.rate == pytest.approx(180 * HERTZ)
    assert any("time is from 'Angle (deg)' and the 96 turns a minute" in warning for warning in sweep.warnings)


def test_each_block_has_the_frequency_that_stands_above_it():
    texts = []
    for hertz in (0.5, 1, 2):
        angle = np.arange(0, 721, 3.0)
        speed = 2 * np.pi * hertz * HALF * np.sin(np.radians(angle))
        columns = zip(-1e3 * HALF * np.cos(np.radians(angle)), 4000 * speed + 130, strict=True)
        rows = "".join(f"{x:.3f},{f:.1f}\n" for x, f in columns)
        texts.append(f"Frequency {hertz} Hz\nDisplacement (mm),Force (N)\n{rows}")
    sweeps = read_bytes("\n".join(texts).encode(), "blocks.csv")
    assert [s.rate for s in sweeps] == pytest.approx([60, 120, 240], rel=1e-3)
