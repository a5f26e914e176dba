"""Blocks of position and force without time, over which a line says how fast the rig ran."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.record_motion import peaks
from dynoan.reading import read_bytes

RADIUS = 25.0  #: of the crank [mm]
DAMPING = 3.0  #: [N per mm/s]


def block(title: str, speed: float, samples: int, cycles: float = 1.0) -> str:
    """Return the lines of a block: a crank of that peak speed [mm/s] over so many cycles, from the bottom."""
    angle = np.linspace(0.0, 2 * np.pi * cycles, samples, endpoint=False) - 0.5 * np.pi
    force = DAMPING * speed * np.cos(angle) + 140.0
    rows = [f"{a:.3f},{b:.1f}" for a, b in zip(RADIUS * np.sin(angle), force, strict=True)]
    return "\n".join([title, "Position [mm],Force [N]", *rows, ""])


SPEEDS = (25.0, 100.0, 400.0)


@pytest.mark.parametrize("samples", [90, 360])
@pytest.mark.parametrize("cycles", [1.0, 3.0])
@pytest.mark.parametrize(
    "title",
    ["Test velocity: {v:g} mm/s", "Peak speed = {v:g} mm/s", "Frequency: {f:.5f} Hz", "Geschwindigkeit: {v:g} mm/s",
     "Crank: {rpm:.3f} rpm"],
)  # fmt: skip
def test_the_travel_has_the_speed_that_is_stated(title, cycles, samples):
    hertz = [v / (2 * np.pi * RADIUS) for v in SPEEDS]
    titles = [title.format(v=v, f=f, rpm=60 * f) for v, f in zip(SPEEDS, hertz, strict=True)]
    text = "\n".join(block(t, v, int(samples * cycles), cycles) for t, v in zip(titles, SPEEDS, strict=True))
    sweeps = read_bytes(text.encode(), "blocks.csv")
    assert len(sweeps) == len(SPEEDS)
    for sweep, speed, f in zip(sweeps, SPEEDS, hertz, strict=True):
        assert sweep.rate == pytest.approx(f * samples, rel=0.02)
        assert peaks(sweep)["compression"].velocity == pytest.approx(1e-3 * speed, rel=0.02)
        assert any("evenly spaced" in warning for warning in sweep.warnings)


@pytest.mark.parametrize("line", ["Filter frequency: 50 Hz", "Zero speed: 5 mm/s", "Velocity: fast", "Speed: 40"])
def test_what_states_no_speed_of_the_motion_is_not_taken(line):
    with pytest.raises(ReadError, match="no velocity, no time and no sample rate"):
        read_bytes(block(line, 100.0, 600, 3.0).encode(), "block.csv")


def test_a_speed_and_a_frequency_that_disagree_are_said():
    hertz = 100.0 / (2 * np.pi * RADIUS)
    text = block(f"Speed: 150 mm/s\nFrequency: {hertz:.5f} Hz", 100.0, 600, 3.0)
    (sweep,) = read_bytes(text.encode(), "block.csv")
    assert peaks(sweep)["compression"].velocity == pytest.approx(0.1, rel=0.02)
    assert any("do not agree with the travel" in warning for warning in sweep.warnings)
