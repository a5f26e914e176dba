"""Whether displacement and velocity agree: units that contradict the motion are refused."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from importers.assumptions.channels import CHECK_FIT, MOTION_AGREES, SLIP_NEAR, UNIT_SLIPS
from importers.channels.agreement import Agreement, agreement
from importers.channels.probe import Probe
from importers.channels.unit_inference import CANDIDATES, ChannelScale
from importers.words.unit_text import KIND, scale_of


class MotionCheck(NamedTuple):
    """What displacement and velocity say of one another."""

    agreed: Agreement | None = None  #: None where they cannot be compared
    warnings: tuple[str, ...] = ()


def check_motion(probe: Probe, scales: Mapping[str, ChannelScale], rate: float | None, name: str) -> MotionCheck:
    """Return how displacement and velocity agree, with a warning where they do not.

    Parameters
    ----------
    probe
        The record in SI.
    scales
        The units they were taken in.
    rate
        The sample rate, where there is no time. [Hz]
    name
        Of the file.

    Raises
    ------
    ReadError
        If one unit is wrong, by a factor that a wrong unit makes.
    """
    if not probe.has("displacement", "velocity") or not (probe.has("time") or rate):
        return MotionCheck()
    found = agreement(probe.moving(rate))
    ratio = abs(found.scale)
    if abs(found.fit) < CHECK_FIT:
        lost = "displacement does not follow the recorded velocity: check that they are of one run and one clock"
        return MotionCheck(found, (lost,))
    if any(abs(ratio / slip - 1) < SLIP_NEAR for s in UNIT_SLIPS for slip in (s, 1 / s)):
        raise ReadError(
            f"displacement [{scales['displacement'].unit}] moves {ratio:.4g} times as far as velocity ["
            f"{scales['velocity'].unit}] says, so one unit is wrong",
            where=name,
            hint=f"give the right one with {_remedies(ratio, scales)}",
        )
    if abs(ratio - 1) > MOTION_AGREES:
        off = f"displacement moves {100 * (ratio - 1):+.1f} % against the integral of velocity"
        return MotionCheck(found, (f"velocity disagrees with displacement: {off}",))
    return MotionCheck(found)


def _remedies(ratio: float, scales: Mapping[str, ChannelScale]) -> str:
    """Return the options that each make displacement move as far as velocity says."""
    found = []
    for channel, power in (("time", 1), ("velocity", 1), ("displacement", -1)):
        now = scales[channel].scale.factor if channel in scales else np.inf
        fits = (
            u
            for u in CANDIDATES[channel]
            if abs(scale_of(u, KIND[channel]).factor / now / ratio**power - 1) < SLIP_NEAR
        )
        found += [f"--unit {channel}={unit}" for unit in fits]
    return " or ".join(found) or "--unit velocity=UNIT or --unit displacement=UNIT"
