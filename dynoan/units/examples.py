"""How quantities of each kind are written, in the units of the library at hand."""

from __future__ import annotations

from contextvars import ContextVar
from typing import Literal

Shown = Literal["metric", "us"]

#: the form shown when a unit is missing or unknown, metric and US
EXAMPLES = {
    "force": ("850 N", "190 lbf"), "length": ("2430 mm", "95.7 in"), "time": ("3 s", "3 s"),
    "velocity": ("50 mm/s", "2 in/s"), "mass": ("268 kg", "590 lb"), "stiffness": ("45 N/mm", "260 lb/in"),
    "damping": ("3500 N s/m", "20 lbf s/in"), "pressure": ("10 bar", "145 psi"),
    "inertia": ("1150 kg m2", "27300 lb ft2"), "acceleration": ("5 m/s2", "16 ft/s2"),
    "torque": ("240 N m", "180 lb ft"), "energy": ("12 J", "9 ft lbf"), "angle": ("15 deg", "15 deg"),
    "frequency": ("1000 Hz", "1000 Hz"), "ratio": ("60 %", "60 %"), "temperature": ("45 °C", "110 °F"),
}  # fmt: skip
#: the units that examples in errors are written in: those of the library at hand
HINTED: ContextVar[Shown] = ContextVar("hinted", default="metric")


def example(kind: str) -> str:
    """Return how a kind of quantity is written, such as '45 N/mm', in the units of the library at hand."""
    return EXAMPLES[kind][HINTED.get() == "us"]
