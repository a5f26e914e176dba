"""Where a trace leaves force unexplained: made residuals of known place, over noise of known size."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import _read, condition
from dynoan.analysis.conditioning.left_open.structure import angles, most_left, over_travel
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.analysis.conditioning.separating.separation import separate
from tests.analysis.conditioning_records import trace
from tests.worlds.rows import draw
from tests.worlds.with_dynoan import sweep_of

CYCLES, EACH, HALF = 12, 200, 0.02


@pytest.fixture(scope="module")
def rows() -> Rows:
    """Twelve sine cycles of one block, 200 rows each, at 1 Hz."""
    t = np.arange(CYCLES * EACH) / EACH
    x, v = -HALF * np.cos(2 * np.pi * t), 2 * np.pi * HALF * np.sin(2 * np.pi * t)
    some = condition(trace(t, x, 900.0 * v)).rows
    n, nothing = len(t), np.zeros(len(t))
    return Rows(**{
        **vars(some), "time": t, "displacement": x, "velocity": v, "force": nothing, "force_rate": nothing,
        "friction": np.zeros((n, some.friction.shape[1])), "temperature": None, "window": np.ones(n),
        "span": np.zeros(n, int), "block": np.zeros(n, int), "cycle": np.arange(n) // EACH, "count": np.ones(n),
        "variance": np.ones(n), "white": np.ones(n), "work": np.arange(n),
    })  # fmt: skip


def noise(rows: Rows, size: float = 1.0) -> np.ndarray:
    return np.random.default_rng(8).normal(0.0, size, len(rows))


class TestPlaces:
    def test_the_angle_runs_from_the_extended_end_around(self, rows):
        turn = 2 * np.pi * (rows.time % 1.0)
        off = (angles(rows) - turn + np.pi) % (2 * np.pi) - np.pi
        assert np.max(np.abs(off)) < 0.03

    @pytest.mark.parametrize(
        ("angle", "words"),
        [(0.1, "at the extended end"), (np.pi / 2, "on the way in"), (np.pi + 0.1, "at the compressed end"),
         (3 * np.pi / 2, "on the way out")],
    )  # fmt: skip
    def test_a_short_bump_is_found_where_it_is(self, rows, angle, words):
        bump = 40.0 * np.exp(-(((angles(rows) - angle) / 0.3) ** 2))
        found = most_left(rows, bump + noise(rows))
        assert found.at == words
        assert not found.broad
        assert found.force == pytest.approx(40.0, rel=0.15)
        assert found.top == pytest.approx(2 * np.pi * HALF, rel=0.01)

    def test_a_wave_over_the_whole_cycle_is_broad(self, rows):
        found = most_left(rows, 20.0 * np.sin(2.0 * angles(rows)) + noise(rows))
        assert found.broad

    def test_noise_alone_leaves_no_more_than_noise(self, rows):
        found = most_left(rows, noise(rows, 5.0))
        assert found is None or abs(found.force) < 5.0

    def test_what_is_left_over_travel_goes_with_travel(self, rows):
        x = rows.displacement
        left = over_travel(rows, 30.0 * x / HALF * (rows.velocity > 0) + noise(rows), 1.0)
        inner = np.abs(left.at) < 0.8 * HALF
        assert np.allclose(left.mean[inner], 30.0 * left.at[inner] / HALF, atol=2.0)
        assert np.all(np.abs(left.mean[inner] - 30.0 * left.at[inner] / HALF) < 5.0 * left.error[inner] + 1.0)


class TestSaid:
    def test_a_short_event_near_an_end_is_said_with_its_place(self):
        """Backlash of 0.2-0.3 mm lets the force rest at zero after a reversal: short, near an end, left in here."""
        rows = _read(sweep_of(draw("backlash strong", 4002))).rows
        found = separate(replace(rows, count=np.ones(len(rows))))
        assert found.most is not None
        assert not found.most.broad
        assert found.most.at.endswith("end")

    def test_nothing_is_said_of_a_clean_record(self):
        assert not [line for line in condition(sweep_of(draw("clean", 4002))).findings if "unexplained" in line]
