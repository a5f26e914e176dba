"""Where to begin when a team has no target ratios: aims in plain words."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class StartingAim:
    """Damping ratios to begin with, at the low and high velocity of the shock. Common practice, no source."""

    name: str
    words: str
    compression: tuple[float, float]
    rebound: tuple[float, float]


#: softer keeps the tyre on rough ground, stiffer holds the body; rebound above compression. Common practice, no source:
#: they decide nothing but what is offered to a team that has no targets of its own.
STARTING_AIMS = (
    StartingAim("rough", "Keep the tyres on rough, loose ground", (0.30, 0.20), (0.45, 0.30)),
    StartingAim("all-round", "A bit of everything", (0.40, 0.28), (0.60, 0.40)),
    StartingAim("smooth", "Hold the body still on smooth, sticky ground", (0.50, 0.32), (0.75, 0.50)),
)
