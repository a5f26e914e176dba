"""The keys of a car file, what kind each is and what could stand there; how a value is written."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dynoan.model.car import AXLES, CORNERS
from dynoan.model.links import MEMBERS, STOPS

TOP = ("wheelbase", "cg_height", "driven", "pitch_inertia", "roll_inertia", "wheel_radius", "front_drive",
        "antisquat", "instant_centre", "wheel_inertia", "axle_ratio", "wheelie_bar", "engine", "links", *AXLES,
        *CORNERS, "targets", "surfaces")  # fmt: skip
#: what a corner or, for both its corners, an axle may state: quantities, numbers, texts
QUANTITIES = {"mass": "mass", "unsprung": "mass", "spring": "stiffness", "tyre": "stiffness",
              "bump_travel": "length", "droop_travel": "length", "gas_rate": "stiffness"}  # fmt: skip
NUMBERS = ("spring_ratio", "shock_ratio")
TEXTS = ("shock", "pack", "clicks")
CORNER = ("mass", "unsprung", "spring", *NUMBERS, "tyre", "bump_travel", "droop_travel", "gas_rate", *TEXTS)
#: what an axle may state besides, with its kind of quantity
OF_AXLE = {"anti_roll": "stiffness", "tyre_damping": "damping", "friction": "force", "stop_rate": "stiffness",
           "anti_lift": "ratio"}  # fmt: skip
#: kinds of all keys that are quantities; others are plain numbers
KINDS: Mapping[str, str] = {
    **QUANTITIES, **OF_AXLE,
    **dict.fromkeys(("wheelbase", "cg_height", "wheel_radius", "track", "behind", "above"), "length"),
    **dict.fromkeys(("pitch_inertia", "roll_inertia", "wheel_inertia"), "inertia"), "axle_mass": "mass",
    **dict.fromkeys(("antisquat", "front_drive"), "ratio"), "rate": "stiffness",
    **dict.fromkeys(("low_velocity", "high_velocity"), "velocity"),
}  # fmt: skip
#: keys that a corner must have, each with what could stand there; in US units beside it
NEEDED = {"mass": ('"268 kg"', '"590 lb"'), "unsprung": ('"34 kg"', '"75 lb"'), "spring": ('"45 N/mm"', '"260 lb/in"'),
           "spring_ratio": ("0.95", "0.95"), "shock_ratio": ("0.92", "0.92")}  # fmt: skip
#: what else could stand at a key than any quantity of its kind, in metric and in US units
LIKE = {"cg_height": ("510 mm", "20 in"), "wheel_radius": ("300 mm", "12 in"), "track": ("1480 mm", "58 in"),
        "bump_travel": ("75 mm", "3 in"), "droop_travel": ("85 mm", "3.3 in"), "tyre": ("210 N/mm", "1200 lb/in"),
        "gas_rate": ("2 N/mm", "11 lb/in")}  # fmt: skip
#: what could stand at a key, where a reading is to go on after a fault
STAND_INS: Mapping[str, Any] = {"mass": "268 kg", "axle_mass": "536 kg", "unsprung": "34 kg",
                                "spring": "45 N/mm", "spring_ratio": 0.95,
                                "shock_ratio": 0.92, "grip": 0.8}  # fmt: skip
#: where keys stand that people look for at the top of the file
STANDS: Mapping[str, str] = {
    **dict.fromkeys(CORNER, "under a corner, such as [fl], or under [front] and [rear] for both wheels"),
    **dict.fromkeys((*OF_AXLE, *STOPS, "track", "axle_mass"), "under [front] and [rear]"),
    **dict.fromkeys((*MEMBERS, "holes"), "under [links]"),
    **dict.fromkeys(("grip", "roughness", "sliding_grip", "slip_stiffness", "load_sensitivity"),
                    "under a surface, such as [surfaces.loose]"),
    "torque": "under [links], where it says what holds the driving torque, or under [engine]",
    **dict.fromkeys(("ratio", "limit", "inertia"), "under [engine]"),
}  # fmt: skip
#: the unit that a kind of quantity is written in, with its size in SI
UNITS: Mapping[str, tuple[str, float]] = {
    "length": ("mm", 1e-3), "mass": ("kg", 1.0), "stiffness": ("N/mm", 1e3), "inertia": ("kg m2", 1.0),
    "damping": ("N s/m", 1.0), "force": ("N", 1.0), "ratio": ("%", 0.01),
}  # fmt: skip
MILLIMETRES = UNITS["length"]


def written(value: float, unit: str, factor: float) -> str:
    """Return an SI value as text in a unit of so much SI; reading it gives the same value."""
    return f"{value / factor:.12g} {unit}"
