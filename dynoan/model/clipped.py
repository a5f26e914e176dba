"""Force held at an end of its channel's range: the load was beyond it, and nobody knows by how much."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.ramps import RAMP_WITHIN, ramps

#: how all begins that is said of it, by whoever reads a file and by whoever fits it
CLIPPED = "force is clipped"
#: [samples] force held at its extreme so long in all, and so long at once, is clipped; judged: noise alone leaves no
#: five samples at one number; a slow peak leaves fewer than this in all
CLIPPED_SAMPLES, CLIPPED_RUN = 6, 5
#: [1] what counts as held at the extreme, and as near it, as shares of the force's span; judged: a converter's last
#: count is larger; a peak is round over more than two hundredths
CLIPPED_HELD, CLIPPED_NEAR = 1e-6, 0.02
#: [1] share of the samples near the extreme that must be held there; judged: of a true peak most samples lie beside
#: the top
CLIPPED_SHARE = 0.5
#: [1] share of the force's span in which a converter's counts are looked at, and how many of them are near the extreme
#: at least; judged: of a round peak the last count alone holds as much as the two below it
CLIPPED_LOOK, CLIPPED_COUNTS = 0.1, 6
#: [1] share of the held samples that lies on ramps where the valve holds them; judged: some stand where it turns
CLIPPED_ON_RAMPS = 0.9
#: [1] shares of the force's span within which an amplifier at its limit stays, the noise of what comes after it in;
#: judged: noise of sound cells is less; wider, the round top of a motion lies within
LIMITED_WITHIN = (0.002, 0.004, 0.008, 0.016)
#: [samples] it stays there so long at once; and how many times as many samples as lie in the next such share; judged:
#: of a round peak two and a half times as many do
LIMITED_RUN, LIMITED_SHARE = 8, 6
#: [1] share of the samples within two such shares of a round top that lie in the lower one, as they go with its root
#: (numerics); and how likely chance may leave so few there: judged, a record is looked at at both ends for four shares
LIMITED_BELOW, LIMITED_CHANCE = 1 - 0.5**0.5, 1e-3
#: [1] how many times as many lie from four to eight such shares down as from one to two; numerics: four times of a
#: force that is cut off, as many of a valve that levels off
LIMITED_SHARP = 2.0
#: [1] mean square of the steps between held samples over their variance, two of noise; judged: force that a valve makes
#: rises and falls, in steps far smaller; [samples] and so many on either side of them are not yet held
LIMITED_SCATTERS, LIMITED_EDGE = 1.0, 2
#: [samples] from so many on the way to the top it is said that a force levels off; judged: of fewer chance decides
LEVELS_OFF = 8
#: [1] share of the held samples in which the shock moves, where its displacement is known; judged
LIMITED_MOVES = 0.5
_LOOK = 1 << 14  #: samples that are counted together: more do not stay in the processor's own memory


def clipped_at(force: FloatArray, extreme: float, other: float, displacement: FloatArray | None) -> BoolArray | None:
    """Return which samples a channel held at an end of its range, shape (n,); None where that end is a peak like any.

    Parameters
    ----------
    force
        The record, shape (n,). [N]
    extreme, other
        Its extreme, and the one at the other end. [N]
    displacement
        In the same samples, shape (n,), None where it was not recorded. [m]
    """
    held = held_at_end(force, extreme, other)
    if held is not None and _levels_off(force, extreme, other):
        return None
    if held is None:
        held = _limited(force, extreme, other)
        if held is None or not _moves(displacement, held):
            return None
    return None if at_one_speed(displacement, held) else held


def held_at_end(force: FloatArray, extreme: float, other: float) -> BoolArray | None:
    """Return which samples are held at an extreme, shape (n,); None where it is a peak like any.

    Parameters
    ----------
    force
        The record, shape (n,). [N]
    extreme, other
        Its extreme, and the one at the other end. [N]
    """
    at = _within(force, extreme, other, CLIPPED_HELD)
    held = int(np.count_nonzero(at))
    if held < CLIPPED_SAMPLES:
        return None
    near = int(np.count_nonzero(_within(force, extreme, other, CLIPPED_NEAR)))
    if _longest_run(at) < CLIPPED_RUN or held < CLIPPED_SHARE * near:
        return None
    wide = CLIPPED_COUNTS * _resolution(force, extreme, other)
    beside = int(np.count_nonzero(_within(force, extreme, other, wide))) if wide > CLIPPED_NEAR else near
    return at if held >= CLIPPED_SHARE * beside else None


def _limited(force: FloatArray, extreme: float, other: float) -> BoolArray | None:
    """Return which samples an amplifier held at its limit, noise of what comes after it on them; None of a peak."""
    counted = _counted(force, extreme, other, {n * share for share in LIMITED_WITHIN for n in (1, 2)})
    for share in LIMITED_WITHIN:
        held, next_to_it = counted[share], counted[2 * share] - counted[share]
        if held < max(LIMITED_RUN, LIMITED_SHARE * max(next_to_it, 1)) or _by_chance(held, next_to_it):
            continue  # a round peak, as nearly all are: the rest takes longer
        sharp = _further(force, extreme, other, share) >= max(LIMITED_SHARP * next_to_it, 1)
        if sharp and _resolution(force, extreme, other) <= 0.5 * share:
            at = _within(force, extreme, other, share)
            if _longest_run(at) >= LIMITED_RUN and _scatters(force, at):
                return at
    return None


def _by_chance(held: int, next_to_it: int) -> bool:
    """Whether chance may leave so few samples of a round top below those that seem held.

    By the bound of Hoeffding, Probability inequalities for sums of bounded random variables, 1963, theorem 1.
    """
    n = held + next_to_it
    below = next_to_it / n
    if below >= LIMITED_BELOW:
        return True
    distance = (1 - below) * math.log((1 - below) / (1 - LIMITED_BELOW))
    distance += below * math.log(below / LIMITED_BELOW) if below else 0.0
    return math.exp(-n * distance) > LIMITED_CHANCE


def _scatters(force: FloatArray, at: BoolArray) -> bool:
    """Whether force scatters where it is held, and neither rises nor falls there."""
    whole = np.convolve(at, np.ones(2 * LIMITED_EDGE + 1), mode="same") > 2 * LIMITED_EDGE + 0.5
    both = whole[1:] & whole[:-1]
    steps = float(np.mean(np.diff(force)[both] ** 2)) if both.any() else 0.0
    return bool(whole.any()) and steps >= LIMITED_SCATTERS * float(np.var(force[whole]))


def _levels_off(force: FloatArray, extreme: float, other: float) -> bool:
    """Whether a force nears its extreme by and by, as a valve's may, and a force that is cut off does not."""
    share = LIMITED_WITHIN[0]
    counted = _counted(force, extreme, other, (share, 2 * share))
    next_to_it = counted[2 * share] - counted[share]
    return next_to_it >= LEVELS_OFF and _further(force, extreme, other, share) < LIMITED_SHARP * next_to_it


def _further(force: FloatArray, extreme: float, other: float, share: float) -> int:
    """Return how many samples lie from four to eight such shares of the span from the extreme."""
    counted = _counted(force, extreme, other, (4 * share, 8 * share))
    return counted[8 * share] - counted[4 * share]


def _counted(force: FloatArray, extreme: float, other: float, shares: Iterable[float]) -> dict[float, int]:
    """Return how many samples lie within each of some shares of the span from the extreme."""
    found = dict.fromkeys(sorted(shares, reverse=True), 0)
    for start in range(0, len(force), _LOOK):
        some = force[start : start + _LOOK]
        for share in found:
            some = some[_within(some, extreme, other, share)]  # the few that may lie within a narrower one
            if not len(some):
                break
            found[share] += len(some)
    return found


def _resolution(force: FloatArray, extreme: float, other: float) -> float:
    """Return the converter's count as a share of the span, as the values near the extreme show it; 0 of one value."""
    values = np.unique(force[_within(force, extreme, other, CLIPPED_LOOK)])
    steps = np.diff(values)
    steps = steps[steps > CLIPPED_HELD * abs(extreme - other)]
    return float(np.median(steps)) / abs(extreme - other) if len(steps) else 0.0


def _within(force: FloatArray, extreme: float, other: float, share: float) -> BoolArray:
    """Return which samples lie within a share of the span from the extreme."""
    edge = extreme - share * (extreme - other)
    return force >= edge if extreme > other else force <= edge


def _longest_run(at: BoolArray) -> int:
    """Return how many samples on end are so at most."""
    return int(np.diff(np.flatnonzero(np.diff(np.concatenate([[0], at.view(np.int8), [0]]))))[::2].max())


def _moves(displacement: FloatArray | None, held: BoolArray) -> bool:
    """Whether the shock moves, or may move, while its force is held."""
    if displacement is None:
        return True
    step = np.abs(np.gradient(displacement))
    return bool(np.mean(step[held] > 0.05 * np.nanmax(step)) > LIMITED_MOVES)


def at_one_speed(displacement: FloatArray | None, held: BoolArray) -> bool:
    """Return whether held samples lie on ramps of one speed, where a force that stands still is the valve's.

    Parameters
    ----------
    displacement
        In even steps of time, shape (n,), None where it was not recorded. [m]
    held
        Which samples hold one force, shape (n,).
    """
    if displacement is None:
        return False
    step = np.gradient(displacement)
    some = np.abs(step[held & ramps(step, standing=0.0)])
    if len(some) < CLIPPED_ON_RAMPS * np.count_nonzero(held):
        return False
    slow, fast = np.percentile(some, [5, 95])
    return bool(fast < (1 + RAMP_WITHIN) * slow)
