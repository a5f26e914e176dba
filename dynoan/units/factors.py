"""Factors to SI, one table a kind of quantity.

1 in = 0.0254 m and 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959);
standard gravity 9.80665 m/s² exactly (3rd CGPM, 1901); see NIST SP 811, appendix B.8.
"""

from __future__ import annotations

import math

INCH = 0.0254
POUND = 0.45359237
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY
PSI = POUND_FORCE / INCH**2
ATMOSPHERE = 101325.0
ZERO_CELSIUS = 273.15

_FORCE = {
    "n": 1.0, "newton": 1.0, "newtons": 1.0, "kn": 1e3, "dan": 10.0,
    "lbf": POUND_FORCE, "lb": POUND_FORCE, "lbs": POUND_FORCE, "pound": POUND_FORCE, "pounds": POUND_FORCE,
    "lb*f": POUND_FORCE, "lb*force": POUND_FORCE, "lbsf": POUND_FORCE,
    "kip": 1e3 * POUND_FORCE, "kips": 1e3 * POUND_FORCE, "tonf": 2e3 * POUND_FORCE, "tf": 1e3 * GRAVITY,
    "gf": 1e-3 * GRAVITY, "kgf": GRAVITY, "kg": GRAVITY, "kp": GRAVITY,
}  # fmt: skip
_LENGTH = {
    "m": 1.0, "mm": 1e-3, "cm": 1e-2, "dm": 0.1, "µm": 1e-6, "um": 1e-6, "in": INCH, "inch": INCH, "inches": INCH,
    '"': INCH, "ft": 12 * INCH, "mil": 1e-3 * INCH, "mils": 1e-3 * INCH, "thou": 1e-3 * INCH, "thous": 1e-3 * INCH,
}  # fmt: skip
_TIME = {
    "s": 1.0, "sec": 1.0, "second": 1.0, "seconds": 1.0, "ms": 1e-3, "msec": 1e-3, "µs": 1e-6, "us": 1e-6, "ns": 1e-9,
    "min": 60.0, "h": 3600.0,
}  # fmt: skip
_PER_SECOND = ("s", "sec", "second")


def _per(top: dict[str, float], bottom: dict[str, float]) -> dict[str, float]:
    return {f"{a}/{b}": x / y for a, x in top.items() for b, y in bottom.items()}


def _only(table: dict[str, float], *names: str) -> dict[str, float]:
    return {name: table[name] for name in names}


_VELOCITY = (
    _per(_LENGTH, _only(_TIME, *_PER_SECOND, "min"))
    | {"ips": INCH, "fps": 12 * INCH, "fpm": 12 * INCH / 60, "mps": 1.0}
    | {"km/h": 1 / 3.6, "kmh": 1 / 3.6, "kph": 1 / 3.6, "mph": 63360 * INCH / 3600}
)  # fmt: skip
_STIFF = _per(
    _only(_FORCE, "n", "kn", "dan", "lbf", "lb", "lbs", "pound", "pounds", "kgf"),
    _only(_LENGTH, "m", "mm", "cm", "in", "inch", '"', "ft"),
)
#: springs in "9 kg/mm": kilograms of force, as everywhere a force is meant
_KILOGRAMS = _per(_only(_FORCE, "kg", "kp"), _only(_LENGTH, "mm", "cm"))
#: what a "300 lb spring" means in the trade: pounds an inch
_POUNDS = dict.fromkeys(("lb", "lbs", "pound", "pounds"), POUND_FORCE / INCH)
_FOOT_POUND = POUND_FORCE * 12 * INCH


def _times(tops: dict[str, float], others: dict[str, float]) -> dict[str, float]:
    """Return products in either order, as people write them: "lb ft" and "ft lb"."""
    return {text: x * y for a, x in tops.items() for b, y in others.items() for text in (f"{a}*{b}", f"{b}*{a}")}


_RUN_TOGETHER = dict.fromkeys(("ftlb", "ftlbs", "ftlbf", "lbft", "lbfft"), _FOOT_POUND)
_TORQUE = _times(_only(_FORCE, "n", "kn", "lbf", "lb"), _only(_LENGTH, "m", "ft", "in")) | {"nm": 1.0} | _RUN_TOGETHER
_SECONDS_SQUARED = _times(_only(_FORCE, "lbf", "lb"), {"ft*s2": 12 * INCH, "in*s2": INCH})

#: factor to SI by kind of quantity and unit in lower case, blanks and "·" written as "*"
FACTORS: dict[str, dict[str, float]] = {
    "force": _FORCE,
    "length": _LENGTH,
    "time": _TIME,
    "velocity": _VELOCITY,
    "mass": {"kg": 1.0, "g": 1e-3, "t": 1e3, "slug": POUND_FORCE / (12 * INCH)}
    | dict.fromkeys(("lb", "lbs", "lbm", "pound", "pounds"), POUND),
    "stiffness": _STIFF | _KILOGRAMS | _POUNDS,
    "damping": {f"{f}*s/{d}": v for k, v in _STIFF.items() for f, d in [k.split("/")]}
    | {f"{f}/{s}": v for k, v in _STIFF.items() for f, d in [k.split("/")] for s in (f"({d}/s)", f"{d}/s")}
    | {f"{f}/ips": _FORCE[f] / INCH for f in ("lb", "lbf")}
    | {f"ns/{d}": v for k, v in _STIFF.items() for f, d in [k.split("/")] if f == "n"},
    "pressure": {
        "pa": 1.0,
        "kpa": 1e3,
        "mpa": 1e6,
        "bar": 1e5,
        "mbar": 100.0,
        "psi": PSI,
        "psig": PSI,
        "lb/in2": PSI,
        "lbf/in2": PSI,
        **dict.fromkeys(("kgf/cm2", "kg/cm2", "kp/cm2"), 1e4 * GRAVITY),
    },
    "inertia": {"kg*m2": 1.0, "slug*ft2": POUND_FORCE * 12 * INCH}
    | {f"{m}*{d}": POUND * f**2 for m in ("lb", "lbm") for d, f in (("ft2", 12 * INCH), ("in2", INCH))}
    | _SECONDS_SQUARED,
    "acceleration": dict.fromkeys(("m/s2", "m/s/s", "m*s-2", "m*s^-2", "m*s⁻²"), 1.0)
    | {"ft/s2": 12 * INCH, "ft/s/s": 12 * INCH, "cm/s2": 0.01, "mg": 1e-3 * GRAVITY}
    | dict.fromkeys(("g", "gs", "g's"), GRAVITY),
    "torque": _TORQUE,
    "energy": {"j": 1.0, "kj": 1e3} | _times(_only(_FORCE, "lbf", "lb"), _only(_LENGTH, "ft", "in")) | _RUN_TOGETHER,
    "angle": {"rad": 1.0, "deg": math.pi / 180, "°": math.pi / 180},
    "frequency": {"hz": 1.0, "khz": 1e3, "1/s": 1.0, "s/s": 1.0, "rpm": 1 / 60, "r/min": 1 / 60, "1/min": 1 / 60},
    "ratio": {"%": 0.01, "percent": 0.01, "": 1.0},
}

#: the SI unit of each kind, as data names it
SI_UNITS = {
    "force": "N", "length": "m", "time": "s", "velocity": "m/s", "mass": "kg", "stiffness": "N/m", "damping": "N s/m",
    "pressure": "Pa", "inertia": "kg m2", "acceleration": "m/s2", "torque": "N m", "energy": "J", "angle": "rad",
    "frequency": "Hz", "ratio": "",
}  # fmt: skip
