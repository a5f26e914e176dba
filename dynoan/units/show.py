"""SI to text with a unit, metric or US."""

from __future__ import annotations

import math
from dataclasses import dataclass

from dynoan.units.examples import Shown
from dynoan.units.factors import INCH, POUND, POUND_FORCE, PSI

#: a band leans where its sides differ by more than this share of its half width [1]; judged
LEANS = 0.2


@dataclass(frozen=True)
class Display:
    """How one kind of quantity is shown: `value_si / factor` with `unit`, to `digits` places."""

    unit: str
    factor: float
    digits: int

    def number(self, si: float) -> float:
        """Return an SI value in this unit."""
        return si / self.factor

    def text(self, si: float, *, unit: bool = True) -> str:
        """Return an SI value as text, with the unit unless told otherwise."""
        if si != si:
            return "–"
        body = f"{si / self.factor:.{self.digits}f}"
        body = body[1:] if float(body) == 0 and body.startswith("-") else body
        return f"{body} {self.unit}" if unit else body

    def band(self, more: float, less: float, digits: int | None = None) -> str:
        """Return how far a band reaches above and below (SI) as text without a unit: one half width, or both sides.

        `digits` are places after the point where not those of its kind.
        """
        if more + less != more + less:
            return "–"
        places = self.digits if digits is None else digits
        if abs(more - less) <= LEANS * 0.5 * (more + less):
            return f"± {0.5 * (more + less) / self.factor:.{places}f}"
        return f"+ {more / self.factor:.{places}f} − {less / self.factor:.{places}f}"


_SHOWN: dict[str, dict[str, Display]] = {
    "metric": {
        "force": Display("N", 1.0, 0),
        "velocity": Display("mm/s", 1e-3, 0),
        "length": Display("mm", 1e-3, 1),
        "stiffness": Display("N/mm", 1e3, 1),
        "damping": Display("N s/m", 1.0, 0),
        "mass": Display("kg", 1.0, 1),
        "pressure": Display("bar", 1e5, 1),
        "energy": Display("J", 1.0, 1),
        "angle": Display("°", math.pi / 180, 2),
        "rotation": Display("°/s", math.pi / 180, 1),
        "acceleration": Display("m/s²", 1.0, 2),
        "inertia": Display("kg m²", 1.0, 0),
        "torque": Display("N m", 1.0, 0),
        "far": Display("m", 1.0, 2),
        "speed": Display("km/h", 1 / 3.6, 1),
    },
    "us": {
        "force": Display("lbf", POUND_FORCE, 1),
        "velocity": Display("in/s", INCH, 1),
        "length": Display("in", INCH, 2),
        "stiffness": Display("lb/in", POUND_FORCE / INCH, 0),
        "damping": Display("lbf s/in", POUND_FORCE / INCH, 2),
        "mass": Display("lb", POUND, 0),
        "pressure": Display("psi", PSI, 0),
        "energy": Display("ft lbf", POUND_FORCE * 12 * INCH, 1),
        "angle": Display("°", math.pi / 180, 2),
        "rotation": Display("°/s", math.pi / 180, 1),
        "acceleration": Display("ft/s²", 12 * INCH, 1),
        "inertia": Display("lb ft²", POUND * (12 * INCH) ** 2, 0),
        "torque": Display("lb ft", POUND_FORCE * 12 * INCH, 0),
        "far": Display("ft", 12 * INCH, 1),
        "speed": Display("mph", 63360 * INCH / 3600, 1),
    },
}


def shown(kind: str, units: Shown = "metric") -> Display:
    """Return how a kind of quantity is shown to people in metric or US units."""
    return _SHOWN[units][kind]


def degrees(celsius: float, units: Shown = "metric", *, unit: bool = True) -> str:
    """Return a temperature as people read it, such as "40 °C" or "104 °F"; a dash where it is not a number.

    >>> degrees(40.0, "us"), degrees(40.0, unit=False)
    ('104 °F', '40')
    """
    if celsius != celsius:
        return "–"
    value = celsius if units == "metric" else celsius * 1.8 + 32.0
    return f"{value:.0f}{f' {degree_unit(units)}' if unit else ''}"


def degree_unit(units: Shown = "metric") -> str:
    """Return the unit that temperatures are shown in."""
    return "°C" if units == "metric" else "°F"
