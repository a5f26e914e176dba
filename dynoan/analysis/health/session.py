"""What one setting showed on one date, from its records."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dynoan.analysis.clickmap.tested.loss_per_kelvin import OilTold
from dynoan.analysis.conditioning.found.result import Conditioned
from dynoan.analysis.health.assumptions import GAS_SD_UNTOLD
from dynoan.analysis.health.records import Measured, Test
from dynoan.analysis.matching.points import Points
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve, Direction


@dataclass(frozen=True)
class Seen:
    """What makes a test of records: when and at which setting they were run, and the curves they belong to."""

    date: str
    setting: tuple[str, ...]  #: shock, pack and clicks
    curve: Curve  #: pooled over the records
    expected: Curve | None  #: of the pack's click map at this setting
    click_share: tuple[tuple[FloatArray, FloatArray], ...] | None = None  #: what a click is worth there
    points: Mapping[Direction, Points] | None = None  #: of a peak table alone
    oil: OilTold | None = None  #: what damping loses in warmer oil as tests of the pack tell


@dataclass(frozen=True)
class RecordState:
    """What one record tells of its shock beside the curve. SI."""

    gas: Measured  #: at mid-stroke, load-cell zero in it; its error NaN where the record does not tell it [N]
    friction: Measured  #: [N]
    give: Measured | None = None  #: of oil and mounts in series, where it is clear [m/N]
    fade: Measured | None = None  #: of damping force within the record, where it is clear [1/K]


def told(record: Conditioned) -> RecordState:
    """Return what a conditioned record tells of gas and friction [N], give [m/N] and fade [1/K]."""
    gas, friction = Measured(record.gas_force, record.offset_sd), Measured(record.friction, record.friction_sd)
    if record.model is None:
        return RecordState(gas, friction)
    give, fade = record.model.give, record.model.drift
    return RecordState(
        gas, friction, Measured(give.value, give.sd) if give.clear and give.value > 0 else None,
        Measured(fade.value, fade.sd) if fade.clear else None,
    )  # fmt: skip


def state_of(seen: Seen, records: Sequence[RecordState]) -> Test:
    """Return what one setting showed on one date: the means over its records, each with its standard error. SI."""
    give = [r.give for r in records if r.give is not None]
    fade = [r.fade for r in records if r.fade is not None]
    return Test(
        date=seen.date, setting=seen.setting, curve=seen.curve, runs=len(records),
        gas=mean([Measured(r.gas.value, GAS_SD_UNTOLD if _untold(r) else r.gas.sd) for r in records]),
        friction=mean([r.friction for r in records]), give=mean(give), fade=mean(fade),
        temperature=seen.curve.temperature, expected=seen.expected,
        click_share=seen.click_share, points=seen.points, oil=seen.oil,
    )  # fmt: skip


def gas_error_untold(records: Sequence[RecordState]) -> int:
    """Return how many records tell a gas force and not its error, so that `GAS_SD_UNTOLD` stands in for it."""
    return sum(math.isfinite(r.gas.value) and _untold(r) for r in records)


def _untold(record: RecordState) -> bool:
    return math.isnan(record.gas.sd)


def mean(values: Sequence[Measured]) -> Measured:
    """Return the mean of repeats; its error is their root mean square, since what they err by is mostly shared."""
    known = [v for v in values if not math.isnan(v.value)]
    if not known:
        return Measured()
    n = len(known)
    return Measured(sum(v.value for v in known) / n, math.sqrt(sum(v.sd**2 for v in known) / n))
