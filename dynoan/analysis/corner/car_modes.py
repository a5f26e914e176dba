"""Natural modes of the linearised half and full car.

The car is a rigid body on four springs and dampers, each on a wheel's mass on a tyre: seven coordinates, heave z and
wheels up, pitch nose down, roll left up, all from rest. The half car is the same with left and right held together.
Anti-roll bars, damping of the tyres and gyroscopic moments are left out. Source: S. S. Rao, *Mechanical Vibrations*,
systems of several degrees of freedom.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import permutations

import numpy as np

from dynoan.analysis.corner.assumptions import ROLL_ARM, ROLL_GYRATION, USUAL_TRACK
from dynoan.analysis.corner.modes import Mode, modes
from dynoan.analysis.corner.vibration import series_rate
from dynoan.analysis.inertia import estimated_pitch_inertia
from dynoan.errors import Lacking
from dynoan.model.arrays import FloatArray
from dynoan.model.car import CORNERS, Car, axle_of


@dataclass(frozen=True)
class SprungBody:
    """The sprung mass on its corners. Positions from its centre of gravity: ahead and to the left."""

    mass: float  #: [kg]
    pitch_inertia: float  #: [kg m²]
    roll_inertia: float  #: [kg m²]
    ahead: Mapping[str, float]  #: by corner [m]
    left: Mapping[str, float]  #: by corner [m]
    estimated: tuple[str, ...]  #: what the car's file did not say, in words


def body(car: Car) -> SprungBody:
    """Return the sprung mass of a car with four corners and a wheelbase.

    Parameters
    ----------
    car
        Without `pitch_inertia` it is `estimated_pitch_inertia`; without `roll_inertia` estimated from the track
        (`ROLL_GYRATION`), without `track` from `USUAL_TRACK`: the roll frequency does not depend on a track that is
        wrong in both.

    Raises
    ------
    Lacking
        If a corner or the wheelbase is missing; it names the key.
    """
    missing = [name for name in CORNERS if name not in car.corners]
    if missing or car.wheelbase is None:
        key = f"[{missing[0]}]" if missing else "wheelbase"
        raise Lacking(
            f"{key} is missing", where=car.file or car.name, hint="the swings of the whole car (its modes) need it"
        )
    sprung = {name: car.corners[name].sprung for name in CORNERS}
    total = sum(sprung.values())
    front = car.wheelbase * (sprung["rl"] + sprung["rr"]) / total
    track = {axle: car.track.get(axle, USUAL_TRACK) for axle in ("front", "rear")}
    across = {n: (1 if n[1] == "l" else -1) * track[axle_of(n)] / 2 for n in CORNERS}
    middle = sum(sprung[n] * across[n] for n in CORNERS) / total
    pitch = car.pitch_inertia or estimated_pitch_inertia(
        front=sprung["fl"] + sprung["fr"], rear=sprung["rl"] + sprung["rr"], wheelbase=car.wheelbase
    )
    half_track = (track["front"] + track["rear"]) / 2 / 2
    roll = car.roll_inertia or total * (ROLL_GYRATION * half_track) ** 2
    return SprungBody(
        mass=total,
        pitch_inertia=pitch,
        roll_inertia=roll,
        ahead={n: front - (car.wheelbase if n[0] == "r" else 0.0) for n in CORNERS},
        left={n: across[n] - middle for n in CORNERS},
        estimated=tuple(_estimates(car)),
    )


def _estimates(car: Car) -> list[str]:
    said = []
    if car.pitch_inertia is None:
        said.append("pitch_inertia is estimated as if the sprung mass sat over the two axles")
    if car.roll_inertia is None:
        said.append(
            "roll_inertia is estimated from the track"
            + ("" if car.track else f", the track as {1000 * USUAL_TRACK:.0f} mm")
        )
    return said


@dataclass(frozen=True)
class CarModes:
    """Modes of the linearised car, and what the simple formulas say."""

    half: Mapping[str, Mode]  #: "heave", "pitch", "front hop", "rear hop"
    full: Mapping[str, Mode]  #: "heave", "pitch", "roll", and of each axle "hop" (together) and "tramp" (opposed)
    simple: Mapping[str, float]  #: the same names, uncoupled formulas [Hz]
    spring_centre: float  #: where spring and tyre would balance the body, ahead of its centre of gravity [m]
    estimated: tuple[str, ...]  #: what the car's file did not say, in words


#: what the wheels do in each mode of the half and of the full car, over fl, fr, rl, rr
HALF_HOPS = {"front hop": (1, 0), "rear hop": (0, 1)}


FULL_HOPS = {
    "front hop": (1, 1, 0, 0), "front tramp": (1, -1, 0, 0), "rear hop": (0, 0, 1, 1), "rear tramp": (0, 0, 1, -1),
}  # fmt: skip


def car_modes(car: Car, at_wheel: Mapping[str, float]) -> CarModes:
    """Return the modes of the half and the full car.

    Parameters
    ----------
    car
        Four corners with tyre rates, and a wheelbase.
    at_wheel
        Linear damping coefficient at each wheel, by corner; a missing corner is undamped. [N·s/m]

    Returns
    -------
    :
        Four modes of the half car and seven of the full one, by name: each is named after the motion it holds most of.

    Raises
    ------
    Lacking
        If a corner, a tyre rate or the wheelbase is missing; it names the key.
    """
    sprung = body(car)
    for name in CORNERS:
        if car.corners[name].tyre is None:
            raise Lacking(
                f"{name}.tyre is missing",
                where=car.file or car.name,
                hint="the swings of the whole car (its modes) need it",
            )
    full = modes(*_full(car, sprung, at_wheel))
    half = modes(*_half(car, sprung, at_wheel))
    return CarModes(
        half=_named(half, ("heave", "pitch"), HALF_HOPS),
        full=_named(full, ("heave", "pitch", "roll"), FULL_HOPS),
        simple=_simple(car, sprung),
        spring_centre=sum(k * sprung.ahead[n] for n, k in _ride_rates(car).items()) / sum(_ride_rates(car).values()),
        estimated=sprung.estimated,
    )


def _full(car: Car, sprung: SprungBody, at_wheel: Mapping[str, float]) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Matrices over (heave, pitch nose down, roll left up, four unsprung masses), all up."""
    corners = [car.corners[n] for n in CORNERS]
    unsprung = [c.unsprung for c in corners]
    mass = np.diag([sprung.mass, sprung.pitch_inertia, sprung.roll_inertia, *unsprung])
    # Each row: how much a corner's suspension lengthens per unit of each coordinate.
    rows = np.array([[1.0, -sprung.ahead[n], sprung.left[n]] for n in CORNERS])
    stretch = np.hstack([rows, -np.eye(len(CORNERS))])
    rates = np.diag([c.rate for c in corners])
    dampers = np.diag([at_wheel.get(n, 0.0) for n in CORNERS])
    tyres = np.diag([0.0, 0.0, 0.0, *(c.tyre or 0.0 for c in corners)])
    return mass, stretch.T @ dampers @ stretch, stretch.T @ rates @ stretch + tyres


def _half(car: Car, sprung: SprungBody, at_wheel: Mapping[str, float]) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Matrices over (heave, pitch, front unsprung, rear unsprung): the full car with left and right held together."""
    full = _full(car, sprung, at_wheel)
    # Heave, pitch, roll (held), the wheels fl, fr, rl, rr; columns: heave, pitch, front wheels, rear wheels.
    together = np.array([
        [1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 0, 0], [0, 0, 1, 0], [0, 0, 1, 0], [0, 0, 0, 1], [0, 0, 0, 1],
    ], dtype=float)  # fmt: skip
    mass, damping, stiffness = (together.T @ m @ together for m in full)
    return mass, damping, stiffness


def _named(found: tuple[Mode, ...], of_body: tuple[str, ...], hops: Mapping[str, tuple[int, ...]]) -> dict[str, Mode]:
    """Name each mode after the motion it holds most of, every name once."""
    n = len(of_body)
    # Pitch counts at an arm of a metre, roll at less.
    turns = dict(zip(of_body, np.diag([1.0, 1.0, ROLL_ARM][:n]), strict=True))
    out: dict[str, Mode] = {}
    for group, patterns, part in ((found[:n], turns, slice(0, n)), (found[n:], hops, slice(n, None))):
        names = list(patterns)
        basis = np.array([patterns[name] for name in names], dtype=float)
        share = np.array([np.abs(basis @ mode.shape[part]) for mode in group])
        which = _assigned(share / np.linalg.norm(share, axis=1, keepdims=True))
        out.update({names[which[i]]: mode for i, mode in enumerate(group)})
    return dict(sorted(out.items(), key=lambda item: item[1].frequency))


def _assigned(share: FloatArray) -> tuple[int, ...]:
    """Return the name of each mode, by number, such that the shares they hold are largest in sum."""
    n = len(share)
    return max(permutations(range(n)), key=lambda order: sum(share[i, order[i]] for i in range(n)))


def _ride_rates(car: Car) -> dict[str, float]:
    return {n: float(series_rate(car.corners[n].rate, car.corners[n].tyre or 0.0)) for n in CORNERS}


def _simple(car: Car, sprung: SprungBody) -> dict[str, float]:
    corners = {n: car.corners[n] for n in CORNERS}
    ride = _ride_rates(car)
    hop = {n: (c.rate + (c.tyre or 0.0)) / c.unsprung for n, c in corners.items()}
    squares = {
        "heave": sum(ride.values()) / sprung.mass,
        "pitch": sum(ride[n] * sprung.ahead[n] ** 2 for n in CORNERS) / sprung.pitch_inertia,
        "roll": sum(ride[n] * sprung.left[n] ** 2 for n in CORNERS) / sprung.roll_inertia,
        "front hop": (hop["fl"] + hop["fr"]) / 2,
        "rear hop": (hop["rl"] + hop["rr"]) / 2,
    }
    squares |= {f"{axle} tramp": squares[f"{axle} hop"] for axle in ("front", "rear")}
    return {name: float(np.sqrt(square) / (2 * np.pi)) for name, square in squares.items()}
