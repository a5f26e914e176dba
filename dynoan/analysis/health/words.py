"""Names for what changed in a shock, each with its evidence and what it usually means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from dynoan.analysis.gas import charge_from_force
from dynoan.analysis.health.assumptions import (
    FADE_LIMIT,
    FORCE_LIMIT,
    FRICTION_LIMIT,
    GAS_LIMIT,
    GIVE_LIMIT,
    MOSTLY_THERE,
    SURELY_SHARE,
)
from dynoan.analysis.health.records import Change, Finding
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.units import percent_places


def name_findings(changes: Sequence[Change], rod: float | None) -> tuple[Finding, ...]:
    """Return the changes that count, named; the interval must lie wholly beyond its limit.

    Of gas and friction, and of force at most of its speeds, the best value must, and the interval beyond
    `SURELY_SHARE` of it: no doubt hides that it changed.
    """
    found: list[Finding] = []
    for direction in DIRECTIONS:
        found += _force([c for c in changes if c.quantity == "force" and c.direction == direction], direction)
    for change in changes:
        found += _other(change, rod)
    return tuple(found)


def _force(changes: Sequence[Change], direction: Direction) -> list[Finding]:
    out = []
    for sign, word in ((-1.0, "less"), (1.0, "more")):
        beyond = [c for c in changes if _least(c, sign) > FORCE_LIMIT] or _surely_at_most_speeds(changes, sign)
        if not beyond:
            continue
        common = common_change(changes)
        if common is not None:
            out.append(Finding(f"{word} {direction} force", _common_words(changes, common),
                               _meaning([replace(c, value=common) for c in changes], sign), direction))  # fmt: skip
            continue
        worst = max(beyond, key=lambda c: abs(c.value))
        # Where it went the other way, or cannot be told to have gone, it is no evidence of this.
        same = [c for c in changes if c in beyond or _least(c, sign) > 0]
        at = ", ".join(f"{_told(c, c.value)} % at {1000 * (c.speed or 0):.0f} mm/s" for c in same)
        evidence = f"{at}; at its largest at least {_told(worst, min(abs(worst.low), abs(worst.high)))[1:]} %"
        out.append(Finding(f"{word} {direction} force", evidence, _meaning(changes, sign), direction))
    return out


def _least(change: Change, sign: float) -> float:
    """Return by how much force changed at least, in the direction of a sign. [%]"""
    return -change.high if sign < 0 else change.low


def _surely_at_most_speeds(changes: Sequence[Change], sign: float) -> list[Change]:
    surely = [c for c in changes if sign * c.value > FORCE_LIMIT and _least(c, sign) > SURELY_SHARE * FORCE_LIMIT]
    return surely if len(changes) > 1 and len(surely) > len(changes) / 2 else []


def common_change(changes: Sequence[Change]) -> float | None:
    """Return the one change that all of some speeds agree with, weighed by how well each is known; else None. [%]"""
    weight = np.array([1.0 / max(c.high - c.low, 1e-9) ** 2 for c in changes])
    value = float(np.sum(weight * np.array([c.value for c in changes])) / np.sum(weight))
    return value if all(c.low <= value <= c.high for c in changes) else None


def _common_words(changes: Sequence[Change], common: float) -> str:
    speeds = [1000 * (c.speed or 0) for c in changes]
    best = min(changes, key=lambda c: c.high - c.low)
    where = f"at all speeds from {min(speeds):.0f} to {max(speeds):.0f} mm/s" if len(speeds) > 1 else \
        f"at {speeds[0]:.0f} mm/s"  # fmt: skip
    return f"{_told(best, common)} % {where} alike (best known {_limits(best)} %)"


def _meaning(changes: Sequence[Change], sign: float) -> str:
    if sign > 0:
        return "clicks set otherwise, thicker or colder oil, or another pack; check the setting first"
    if len(changes) == 1:
        return "one speed does not tell wear, thinner oil and clicks that are not as written apart: test at several"
    by_speed = sorted(changes, key=lambda c: c.speed or 0.0)
    slow, fast = (max(sign * c.value, 0.0) for c in (by_speed[0], by_speed[-1]))
    if slow > MOSTLY_THERE * fast:
        worn = "worn piston band, seal or needle, a check valve that leaks"
        return f"most at low speed: oil passes the bleed ({worn}), or the clicks are not as written"
    if fast > MOSTLY_THERE * slow:
        return (
            "most at high speed: the blow-off opens earlier (tired shims or spring), or the clicks are not as written"
        )
    return "at all speeds: thinner or hotter oil, wear all round, or the clicks are not as written"


def _told(change: Change, percent: float) -> str:
    """Return a percentage with its sign, to the places that the change's limits leave it."""
    return f"{percent:+.{percent_places(change.low, change.high)}f}"


def _limits(change: Change) -> str:
    return f"{_told(change, change.low)} to {_told(change, change.high)}"


def told_force(change: Change) -> str:
    """Return a change of force as findings tell it, with its interval."""
    return f"{change.value:+.0f} N ({change.low:+.0f} to {change.high:+.0f})"


def _other(change: Change, rod: float | None) -> list[Finding]:
    if change.quantity == "gas" and change.value < -GAS_LIMIT and change.high < -SURELY_SHARE * GAS_LIMIT:
        pressure = f", about {float(charge_from_force(-change.value, rod)) / 1e5:.1f} bar" if rod else ""
        return [Finding("gas lost", f"gas force {told_force(change)}{pressure}",
                        "gas has leaked, or was charged lower, or the load cell was zeroed otherwise; low gas lets "
                        "the oil cavitate on fast compression", change=change)]  # fmt: skip
    if change.quantity == "friction" and change.value > FRICTION_LIMIT and change.low > SURELY_SHARE * FRICTION_LIMIT:
        return [Finding("more friction", f"friction {told_force(change)}",
                        "dry or swollen seals, a bent rod, or side load on the rig", change=change)]  # fmt: skip
    if change.quantity == "give" and change.low > GIVE_LIMIT:
        size = f"{_told(change, change.value)} % more ({_limits(change)} %)"
        return [Finding("delayed rise after reversal", f"oil and mounts give {size}",
                        "air or vapour in the oil (bleed it; check the gas), or play in the mounts")]  # fmt: skip
    if change.quantity == "fade" and change.high < -FADE_LIMIT:
        size = f"{_told(change, change.value)} % per 10 °C ({_limits(change)})"
        return [Finding("fade with temperature", f"damping force {size} within the record",
                        "the oil thins as it warms: leak paths rule, or the oil is spent")]  # fmt: skip
    return []
