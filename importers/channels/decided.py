"""What the channels of a sweep are, once decided."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import ChannelDecision


class ForceLead(NamedTuple):
    """Which way the force of a trace counts, and how that is known."""

    sign: int  #: 1 where compression is positive in the file
    by: str  #: stated, gas or assumed


class SweepChannels(NamedTuple):
    """The channels of one sweep, in SI, positive in compression."""

    values: Mapping[str, FloatArray]  #: by channel, shape (samples,) [SI; °C]
    decisions: Mapping[str, ChannelDecision]
    rate: float | None = None  #: [Hz]
    warnings: tuple[str, ...] = ()
    lead: ForceLead | None = None  #: None in a peak table
    directed: bool = False  #: whether the file names the direction of each force, so that none is to be stated
