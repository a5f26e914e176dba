"""The rows of one sweep to channels in SI, positive in compression.

In goes a `SweepPart`. Out come `SweepChannels`: arrays in SI, how each column became one (unit, sign, evidence), the
sample rate, and warnings; or a refusal with the option that helps. A trace goes units -> refusals -> rate -> signs ->
doubts; a peak table units -> signs. Called by `sweeps`.
"""

from importers.channels.decided import ForceLead, SweepChannels
from importers.channels.peaks import peak_channels
from importers.channels.trace import trace_channels

__all__ = ["ForceLead", "SweepChannels", "peak_channels", "trace_channels"]
