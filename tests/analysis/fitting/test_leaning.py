"""Bands that lean: what is bounded on one side errs to the other."""

import numpy as np
import pytest

from dynoan.analysis.conditioning.assumptions import YIELD_SPEEDS
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.fitting.opening import Opener

EDGES = np.array([0.0, 0.1, 0.5])
AT = np.array([0.2, 0.3])


def opened(draws: np.ndarray) -> Opener:
    """Records of which nothing is open but a force of so much [N]."""
    held = np.zeros((len(draws), 2 * len(YIELD_SPEEDS)))
    held[:, 0] = draws
    nothing = np.zeros((len(draws), 2 * len(EDGES)))
    return Opener([Open((EDGES, EDGES), nothing, (), np.zeros((len(draws), 0)), held)], 1.0, [True])


def test_draws_alike_on_both_sides_make_the_usual_deviation_of_either():
    draws = 100.0 + np.concatenate([np.linspace(-20.0, 20.0, 41)])
    below, above = opened(draws)(AT).damping_sd
    assert below == pytest.approx(above, rel=1e-3)
    assert above == pytest.approx(np.std(draws, ddof=1) * np.sqrt(1.0 + 1.0 / 41.0), rel=0.01)


def test_draws_of_something_rare_reach_further_its_way():
    """Four in five say 100 N, one in five says 90: a band of that many deviations holds 90 and not 110."""
    draws = np.where(np.arange(40) % 5 == 0, 90.0, 100.0)
    found = opened(draws)(AT)
    below, above = found.damping_sd
    assert np.all(found.damping - 1.96 * below < 90.0)
    assert np.all(found.damping + 1.96 * above < 104.0)
    assert np.all(below > 1.5 * above)


def test_a_record_of_fewer_draws_counts_as_much_as_one_of_many():
    """A peak table's draws are fewer than a trace's, and both are pooled where they are of one setting."""
    records = [opened(100.0 + np.linspace(-20.0, 20.0, n)).records[0] for n in (41, 7)]
    found = Opener(records, 1.0, [True, False])(AT)
    alone = [Opener([one], 1.0, [True])(AT) for one in records]
    assert found.damping == pytest.approx(np.mean([one.damping for one in alone], axis=0))
    # Each leaves half of its own error; what is common to all, a share of the force, is in every one of them.
    assert np.all(found.damping_sd < np.max([one.damping_sd for one in alone], axis=0))
    assert np.all(found.damping_sd > 0.5 * np.min([one.damping_sd for one in alone], axis=0))
