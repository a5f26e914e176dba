"""Shocks, their adjusters, and settings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from dynoan.errors import CallError, QuantityError

Counted = Literal["from closed", "from soft"]

#: what each adjuster's name means
ADJUSTERS = {
    "lsc": "low-speed compression", "hsc": "high-speed compression",
    "lsr": "low-speed rebound", "hsr": "high-speed rebound",
    "c": "compression", "r": "rebound", "cr": "compression and rebound together",
}  # fmt: skip
#: the directions an adjuster is meant to act on
ACTS_ON = {
    "lsc": ("compression",), "hsc": ("compression",), "lsr": ("rebound",), "hsr": ("rebound",),
    "c": ("compression",), "r": ("rebound",), "cr": ("compression", "rebound"),
}  # fmt: skip


@dataclass(frozen=True)
class Adjuster:
    """A knob or screw of a shock."""

    name: str
    clicks: int  #: the last position; positions run 0 to `clicks`
    counted: Counted = "from closed"

    def from_closed(self, click: int) -> int:
        """Return a click, counted as this adjuster counts, as clicks from fully closed. Its own inverse."""
        return click if self.counted == "from closed" else self.clicks - click


@dataclass(frozen=True)
class Setting:
    """A pack and the clicks of all adjusters, as the shock's file counts them."""

    pack: str
    clicks: Mapping[str, int] = field(default_factory=dict)

    def __str__(self) -> str:
        return f"{self.pack}@{clicks_text(self.clicks)}" if self.clicks else self.pack


@dataclass(frozen=True)
class Shock:
    """One damper, by the name the team gives it."""

    name: str
    adjusters: tuple[Adjuster, ...] = ()
    rod_diameter: float | None = None  #: [m]
    piston_diameter: float | None = None  #: [m]
    stroke: float | None = None  #: [m]
    gas_pressure: float | None = None  #: gauge [Pa]
    #: False where no shock file states the adjusters and they were taken from the tested clicks
    stated: bool = True

    def adjuster(self, name: str) -> Adjuster:
        """Return the adjuster of that name.

        Raises
        ------
        CallError
            If this shock has none.
        """
        for adjuster in self.adjusters:
            if adjuster.name == name:
                return adjuster
        have = ", ".join(a.name for a in self.adjusters) or "none"
        raise CallError(f"shock {self.name} has no adjuster '{name}'; it has {have}")

    def from_closed(self, clicks: Mapping[str, int]) -> dict[str, int]:
        """Return clicks as this shock counts them as clicks from closed, or the other way (its own inverse)."""
        return {name: self.adjuster(name).from_closed(click) for name, click in clicks.items()}

    def check(self, clicks: Mapping[str, int]) -> None:
        """Raise `QuantityError` where a click lies outside its adjuster."""
        for name, click in clicks.items():
            last = self.adjuster(name).clicks
            if not 0 <= click <= last:
                raise QuantityError(f"{name}={click} is outside the clicks of shock {self.name}: 0 to {last}")


def clicks_text(clicks: Mapping[str, int]) -> str:
    """Return clicks as people type them, such as "lsc=6,lsr=8"."""
    return ",".join(f"{name}={click}" for name, click in clicks.items())


def parse_clicks(text: str, *, where: str = "--clicks") -> dict[str, int]:
    """Return the clicks in text such as "lsc=6,lsr=8".

    Raises
    ------
    CallError
        If a part is not an adjuster's name, an equals sign and a whole number.
    """
    clicks: dict[str, int] = {}
    for part in filter(None, (p.strip() for p in text.replace(";", ",").split(","))):
        name, equals, number = (p.strip().lower() for p in part.partition("="))
        if not equals or name not in ADJUSTERS or not number.isascii() or not number.isdigit() or len(number) > 3:
            known = ", ".join(ADJUSTERS)
            raise CallError(f"{where}: '{part}' is not like lsc=6 (adjusters: {known}; whole clicks 0 to 999)")
        if name in clicks:
            raise CallError(f"{where}: '{name}' stands twice in '{text}'")
        clicks[name] = int(number)
    return clicks
