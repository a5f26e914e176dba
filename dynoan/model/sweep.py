"""One recorded dyno run, as an importer understood it."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Literal

from dynoan.model.arrays import FloatArray

Layout = Literal["trace", "peaks"]

#: the channels a sweep may hold, and the kind of quantity of each
CHANNEL_KINDS = {
    "time": "time", "displacement": "length", "velocity": "velocity", "force": "force",
    "temperature": "temperature", "pressure": "pressure",
}  # fmt: skip


@dataclass(frozen=True)
class ChannelDecision:
    """How one column became one channel."""

    column: str  #: the column's name as it stood, or how the channel was derived
    unit: str  #: the unit as understood, empty where derived
    sign: int = 1  #: -1 where the file counts the other way
    evidence: str = ""  #: why, in words


@dataclass(frozen=True)
class Source:
    """Where a sweep came from."""

    name: str  #: file name, without folders
    sha256: str  #: of the original bytes
    importer: str = ""  #: the layout that read it
    part: str = ""  #: which part of the file, where it holds several sweeps


@dataclass(frozen=True)
class Sweep:
    """One dyno run of one shock in one setting. SI, positive in compression; temperatures in °C.

    A **trace** holds samples in time: "force" and "displacement" or "velocity" or both, and "time" where it is known.
    A **peak table** holds "velocity" and "force", signed, one row a velocity and direction.
    All channels have the same length; missing samples are NaN.
    """

    layout: Layout
    channels: Mapping[str, FloatArray]
    source: Source
    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)
    date: str | None = None  #: ISO 8601
    temperature: float | None = None  #: stated for the run [°C]
    gas_pressure: float | None = None  #: stated, gauge [Pa]
    rod: float | None = None  #: diameter of the rod, stated [m]
    stroke: float | None = None  #: stated [m]
    rate: float | None = None  #: samples per second [Hz]; None for a peak table or unknown
    gas_removed: bool | None = None  #: True where the file says gas force was taken out; None where it says nothing
    decisions: Mapping[str, ChannelDecision] = field(default_factory=dict)
    facts: Mapping[str, str] = field(default_factory=dict)  #: preamble lines as they stood
    warnings: tuple[str, ...] = ()
    #: "from closed" or "from soft", by adjuster, where the file says which; what keeps the sweep heeds it, and drops it
    counted: Mapping[str, str] = field(default_factory=dict)

    @property
    def samples(self) -> int:
        """Number of rows."""
        return len(self.channels["force"])

    @property
    def in_pounds(self) -> bool:
        """Whether its file gives force in pounds."""
        decided = self.decisions.get("force")
        return decided is not None and re.search(r"(?i)\b(?:lb|lbs|lbf|pounds?)\b", decided.unit) is not None

    @property
    def setting_text(self) -> str:
        """Shock, pack and clicks in one line for people."""
        clicks = ",".join(f"{k}={v}" for k, v in self.clicks.items())
        return " ".join(filter(None, (self.shock, self.pack, clicks))) or self.source.name


def units_of(sweeps: Collection[Sweep]) -> Literal["metric", "us"] | None:
    """Return the units in which the files of some sweeps are: US where all give force in pounds; None of no sweeps."""
    return None if not sweeps else "us" if all(sweep.in_pounds for sweep in sweeps) else "metric"
