"""What `dynoan launch` is asked: settings, surfaces and drive, from the words of the command line."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import CallError, QuantityError
from dynoan.model.car import AXLES, CORNERS, Car, Surface, axle_of
from dynoan.model.shock import parse_clicks
from dynoan.units import parse

if TYPE_CHECKING:
    from dynoan.analysis.launch.drive import Drive
    from dynoan.analysis.launch.model import Half

_PLACE = r"(?:^|[\s;,]+)(?=(?:front|rear|fl|fr|rl|rr)\s*=)"
AS_IS = "as on the car"


@dataclass(frozen=True)
class Asked:
    """One setting to run: pack and clicks by corner, where they differ from the car's."""

    label: str
    packs: Mapping[str, str] = field(default_factory=dict)
    clicks: Mapping[str, Mapping[str, int]] = field(default_factory=dict)


def parse_setting(text: str) -> Asked:
    """Return a setting from text such as "rear=gravel@lsc=6,lsr=8" or "front=mixed rear=@lsc=6".

    Raises
    ------
    CallError
        If a part names no axle or corner, or is no setting.
    """
    packs: dict[str, str] = {}
    clicks: dict[str, Mapping[str, int]] = {}
    for part in filter(None, (p.strip(" ;,") for p in re.split(_PLACE, text.strip()))):
        place, equals, setting = (p.strip() for p in part.partition("="))
        if not equals or place not in (*AXLES, *CORNERS) or not setting:
            raise CallError(f"--setting: '{text}' is not like rear=gravel@lsc=6,lsr=8 or front=mixed")
        pack, at, turned = setting.partition("@")
        if not at and "=" in setting:
            pack, turned = "", setting
        for corner in [c for c in CORNERS if place in (c, axle_of(c))]:
            if pack:
                packs[corner] = pack
            if turned:
                clicks[corner] = parse_clicks(turned, where="--setting")
    if not packs and not clicks:
        raise CallError(f"--setting: '{text}' is not like rear=gravel@lsc=6,lsr=8 or front=mixed")
    return Asked(text.strip(), packs, clicks)


def set_on(car: Car, asked: Asked) -> Car:
    """Return the car with a setting on it; clicks that are not named stay."""
    corners = {
        name: replace(
            corner,
            pack=asked.packs.get(name, corner.pack),
            clicks={**corner.clicks, **asked.clicks.get(name, {})},
        )
        for name, corner in car.corners.items()
    }
    return replace(car, corners=corners)


def surfaces(car: Car, names: Sequence[str]) -> tuple[Surface, ...]:
    """Return the surfaces asked for, or all the car's file has.

    Raises
    ------
    QuantityError
        If the car's file has none.
    CallError
        If it has none of that name.
    """
    where = car.file or car.name
    if not car.surfaces:
        raise QuantityError(f"{where}: surfaces is missing, and a launch needs one; add [surfaces.loose] grip = 0.65")
    for name in names:
        if name not in car.surfaces:
            raise CallError(f"{where} has no surface '{name}'; it has {', '.join(car.surfaces)}")
    return tuple(car.surfaces[name] for name in (names or car.surfaces))


def check_plot(path: Path | None) -> None:
    """Raise `CallError` where a picture could not be written, before anything is reckoned for it."""
    if path is not None and path.suffix.lower() not in (".png", ".svg", ".pdf"):
        raise CallError(f"{path}: a picture is written as .png, .svg or .pdf; end the name with one of these")
    if path is not None and not path.absolute().parent.is_dir():
        raise CallError(f"{path}: there is no folder {path.parent}; name a file in a folder that is there")


@dataclass(frozen=True)
class Wish:
    """How the car is driven off: one of these, or none for all the grip there is."""

    accel: str | None = None
    torque: str | None = None
    trace: Path | None = None
    rise: str | None = None

    def __post_init__(self) -> None:
        given = [name for name in ("accel", "torque", "trace") if getattr(self, name) is not None]
        if len(given) > 1:
            raise CallError(f"--{given[0]} and --{given[1]} exclude one another; give one")
        if self.trace is not None and self.rise is not None:
            raise CallError("--rise does not go with --trace: the recorded acceleration has its own")


def drive(wish: Wish, half: Half, car: Car, surface: Surface) -> Drive:
    """Return the drive on a surface."""
    from dynoan.analysis.launch import drive as ld

    rise = ld.RISE if wish.rise is None else parse(wish.rise, "time", where="--rise")
    if wish.trace is not None:
        return trace_drive(wish.trace)
    if wish.accel is not None:
        return ld.constant_acceleration(parse(wish.accel, "acceleration", where="--accel"), rise=rise)
    if wish.torque is not None:
        if car.wheel_radius is None:
            raise QuantityError(
                f'{car.file or car.name}: wheel_radius is missing, and --torque needs it; add wheel_radius = "300 mm"'
            )
        torque = parse(wish.torque, "torque", where="--torque")
        return ld.torque_drive(half, torque, car.wheel_radius, rise=rise)
    return ld.full_grip(half, surface, rise=rise)


def trace_drive(path: Path) -> Drive:
    """Return a drive from a CSV with a time and an acceleration column.

    Raises
    ------
    CallError
        If no column is named an acceleration.
    """
    from dynoan.analysis.launch.drive import traced
    from dynoan.cli.logs import like, read_log, time_of

    columns = read_log(path)
    found = like(columns, r"(^a$|acc|long|beschl)")
    if found is None:
        have = ", ".join(c.name for c in columns)
        raise CallError(f"{path}: no column is named an acceleration, such as 'acceleration [m/s2]'; it has {have}")
    return traced(time_of(columns), found.si("acceleration"), path.name)
