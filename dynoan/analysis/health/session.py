"""What one setting showed on one date, from its records."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dynoan.analysis.conditioning.result import Conditioned
from dynoan.analysis.health.assumptions import GAS_SD_UNTOLD
from dynoan.analysis.health.records import Measured, Test
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve


@dataclass(frozen=True)
class Seen:
    """What makes a test of records: when and at which setting they were run, and the curves they belong to."""

    date: str
    setting: tuple[str, ...]  #: shock, pack and clicks
    curve: Curve  #: pooled over the records
    expected: Curve | None  #: of the pack's click map at this setting
    click_share: tuple[tuple[FloatArray, FloatArray], ...] | None = None  #: what a click is worth there


def state_of(seen: Seen, records: Sequence[Conditioned]) -> Test:
    """Return what one setting showed on one date: the means over its records, each with its standard error. SI."""
    parts = [r.model for r in records if r.model is not None]
    give = [Measured(p.give.value, p.give.sd) for p in parts if p.give.clear and p.give.value > 0]
    fade = [Measured(p.drift.value, p.drift.sd) for p in parts if p.drift.clear]
    return Test(
        date=seen.date, setting=seen.setting, curve=seen.curve, runs=len(records),
        gas=mean([Measured(r.gas_force, GAS_SD_UNTOLD if _untold(r) else r.offset_sd) for r in records]),
        friction=mean([Measured(r.friction, r.friction_sd) for r in records]), give=mean(give), fade=mean(fade),
        temperature=seen.curve.temperature, expected=seen.expected,
        click_share=seen.click_share,
    )  # fmt: skip


def gas_error_untold(records: Sequence[Conditioned]) -> int:
    """Return how many records tell a gas force and not its error, so that `GAS_SD_UNTOLD` stands in for it."""
    return sum(math.isfinite(r.gas_force) and _untold(r) for r in records)


def _untold(record: Conditioned) -> bool:
    return math.isnan(record.offset_sd)


def mean(values: Sequence[Measured]) -> Measured:
    """Return the mean of repeats; its error is their root mean square, since what they err by is mostly shared."""
    known = [v for v in values if not math.isnan(v.value)]
    if not known:
        return Measured()
    n = len(known)
    return Measured(sum(v.value for v in known) / n, math.sqrt(sum(v.sd**2 for v in known) / n))
