"""The pushed corner as the library knows it."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from dynoan.analysis.bounce.predicting import MadePushes, predicted_within
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
def test_what_one_simulated_log_misreads_is_believed_as_far_as_its_luck_allows(monkeypatch, low, high, believed):
    """The more noise leaves open of that log's ratio, the nearer the prediction is to the curve's own."""
    corner = pushed(friction=11.0)
    monkeypatch.setattr("dynoan.jobs.bounce.car.car_spread", lambda of: (0.0, 0.0))
    monkeypatch.setattr(PushedCorners, "spread", lambda self, frequency: 0.05)
    free, own = corner.made().free_and_ratio
    read = 0.8 * own
    band = Banded(free, 0.99 * free, 1.01 * free)
    fit = predicted_within([corner.made()], MadePushes(50.0, True, (0.035,)))
    fit = replace(fit, free=band, frequency=band, ratio=Banded(read, low * read, high * read))
    found = allowed(fit, corner)
    assert np.log(found.ratio.value / own) / np.log(0.8) == pytest.approx(believed, abs=0.005)
    assert found.ratio.low < read < own < found.ratio.high
