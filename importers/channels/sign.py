"""Which way a rig counts: evidence for the direction that is positive, and the signs that make compression positive.

Damping takes energy out, so force and velocity that share a convention have a positive mean product. Which of the two
directions is compression follows from, in order: what the user or the file says; the gas force, which pushes out, where
the force at rest can be one: the record keeps its mean, the force stands above what friction holds, and it is alike
throughout. What other parts of the file show holds for a part that shows nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.channels import (
    ABOVE_HELD,
    DRAWN_OF_HELD,
    FORCE_FOLLOWS,
    FORCE_SPRINGS,
    GAS_AGREES,
    GAS_FORCE,
    GAS_RISE,
    GAS_SAMPLES,
    GAS_SHARE,
    MEAN_FREE,
    QUASI_STATIC,
    REST_ALIKE,
)
from importers.channels.motion_kind import goes_one_way
from importers.channels.rest_force import (
    CountedMotion,
    RestForce,
    drawn_to_rest,
    largest,
    rest_by_stretch,
    rest_force,
)

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
    by: str = "assumed"  #: how the direction is known: stated, gas or assumed


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
    by: str = "assumed"


def orient(
    motion: CountedMotion,
    said: Mapping[str, str],
    *,
    x_follows: int = 1,
    gas_removed: bool | None = None,
    agreed: int | None = None,
    gas_force: float | None = None,
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
    agreed
        The sign of force that the parts of the file agree on; 0 where they contradict one another.
    gas_force
        What the stated pressure makes on the stated rod. [N]
    """
    power = related(motion.force, motion.velocity)
    # Motion one way at one speed says nothing of which way force counts.
    silent = abs(power) < FORCE_FOLLOWS and goes_one_way(motion.velocity)
    spring = _springs(motion) if abs(power) < FORCE_FOLLOWS and not silent else 0
    v_follows = spring * x_follows or (1 if power >= 0 or silent else -1)
    follows = _Follows(v_follows, v_follows * x_follows)
    gas, stated = _by_gas(motion, follows, gas_removed, gas_force), _stated(said, follows)
    lead = stated or _agreed(agreed, gas) or (gas if gas.sign else _assumed(gas.evidence))
    signs = Signs(
        lead.sign, lead.sign * follows.velocity, lead.sign * follows.displacement, lead.evidence, lead.warnings, lead.by
    )
    if stated and gas.sign == -lead.sign:
        signs = replace(signs, warnings=(*signs.warnings, f"{lead.evidence}, though {gas.evidence}: it was believed"))
    if _count_opposite(signs, motion):
        signs = replace(signs, evidence=signs.evidence + _OPPOSITE)
        if "all" in said:
            turned = f"{lead.evidence}, which force follows{_OPPOSITE}, and the motion was turned"
            signs = replace(signs, warnings=(*signs.warnings, turned))
    unrelated = abs(power) < FORCE_FOLLOWS and not silent and not (spring and _is_slow(motion))
    return replace(signs, warnings=(*signs.warnings, _UNRELATED)) if unrelated else signs


def _springs(motion: CountedMotion) -> int:
    """Return which way displacement counts against a force that is gas and spring alone, both stronger further in.

    1 the same way, -1 the other, 0 where the force follows the place no better than the speed.
    """
    along = 0.0 if motion.displacement is None else related(motion.force, motion.displacement)
    return 0 if abs(along) < FORCE_SPRINGS else 1 if along > 0 else -1


def _is_slow(motion: CountedMotion) -> bool:
    """Whether a motion is too slow for damping to show."""
    return largest(motion.velocity) < QUASI_STATIC


def related(a: FloatArray, b: FloatArray) -> float:
    """Return the correlation of two channels, missing samples left out; 0 where one stands still."""
    of_a, of_b = a.sum(), b.sum()
    if not np.isfinite(of_a + of_b):
        both = np.isfinite(a) & np.isfinite(b)
        if not both.any():
            return 0.0
        a, b = a[both], b[both]
        of_a, of_b = a.sum(), b.sum()
    x, y = a - of_a / len(a), b - of_b / len(b)
    # No product of BLAS: on a short vector it waits for its threads longer than it computes.
    xx, yy, xy = (float(np.einsum("i,i->", p, q)) for p, q in ((x, x), (y, y), (x, y)))
    size = float(np.sqrt(xx * yy))
    return xy / size if size > 0 else 0.0


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
    return _ForceSign(sign * follows.of(channel), f"stated{name}: {said[channel]} is positive", by="stated")


def _agreed(sign: int | None, gas: _ForceSign) -> _ForceSign | None:
    """Return the sign that the parts of a file agree on, where this part does not show it by itself."""
    if sign == 0:
        return _assumed("gas force points different ways in the parts of this file")
    if sign is None or gas.sign == sign:
        return None
    way = "compression" if sign > 0 else "rebound"
    return _ForceSign(sign, f"gas force pushes out in other parts of this file, so {way} is positive", by="gas")


def _by_gas(
    motion: CountedMotion, follows: _Follows, gas_removed: bool | None, gas_force: float | None = None
) -> _ForceSign:
    """Return the sign that makes the force at rest push out; sign 0, and why, where that force can be no gas force."""
    if gas_removed is True:
        return _ForceSign(0, "gas force was taken out")
    rest, most = rest_force(motion), largest(motion.force)
    if rest.samples < GAS_SAMPLES:
        return _ForceSign(0, "too few samples where the shock turns around to see gas force")
    if abs(rest.force) < max(GAS_FORCE, GAS_SHARE * most):
        return _ForceSign(0, "no gas force stands out")
    total = float(motion.force.sum())
    mean = total / len(motion.force) if np.isfinite(total) else float(np.nanmean(motion.force))
    if abs(mean) < MEAN_FREE * most:
        return _ForceSign(0, "the record's mean force was taken out, and gas force with it")
    if abs(rest.force) <= ABOVE_HELD * rest.held and (drawn := _drawn(motion, rest)) is not None:
        rest = drawn
    if abs(rest.force) <= ABOVE_HELD * rest.held:
        return _ForceSign(
            0,
            f"the {rest.force:+.0f} N where the shock turns around do not stand out from the {rest.held:.0f} N between "
            "slow motion in and out",
        )
    if gas_force is not None and not GAS_AGREES[0] <= abs(rest.force) / gas_force <= GAS_AGREES[1]:
        stated = f"the {gas_force:.0f} N of the stated pressure on the rod"
        return _ForceSign(0, f"the {rest.force:+.0f} N at rest are not {stated}: a zero error, or another unit")
    if not _alike(rest_by_stretch(motion), rest.force):
        return _ForceSign(0, "the force at rest changes within the record, as gas force does not")
    way = "compression" if rest.force > 0 else "rebound"
    why = f"gas force pushes out: {rest.force:+.0f} N at rest, so {way} is positive"
    rise = rest.rise * (follows.velocity if motion.displacement is None else follows.displacement)
    flat = gas_force is None and rise < GAS_RISE * abs(rest.force)
    other = "rebound" if rest.force > 0 else "compression"
    doubt = (f"the {rest.force:+.0f} N at rest were taken as gas force, so {way} as positive, though they do not rise"
             f" with travel as gas does: if the load cell was not zeroed, state --positive {other}")  # fmt: skip
    return _ForceSign(1 if rest.force > 0 else -1, why, (doubt,) if flat else (), by="gas")


def _drawn(motion: CountedMotion, rest: RestForce) -> RestForce | None:
    """Return the force at rest as lines of slow motion show it, where they show one that is certain; else None."""
    drawn = drawn_to_rest(motion)
    if drawn is None or drawn.force * rest.force <= 0 or abs(drawn.force) < DRAWN_OF_HELD * rest.held:
        return None
    sure = abs(drawn.force) > ABOVE_HELD * drawn.held + 3 * drawn.error and abs(drawn.force) >= GAS_FORCE
    return rest._replace(force=drawn.force, held=drawn.held) if sure else None


def _alike(found: list[RestForce], whole: float) -> bool:
    """Whether the force at rest is about the same in all stretches of a record."""
    return all(abs(one.force - whole) <= REST_ALIKE * abs(whole) + one.held for one in found)


def _assumed(why: str) -> _ForceSign:
    warning = f"nothing says which direction is positive ({why}): {ASSUMED}"
    return _ForceSign(1, f"assumed: compression is positive ({why})", (warning,))
