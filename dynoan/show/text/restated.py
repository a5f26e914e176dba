"""Findings, notes and warnings in the units people are shown.

What is found is told in words where it is found, in metric units; quantities in that text are turned into US units
here, in one place, as exactly as they were told. What stands in quotes is left alone, since somebody wrote it so, but
for a value that is to be written ('spring = "45 N/mm"') and for examples ("write it like '45 N/mm'"). A bare "m" or
"J" is no unit here: what is told in words has none, and what people write themselves has ("30 m of gravel").
"""

from __future__ import annotations

import math
import re

from dynoan.units import EXAMPLES, FACTORS, Display, Shown, degrees, shown

#: what stands before a value that is to be written
_ASKED = r"(?:= |--[a-z-]+ )$"
NEAR = 0.03  #: a number that rounding would move by more is told with one digit more
#: an example of how a quantity is written stands in quotes, and is the tool's own word
_EXAMPLE = r"\blike '([^']+)'"
_US_EXAMPLES = dict(EXAMPLES.values())
_NUMBER = r"[-+−±]?\d+(?:\.\d+)?(?:e[-+]?\d+)?"
#: metric unit as it is written in texts, and the kind of quantity it is of
_KINDS = {
    "mm/s": "velocity", "m/s": "velocity", "N/mm": "stiffness", "N/m": "stiffness", "N s/m": "damping",
    "N s/mm": "damping", "mm": "length", "cm": "length", "N": "force", "kN": "force", "kg": "mass", "kg m2": "inertia",
    "kg m²": "inertia", "bar": "pressure", "m/s²": "acceleration", "m/s2": "acceleration", "N m": "torque",
    "km/h": "speed", "°C": "temperature",
}  # fmt: skip
_UNITS = "|".join(re.escape(unit) for unit in sorted(_KINDS, key=len, reverse=True))
_BETWEEN = r"(?:\s*(?:,|to|and|or|–|…|±|\.\.)\s*(?:±\s*)?)"
#: numbers that share a unit, the unit, and what follows in brackets in the same unit
_QUANTITY = (
    rf"(?P<quoted>'[^']*'|\"[^\"]*\")|(?P<numbers>(?<![\w.])(?<!\w-){_NUMBER}(?:{_BETWEEN}{_NUMBER})*)[ \u00a0]?"
    rf"(?P<unit>{_UNITS})(?![\w/²*·]| m[2²]| s/m)(?P<after> \((?:±\s*)?{_NUMBER}(?: to {_NUMBER})?\))?"
    rf"(?P<apart> (?:apart|warmer|cooler|hotter|colder))?"
)


def restated(text: str, units: Shown) -> str:
    """Return a text with its metric quantities in the units people are shown.

    >>> restated("79 N more at 50 and 250 mm/s (spring = \\"45 N/mm\\")", "us")
    '17.8 lbf more at 2.0 and 9.8 in/s (spring = "257 lb/in")'
    >>> restated("'in' is no unit of velocity; write it like '50 mm/s'", "us")
    "'in' is no unit of velocity; write it like '2 in/s'"
    """
    return text if units == "metric" else re.sub(_QUANTITY, _turned, re.sub(_EXAMPLE, _like, text))


def _like(match: re.Match[str]) -> str:
    """Return an example of how a quantity is written, as it is written in US units."""
    return f"like '{_US_EXAMPLES.get(match[1], match[1])}'"


def _turned(match: re.Match[str]) -> str:
    if match["quoted"]:
        to_write = match[0].startswith('"') and re.search(_ASKED, match.string[: match.start()])
        return f'"{re.sub(_QUANTITY, _turned, match[0][1:-1])}"' if to_write else match[0]
    kind, unit = _KINDS[match["unit"]], match["unit"]
    if kind == "temperature":
        return _temperature(match)
    to = shown(kind, "us")
    from_si = FACTORS[kind if kind in FACTORS else "velocity"][_spelled(unit)]
    numbers, after = (_numbers(match[part] or "", from_si, to) for part in ("numbers", "after"))
    return f"{numbers} {to.unit}{after}{match['apart'] or ''}"


def _spelled(unit: str) -> str:
    return unit.lower().replace(" ", "*").replace("²", "2")


def _numbers(text: str, from_si: float, to: Display) -> str:
    return re.sub(_NUMBER, lambda n: _number(n[0], from_si, to), text)


def _number(text: str, from_si: float, to: Display) -> str:
    """Return a number in another unit, to about the step it was told in."""
    sign = text[0] if text[0] in "+−±" else ""
    value = float(text[len(sign) :].replace("−", "-")) * from_si / to.factor
    places = len(text.partition(".")[2]) if "e" not in text else 0
    step = 10.0**-places * from_si / to.factor
    digits = max(0, min(6, math.ceil(-math.log10(step) - 0.5)))
    if abs(round(value, digits) - value) > NEAR * abs(value):
        digits += 1
    return f"{sign}{value:.{digits}f}"


def _temperature(match: re.Match[str]) -> str:
    spread = match["apart"] is not None or match.string[: match.start()].endswith("per ")
    turned = (lambda c: c * 1.8) if spread else (lambda c: float(degrees(c, "us", unit=False)))
    numbers = re.sub(_NUMBER, lambda n: f"{turned(float(n[0].replace('−', '-'))):.0f}", match["numbers"])
    return f"{numbers} °F{match['after'] or ''}{match['apart'] or ''}"
