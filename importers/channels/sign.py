"""Which way a rig counts: evidence for the direction that is positive, and the signs that make compression positive.

Damping takes energy out, so force and velocity that share a convention have a positive mean product. Which of the two
directions is compression follows from, in order: what the user or the file says; the gas force, which pushes out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions import FORCE_FOLLOWS, GAS_FORCE, GAS_SAMPLES, GAS_SHARE
from importers.channels.rest_force import CountedMotion, rest_force

ASSUMED = "compression was assumed; --positive rebound turns it round"
_OPPOSITE = "; the channels count opposite ways: damping takes energy out, so force acts against the motion"
_UNRELATED = "force hardly follows velocity here: check that these columns belong together"


@dataclass(frozen=True)
class Signs:
    """What to multiply the channels by, and why."""

    force: int
    velocity: int
    displacement: int
    evidence: str
    warnings: tuple[str, ...] = ()


class _Follows(NamedTuple):
    """Which way the motion counts against the force: 1 the same, -1 the other."""

    velocity: int
    displacement: int

    def of(self, channel: str) -> int:
        return {"velocity": self.velocity, "displacement": self.displacement}.get(channel, 1)


class _ForceSign(NamedTuple):
    """What makes force positive in compression, and how that is known."""

    sign: int
    evidence: str
    warnings: tuple[str, ...] = ()


def orient(
    motion: CountedMotion, said: Mapping[str, str], *, x_follows: int = 1, gas_removed: bool | None = None
) -> Signs:
    """Return the signs that make all channels positive in compression.

    Parameters
    ----------
    motion
        The trace as the file counts.
    said
        What the user or the file says is positive, by channel or "all".
    x_follows
        1 where displacement grows with positive velocity, else -1.
    gas_removed
        True where the file says that gas force was taken out.
    """
    power = related(motion.force, motion.velocity)
    v_follows = 1 if power >= 0 else -1
    follows = _Follows(v_follows, v_follows * x_follows)
    lead = _stated(said, follows) or _by_gas(motion, gas_removed) or _assumed(gas_removed)
    signs = Signs(
        lead.sign, lead.sign * follows.velocity, lead.sign * follows.displacement, lead.evidence, lead.warnings
    )
    if _count_opposite(signs, motion):
        signs = replace(signs, evidence=signs.evidence + _OPPOSITE)
    return replace(signs, warnings=(*signs.warnings, _UNRELATED)) if abs(power) < FORCE_FOLLOWS else signs


def related(a: FloatArray, b: FloatArray) -> float:
    """Return the correlation of two channels, missing samples left out; 0 where one stands still."""
    both = np.isfinite(a) & np.isfinite(b)
    if not both.any():
        return 0.0
    x, y = a[both] - a[both].mean(), b[both] - b[both].mean()
    # Plain sums: a BLAS call on a short vector waits for its threads longer than it computes.
    size = float(np.sqrt((x * x).sum() * (y * y).sum()))
    return float((x * y).sum()) / size if size > 0 else 0.0


def _count_opposite(signs: Signs, motion: CountedMotion) -> bool:
    """Whether the file's channels count different ways; a derived velocity is none of the file's."""
    recorded = {signs.force}
    recorded |= {signs.velocity} if motion.recorded else set()
    recorded |= {signs.displacement} if motion.displacement is not None else set()
    return len(recorded) > 1


def _stated(said: Mapping[str, str], follows: _Follows) -> _ForceSign | None:
    channel = next((c for c in ("force", "all", "velocity", "displacement") if c in said), None)
    if channel is None:
        return None
    name = "" if channel == "all" else f" for {channel}"
    sign = 1 if said[channel] == "compression" else -1
    return _ForceSign(sign * follows.of(channel), f"stated{name}: {said[channel]} is positive")


def _by_gas(motion: CountedMotion, gas_removed: bool | None) -> _ForceSign | None:
    """Return the sign that makes the force at rest push out, where it stands out."""
    if gas_removed is True:
        return None
    rest = rest_force(motion)
    least = max(GAS_FORCE, GAS_SHARE * float(np.nanmax(np.abs(motion.force))))
    if not (rest.samples >= GAS_SAMPLES and abs(rest.force) >= least):
        return None
    way = "compression" if rest.force > 0 else "rebound"
    return _ForceSign(
        1 if rest.force > 0 else -1, f"gas force pushes out: {rest.force:+.0f} N at rest, so {way} is positive"
    )


def _assumed(gas_removed: bool | None) -> _ForceSign:
    why = "gas force was taken out" if gas_removed else "no gas force stands out"
    warning = f"nothing says which direction is positive ({why}): {ASSUMED}"
    return _ForceSign(1, f"assumed: compression is positive ({why})", (warning,))
