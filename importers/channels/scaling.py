"""A trace's columns to SI: units as stated, or as the motion leaves no doubt, or a question to the user."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from dynoan.model.assumptions import CHANGES
from importers.assumptions.channels import RATE_LOOK
from importers.channels.agreement import Agreement
from importers.channels.clock_steps import judged_steps, retimed
from importers.channels.motion_check import check_motion
from importers.channels.probe import Probe
from importers.channels.unit_inference import ChannelScale, inferred_unit
from importers.channels.units import EXAMPLE, unit_hint, unit_of
from importers.parts import SweepPart

_BESIDE = ("temperature", "pressure")  #: channels that a curve does without


class ScaledChannels(NamedTuple):
    """How the columns of a trace become SI, and what they then say of one another."""

    probe: Probe  #: in SI, as the file counts
    scales: Mapping[str, ChannelScale]  #: by channel
    warnings: tuple[str, ...] = ()
    agreed: Agreement | None = None  #: displacement against velocity, where both and the time are there
    whole: bool = False  #: whether the probe is the record itself, sample by sample


def scale_channels(part: SweepPart, raw: Mapping[str, FloatArray], rate: float | None) -> ScaledChannels:
    """Return how a trace's channels become SI.

    Parameters
    ----------
    part
        The trace.
    raw
        Its numbers as they stand, by channel, each of shape (samples,).
    rate
        The stated sample rate, where there is no time column. [Hz]

    Raises
    ------
    ReadError
        If a unit is unknown, or missing and nothing tells it, or two units contradict the motion.
    """
    looked_at = _at_one_rate(raw)
    probe = Probe.of(looked_at)
    scales: dict[str, ChannelScale] = {}
    missing, warnings = [], []
    for channel in raw:
        found = unit_of(part, channel, part.roles.channels[channel])
        warnings += [found.warning] if found.warning else []
        if found.unit:
            scales[channel] = ChannelScale.of(channel, found.unit, found.why)
        else:
            missing.append(channel)
    # Time comes last: its unit is judged by the motion that the others give.
    unknown: list[str] = []
    for channel in sorted(missing, key=lambda c: c == "time"):
        if channel in _BESIDE:
            hint = f"--unit {channel}=UNIT would keep it, such as {EXAMPLE[channel]}"
            warnings.append(f"{channel} has no unit and was left out; {hint}")
        elif (only := inferred_unit(channel, probe, scales, rate)) is not None:
            scales[channel] = only
        elif channel != "time" or not unknown:
            unknown.append(channel)
    if unknown:
        raise _unitless(part, unknown)
    scaled = probe.scaled({c: s.scale for c, s in scales.items()})
    check = check_motion(scaled, scales, rate, part.name)
    whole = looked_at is raw and len(probe.stretches) == 1
    return ScaledChannels(scaled, scales, (*warnings, *check.warnings), check.agreed, whole)


def _at_one_rate(raw: Mapping[str, FloatArray]) -> Mapping[str, FloatArray]:
    """Return a record as if sampled at one rate, for what it tells; itself where it is, as nearly all are."""
    if "time" not in raw:
        return raw
    look = np.diff(raw["time"][:: max(1, len(raw["time"]) // RATE_LOOK)])
    if not len(look) or not float(look.min()) < CHANGES * float(look.max()):
        return raw
    return retimed(raw, judged_steps(raw["time"]))


def _unitless(part: SweepPart, channels: Sequence[str]) -> ReadError:
    """Return the refusal of channels without a unit, all of them at once."""
    names = [part.roles.channels[c].text or str(part.roles.channels[c].index + 1) for c in channels]
    columns = f"column{'s' if len(names) > 1 else ''} " + " and ".join(f"'{name}'" for name in names)
    if len(channels) == 1:
        said, hint = f"{channels[0]} has no unit and nothing tells it", unit_hint(channels[0], names[0])
    else:
        said = f"{' and '.join(channels)}: each has no unit and nothing tells it"
        such = ", ".join(EXAMPLE[c] for c in channels)
        hint = f"give {' '.join(f'--unit {c}=UNIT' for c in channels)} with the units they are, such as {such}"
    return ReadError(said, where=f"{part.name}, {columns}", hint=hint)
