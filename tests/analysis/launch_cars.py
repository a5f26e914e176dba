"""A made-up car for the launch tests: rear-driven, 1010 kg."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from dynoan.analysis.launch.compare import car_damping
from dynoan.analysis.launch.hinges import AxleDamping
from dynoan.model.car import Car, Corner, Surface
from dynoan.model.curve import Curve
from dynoan.model.side import Side
from tests.made import made_curve

FLAT = Surface("flat", 0.9)
ROUGH = Surface("rough", 0.65, 1024e-6)


def corner(name: str, mass: float = 237.0, **other: Any) -> Corner:
    front = name[0] == "f"
    body: dict[str, Any] = {
        "name": name, "mass": mass, "unsprung": 34.0, "spring": 45e3 if front else 42e3, "spring_ratio": 0.95,
        "shock_ratio": 0.92, "tyre": 210e3, "bump_travel": 0.09, "droop_travel": 0.10,
    }  # fmt: skip
    return Corner(**(body | other))


def kestrel(corners: dict[str, Any] | None = None, **other: Any) -> Car:
    masses = {"fl": 268.0, "fr": 268.0, "rl": 237.0, "rr": 237.0}
    body: dict[str, Any] = {"wheelbase": 2.43, "cg_height": 0.51, "driven": "rear", "antisquat": 0.6,
                            "file": "cars/kestrel.toml"}  # fmt: skip
    made = {name: corner(name, **({"mass": mass} | (corners or {}))) for name, mass in masses.items()}
    return Car("Kestrel", made, **(body | other))


def curves(car: Car, **clicks: int) -> dict[str, Curve]:
    return {name: made_curve("gravel", **clicks) for name in car.corners}


def damping(car: Car, **clicks: int) -> tuple[AxleDamping, AxleDamping]:
    return car_damping(car, curves(car, **clicks))


def linear_curve(coefficient: float, top: float = 1.0) -> Curve:
    speeds = np.linspace(0.0, top, 21)
    side = Side((), (), speeds, coefficient * speeds, coefficient * speeds, top, forces=coefficient * speeds)
    return Curve(side, side)


def linear(car: Car, coefficient: float) -> tuple[AxleDamping, AxleDamping]:
    curve = linear_curve(coefficient)
    return car_damping(car, dict.fromkeys(car.corners, curve))


def without_stops(car: Car) -> Car:
    made = {n: replace(c, bump_travel=None, droop_travel=None) for n, c in car.corners.items()}
    return replace(car, corners=made)
