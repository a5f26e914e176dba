"""Pushed corners nobody chose: true dry friction, a knee, unlike directions, hands that hold, a phone that leans."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.bounce.assumptions import LET_GO_ACCELERATION, LET_GO_TRAVEL
from dynoan.analysis.bounce.axis import upward
from dynoan.analysis.bounce.fitting import fit_swings
from dynoan.analysis.bounce.problem import KnownCorner, Logged
from dynoan.analysis.bounce.pushes import swings
from tests.worlds.track.pushed_corners import draw, equivalent, hands, logged, mode, truth

NEAR = 0.02


def read(seed):
    """The corner, and its log as the program reads it, tyre and wheel told 10 % off."""
    of = draw(seed)
    at, values = logged(of)
    off = np.exp(np.random.default_rng(seed + 5).normal(0, 0.1, 2))
    known = KnownCorner(of.tyre / of.spring * off[0], of.unsprung / of.sprung * off[1], True)
    seen = upward(values, 1.0).values if of.phone else (values - np.median(values)) / of.ratio
    return of, fit_swings(Logged(at, seen, of.phone), known)


def holds(band, value):
    return band.low <= value <= band.high


class TestTheWorld:
    """What the world says of itself, by another way."""

    def test_the_mode_of_a_light_damper_is_the_free_one(self):
        of = draw(1)
        assert abs(mode(of, 1e-6).imag) == pytest.approx(abs(mode(of, 0.0).imag), rel=1e-6)
        series = of.spring * of.tyre / (of.spring + of.tyre)
        assert truth(of)[3] == pytest.approx(np.sqrt(series / of.sprung) / 2 / np.pi, rel=0.03)

    def test_a_linear_damper_is_its_own_equivalent(self):
        from dataclasses import replace

        of = replace(draw(2), slopes=(1500.0, 1500.0), beyond=1.0)
        assert equivalent(of, 0.01) == pytest.approx(1500.0 * of.ratio**2, rel=1e-4)


@pytest.mark.thorough
@pytest.mark.parametrize("seed", [17, 34])
def test_a_corner_held_by_hand_and_one_that_rubs(seed):
    """A car swings while a hand holds it down, which is no free swing; 55 N of dry friction are no damping."""
    of, fit = read(seed)
    ratio, frequency, _, free = truth(of)
    assert fit.frequency.value == pytest.approx(frequency, rel=NEAR)
    assert fit.free.value == pytest.approx(free, rel=NEAR)
    assert holds(fit.ratio, ratio)


@pytest.mark.thorough
def test_a_hand_that_presses_is_no_swing():
    """Nor does a long hold hide a swing, nor two greatest values before it make it two."""
    for seed in (15, 17, 41, 113):
        of = draw(seed)
        at, values = logged(of)
        free = [w for n, w in enumerate(hands(of)[0]) if n % 4 == 3 and n > 1]
        seen = upward(values, 1.0).values if of.phone else values - np.median(values)
        share, rest = (LET_GO_ACCELERATION, 0.1) if of.phone else (LET_GO_TRAVEL, 0.5)
        began = [at[s.start] for s in swings(at, seen, share, rest)]
        assert len(began) == len(of.pushes)
        assert np.all(np.abs(np.array(began) - free + 0.1) < 0.4)


@pytest.mark.thorough
def test_friction_that_holds_the_shock_leaves_the_body_on_its_tyres():
    """A phone hears it bounce there for seconds, which is neither the swing nor its damping."""
    of, fit = read(136)
    ratio, frequency, _, _ = truth(of)
    assert fit.frequency.value == pytest.approx(frequency, rel=NEAR)
    assert holds(fit.ratio, ratio)
    assert fit.told
    assert fit.friction.value == pytest.approx(of.friction / of.sprung, rel=0.2)


@pytest.mark.thorough
def test_half_a_swing_states_no_frequency():
    of, fit = read(142)
    assert not fit.frequency_stated
    assert holds(fit.frequency, truth(of)[1])


@pytest.mark.thorough
@pytest.mark.parametrize("half", [0, 1])
def test_of_two_hundred_the_limits_hold(half):
    """Many minutes: 200 corners, 25 to 400 Hz, phones tilted to 20°, three to five pushes each."""
    near, held, ratios, stated = [], [], [], []
    for seed in range(100 * half, 100 * half + 100):
        of, fit = read(seed)
        ratio, frequency, _, _ = truth(of)
        stated.append(fit.frequency_stated)
        near.append(abs(fit.frequency.value / frequency - 1) < NEAR or not fit.frequency_stated)
        held.append(holds(fit.frequency, frequency))
        ratios.append(holds(fit.ratio, ratio))
    print(f"stated {np.mean(stated):.3f}, near {np.mean(near):.3f}")
    print(f"frequency held {np.mean(held):.3f}, ratio held {np.mean(ratios):.3f}")
    assert all(near)
    assert np.mean(stated) >= 0.90
    assert np.mean(held) >= 0.95
    assert 0.90 <= np.mean(ratios) <= 0.98
