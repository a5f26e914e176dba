"""The pushed corner as the library knows it."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from dynoan.analysis.bounce.predicted_band import swing_within
from dynoan.analysis.bounce.predicting import MadePushes, made_log, predicted_within
from dynoan.analysis.bounce.problem import kernel_of
from dynoan.jobs.bounce.answering import _why_open
from dynoan.jobs.bounce.car import PushedCorners, allowed
from dynoan.model.banded import Banded


class Sheet:
    """A curve from a table of peaks: forces at speeds, no word of friction."""

    friction = float("nan")

    def __call__(self, v):
        return np.where(v > 0, 1500.0, 2600.0) * v


def pushed(stated=None, friction=float("nan")):
    corner = SimpleNamespace(rate=40e3, tyre=210e3, sprung=240.0, unsprung=34.0, shock_ratio=0.92)
    sheet = Sheet()
    sheet.friction = friction
    extras = SimpleNamespace(friction={} if stated is None else {"front": stated})
    return PushedCorners(SimpleNamespace(extras=extras), (corner,), (sheet,))


PUSHES = MadePushes(50.0, True, (0.035,))


@pytest.fixture(scope="module")
def swung():
    """What the log of a corner that is known is read as."""
    return predicted_within([pushed(friction=11.0).made()], PUSHES)


@pytest.mark.parametrize(("stated", "dyno", "taken"), [
    (None, float("nan"), [18.0, 3.0, 48.0]), (25.0, float("nan"), [25.0]), (25.0, 11.0, [11.0]),
])  # fmt: skip
def test_friction_that_no_test_tells_is_the_cars_files_or_a_shocks_as_a_rule(stated, dyno, taken):
    assert pushed(stated, dyno).frictions == pytest.approx([0.92 * f for f in taken])


def test_a_shock_known_from_peaks_alone_is_predicted_for_every_friction_it_may_have():
    corner = pushed()
    pushes = MadePushes(50.0, True, (0.035, 0.025))
    found = predicted_within([corner.made(f) for f in corner.frictions[:2]], pushes)
    one = predicted_within([corner.made(corner.frictions[0])], pushes)
    assert found.ratio.value == one.ratio.value
    assert found.ratio.low <= one.ratio.low < one.ratio.high <= found.ratio.high
    assert np.isfinite([found.ratio.low, found.ratio.high, found.free.value]).all()


@pytest.mark.parametrize(("low", "high", "believed"), [(0.95, 1.0527, 0.969), (0.5, 2.0, 0.152)])
def test_what_one_simulated_log_misreads_is_believed_as_far_as_its_luck_allows(monkeypatch, swung, low, high, believed):
    """The more noise leaves open of that log's ratio, the nearer the prediction is to the curve's own."""
    corner = pushed(friction=11.0)
    monkeypatch.setattr("dynoan.jobs.bounce.car.car_spread", lambda of: (0.0, 0.0))
    monkeypatch.setattr(PushedCorners, "spread", lambda self, frequency: 0.05)
    free, own = corner.made().free_and_ratio
    read = 0.8 * own
    band = Banded(free, 0.99 * free, 1.01 * free)
    fit = replace(swung, free=band, frequency=band, ratio=Banded(read, low * read, high * read))
    found = allowed(fit, corner)
    assert np.log(found.ratio.value / own) / np.log(0.8) == pytest.approx(believed, abs=0.005)
    assert found.ratio.low < read < own < found.ratio.high


def test_the_predicted_line_has_a_band_that_holds_what_other_damping_does(swung):
    """The same push with 8 % more damping lies within the line's band where the ratio is open by 12 %."""
    fit = replace(swung, ratio=Banded(swung.ratio.value, 0.88 * swung.ratio.value, 1.12 * swung.ratio.value))
    low, high = swing_within(fit)
    assert np.all(low <= fit.fitted[0])
    assert np.all(fit.fitted[0] <= high)
    corner = pushed(friction=11.0).made()
    log = made_log(replace(corner, damping=lambda v: 1.08 * corner.damping(v)), PUSHES)
    other = np.convolve(log.values, kernel_of(fit.step), mode="valid")
    late = int(np.argmin(fit.fitted[0])) - int(np.argmin(other))
    rows = np.arange(3, min(len(low), 40))
    room = 0.03 * np.ptp(fit.fitted[0])
    assert np.all((low[rows] - room < other[rows - late]) & (other[rows - late] < high[rows] + room))
    assert (high - low).max() > room
    closed = replace(fit, ratio=Banded(*[fit.ratio.value] * 3), free=Banded(*[fit.free.value] * 3))
    assert np.ptp(swing_within(closed), axis=0).max() == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(("ratio", "cycles", "words"), [
    (0.6, 0.9, "turn the clicks softer"), (0.3, 1.2, "push further down"), (0.6, 0.4, "cut short"),
])  # fmt: skip
def test_why_a_frequency_is_open_says_what_to_do(ratio, cycles, words):
    open_ = SimpleNamespace(left_share=0.03, cycles=cycles, ratio=Banded(ratio, 0.8 * ratio, 1.2 * ratio))
    assert words in _why_open(open_)
