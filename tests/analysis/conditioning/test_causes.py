"""What leaves force unexplained is named on its own evidence: made residuals of blocks of three speeds."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.conditioning.found.left_words import left_unexplained
from dynoan.analysis.conditioning.found.trace_model import Told
from dynoan.analysis.conditioning.left_open.causes import LeftCause, cause_of
from dynoan.analysis.conditioning.left_open.structure import Unexplained
from dynoan.analysis.conditioning.samples.rows import Rows
from tests.analysis.conditioning_records import trace

HALF, CYCLES, EACH, TOPS = 0.02, 4, 200, (0.1, 0.25, 0.5)


@pytest.fixture(scope="module")
def rows() -> Rows:
    """Three blocks of four sine cycles, rising in speed; force is 2000 N/(m/s)."""
    omega = np.repeat(np.array(TOPS) / HALF, CYCLES * EACH)
    phase = np.tile(2 * np.pi * np.arange(CYCLES * EACH) / EACH, len(TOPS))
    x, v = -HALF * np.cos(phase), HALF * omega * np.sin(phase)
    n, time = len(x), np.cumsum(2 * np.pi / EACH / omega)
    some = condition(trace(time[-CYCLES * EACH :], x[-CYCLES * EACH :], 900.0 * v[-CYCLES * EACH :])).rows
    block = np.repeat(np.arange(len(TOPS)), CYCLES * EACH)
    return Rows(**{
        **vars(some), "time": time, "displacement": x, "velocity": v, "force": 2000.0 * v, "force_rate": np.zeros(n),
        "friction": np.zeros((n, some.friction.shape[1])), "unsettled": None, "temperature": None,
        "window": np.ones(n), "span": block, "block": block, "cycle": np.arange(n) // EACH, "count": np.ones(n),
        "variance": np.ones(n), "white": np.ones(n), "half": np.zeros(n), "work": np.arange(n),
    })  # fmt: skip


def near(rows: Rows, end: float) -> np.ndarray:
    return np.clip(end * rows.displacement / HALF - 0.5, 0.0, None)


class TestNamed:
    @pytest.mark.parametrize(("way", "end"), [(1.0, 1.0), (-1.0, -1.0)])
    def test_force_that_grows_toward_an_end_in_all_blocks_goes_by_travel(self, rows, way, end):
        found = cause_of(rows, rows.force * near(rows, end) * (way * rows.velocity > 0), 2)
        assert (found.kind, found.way, found.end) == ("travel", way, end)
        assert 0.05 < found.share < 0.4

    def test_force_that_comes_late_after_the_turn_in_all_blocks_is_less_of_it(self, rows):
        found = cause_of(rows, -rows.force * 2.0 * near(rows, 1.0) * (rows.velocity < 0), 2)
        assert (found.kind, found.way, found.end) == ("travel", -1.0, 1.0)
        assert found.share < 0

    def test_compression_that_tops_out_in_fast_blocks_alone_is_cavitation(self, rows):
        over = np.clip(rows.force - 700.0, 0.0, None)
        found = cause_of(rows, 150.0 * (over > 0) - over, 2)
        assert found.kind == "cavitation"
        assert found.speed == pytest.approx(0.5, rel=0.01)

    def test_rebound_that_comes_late_in_fast_blocks_alone_is_cavitation(self, rows):
        fast = (rows.block == 2) & (rows.velocity < 0)
        assert cause_of(rows, -rows.force * 2.0 * near(rows, 1.0) * fast, 2).kind == "cavitation"

    def test_force_that_leaps_between_samples_names_the_rate_that_follows(self, rows):
        steep = rows.take(np.arange(0, len(rows), 16))
        flank = np.where(np.abs(steep.velocity) < 0.1, 80.0 * np.sign(steep.velocity), 0.0)
        found = cause_of(steep, flank, 2)
        assert found.kind == "samples"
        assert found.rate > 1.0 / np.median(np.diff(steep.time[steep.block == 2]))


class TestNotNamed:
    def test_what_is_left_at_both_ends_of_fast_blocks_alone_is_none_of_them(self, rows):
        fast = 0.3 * rows.force * (rows.block == 2)
        late = near(rows, 1.0) * (rows.velocity < 0) + near(rows, -1.0) * (rows.velocity > 0)
        assert cause_of(rows, -fast * late, 2) is None

    def test_cavitation_is_not_named_for_what_is_left_in_a_slow_block(self, rows):
        fast = (rows.block == 2) & (rows.velocity < 0)
        assert cause_of(rows, -rows.force * 2.0 * near(rows, 1.0) * fast, 0) is None

    def test_noise_is_none(self, rows):
        assert cause_of(rows, np.random.default_rng(7).normal(0.0, 20.0, len(rows)), 2) is None


@pytest.mark.parametrize(
    ("cause", "lag", "said"),
    [(LeftCause("travel", 0.1, 1.0, 1.0, 0.1), 0.0, "a bump stop or a bypass"),
     (LeftCause("travel", -0.1, -1.0, 1.0, 0.1), 0.0, "travel is lost at the turn"),
     (LeftCause("cavitation", 0.2, speed=0.34), 0.0, "from 340 mm/s on, and not in slower runs"),
     (LeftCause("samples", 0.24, rate=2181.0), 0.0, "2200 Hz or more would follow it"),
     (None, 0.005, "the force channel is slow (5.0 ms late"), (None, 0.0, "is not told")],
)  # fmt: skip
def test_each_is_said_with_what_to_do_and_play_is_not(cause, lag, said):
    most = Unexplained(300.0, np.pi, 0.5, 0.1, cause)
    model = SimpleNamespace(most=most, left=(20.0, 20.0), peak=1000.0, lag=Told(lag, 0.0001))
    (line,) = left_unexplained(model)
    assert said in line
    assert "play" not in line
