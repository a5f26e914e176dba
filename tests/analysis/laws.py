"""Curves of simple laws, as nouns, for checks in closed form."""

from __future__ import annotations

import numpy as np

from dynoan.model.curve import Curve
from dynoan.model.side import Segment, Side

GRID = np.linspace(0.0, 2.0, 21)


def side(*segments: Segment) -> Side:
    """A side without a band."""
    bare = Side(segments=segments, knees=(), speeds=GRID, low=GRID, high=GRID, top_speed=2.0)
    forces = bare.force(GRID)
    return Side(segments=segments, knees=(), speeds=GRID, low=forces, high=forces, top_speed=2.0)


def linear(slope: float) -> Side:
    """Force in proportion to speed."""
    return side(Segment(0.0, 2.0, 0.0, slope))


def power(factor: float, exponent: float) -> Side:
    """Force as a power of speed."""
    return side(Segment(0.0, 2.0, 0.0, 0.0, factor, exponent))


def knee(first: float, second: float, at: float) -> Side:
    """One slope up to a speed, another beyond."""
    return side(Segment(0.0, at, 0.0, first), Segment(at, 2.0, first * at, second))


def both(one: Side, other: Side | None = None) -> Curve:
    """The same law in both directions, or another in rebound."""
    return Curve(one, other or one)
