"""Whether displacement and velocity agree: units that contradict the motion are refused."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from dynoan.errors import ReadError
from importers.assumptions.channels import CHECK_FIT, MOTION_AGREES, SLIP_NEAR, UNIT_SLIPS
from importers.channels.agreement import Agreement, agreement
from importers.channels.probe import Probe
from importers.channels.unit_inference import ChannelScale


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
            hint="give --unit velocity=… or --unit displacement=… with the unit it is",
        )
    if abs(ratio - 1) > MOTION_AGREES:
        off = f"displacement moves {100 * (ratio - 1):+.1f} % against the integral of velocity"
        return MotionCheck(found, (f"velocity disagrees with displacement: {off}",))
    return MotionCheck(found)
