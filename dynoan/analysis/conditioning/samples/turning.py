"""How sharply force turns: where within few rows, neither its rate nor its course between is known."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning.assumptions import SHARP_FROM
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.model.arrays import FloatArray, IntArray


def turns(rows: Rows, values: FloatArray) -> FloatArray:
    """Return by how much the step of values of the rows, shape (..., n), changes from a row to the next. [as `values`]

    Zero at the ends of spans.
    """
    out = np.zeros(values.shape)
    out[..., 1:-1] = np.where(np.diff(rows.span, 2) == 0, np.diff(values, 2), 0.0)
    return out


def steps_in_time(rows: Rows) -> FloatArray:
    """Return the time from each row to the next of its span, shape (n,). [s]"""
    step = np.diff(rows.time, append=rows.time[-1:])
    last = np.diff(rows.span, append=-1) != 0
    return np.where(last & (np.roll(last, 1) == 0), np.roll(step, 1), np.abs(step))


def sharpness(turn: FloatArray, white: FloatArray, place: IntArray) -> FloatArray:
    """Return how sharply force turns beyond noise, rms over the rows of a phase; zero where it may be noise. [N]

    Parameters
    ----------
    turn
        By how much the step of force changes from row to row, shape (n,). [N]
    white
        Variance of the noise of the rows, shape (n,). [N²]
    place
        The phase of each, shape (n,).
    """
    many = np.maximum(np.bincount(place), 1)
    # A second difference has 1 + 4 + 1 times the variance of a row.
    noise = 6.0 * np.bincount(place, white) / many
    square = np.bincount(place, turn**2) / many - noise
    clear = square > 2.0 * np.sqrt(2.0 / many) * noise
    return np.asarray(np.sqrt(np.where(clear, square, 0.0))[place])


def missed(sharp: FloatArray, held_back: FloatArray) -> FloatArray:
    """Return by what damping behind a spring is off where force turns within few rows, standard deviations (n,). [N]

    The rate of force that the valve's speed is reckoned with is off by about as much as it changes from row to row.

    Parameters
    ----------
    sharp
        How sharply damping turns, shape (n,). [N]
    held_back
        The time by which the spring holds the valve back, in steps from row to row, shape (n,). [1]
    """
    return np.asarray(np.clip(held_back - SHARP_FROM, 0.0, 1.0) * sharp)
