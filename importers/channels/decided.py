"""What the channels of a sweep are, once decided."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from dynoan.model.arrays import FloatArray
from dynoan.model.sweep import ChannelDecision


class SweepChannels(NamedTuple):
    """The channels of one sweep, in SI, positive in compression."""

    values: Mapping[str, FloatArray]  #: by channel, shape (samples,) [SI; °C]
    decisions: Mapping[str, ChannelDecision]
    rate: float | None = None  #: [Hz]
    warnings: tuple[str, ...] = ()
