"""Settings and surfaces of a launch, and a car made ready for one."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from dynoan.analysis.launch.compare import car_damping
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.hinges import AxleDamping
from dynoan.analysis.launch.large.model import LargeCar, large_car
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.stops import at_wheel
from dynoan.errors import CallError, Lacking
from dynoan.model.car import AXLES, CORNERS, Car, Surface, axle_of
from dynoan.model.curve import Curve
from dynoan.model.links import STOPS
from dynoan.model.shock import parse_clicks
from dynoan.workbench.bench import Workbench

AS_IS = "as on the car"
_PLACE = r"(?:^|[\s;,]+)(?=(?:front|rear|fl|fr|rl|rr)\s*=)"


@dataclass(frozen=True)
class LaunchSetting:
    """One setting to run: pack and clicks by corner, where they differ from the car's."""

    label: str = AS_IS
    packs: Mapping[str, str] = field(default_factory=dict)
    clicks: Mapping[str, Mapping[str, int]] = field(default_factory=dict)  #: as the shock's file counts them

    @classmethod
    def parsed(cls, text: str) -> LaunchSetting:
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
                raise _no_setting(text)
            pack, at, turned = setting.partition("@")
            if not at and "=" in setting:
                pack, turned = "", setting
            corners = [c for c in CORNERS if place in (c, axle_of(c))]
            packs |= dict.fromkeys(corners, pack) if pack else {}
            clicks |= dict.fromkeys(corners, _clicks(turned)) if turned else {}
        if not packs and not clicks:
            raise _no_setting(text)
        return cls(text.strip(), packs, clicks)

    def on(self, car: Car) -> Car:
        """Return the car with this setting on it; packs and clicks that are not named stay."""
        corners = {
            name: replace(
                corner, pack=self.packs.get(name, corner.pack),
                clicks={**corner.clicks, **self.clicks.get(name, {})},
            )
            for name, corner in car.corners.items()
        }  # fmt: skip
        return replace(car, corners=corners)


def _no_setting(text: str) -> CallError:
    return CallError(f"'{text}' is not like rear=gravel@lsc=6,lsr=8 or front=mixed", part="setting")


def _clicks(text: str) -> Mapping[str, int]:
    try:
        return parse_clicks(text, where="")
    except CallError as error:
        raise error.again(part="setting") from None


@dataclass(frozen=True)
class LaunchCase:
    """One setting on the car, as the compiled half-car takes it."""

    label: str
    car: Car
    half: HalfCar
    damping: tuple[AxleDamping, AxleDamping]  #: front, rear
    large: LargeCar  #: the same at large angles
    curves: Mapping[str, Curve] = field(default_factory=dict)  #: by corner

    @property
    def notes(self) -> tuple[str, ...]:
        """What was estimated or left out for want of a key."""
        return (*self.half.notes, *self.large.notes)


def launch_case(bench: Workbench, car: Car, label: str) -> LaunchCase:
    """Return a car with the curves of what is on it, ready to run.

    Raises
    ------
    QuantityError
        If the car's file lacks a key that a launch needs.
    LookupFault
        If the library does not know a pack.
    """
    car = with_shocks_stops(bench, car)
    half_car(car)  # missing keys are told before any curve is fitted
    curves = {name: bench.corner_curve(car, corner, pieces=False) for name, corner in car.corners.items()}
    half = half_car(car, curves)
    return LaunchCase(label, car, half, car_damping(car, curves), large_car(car, half, curves), curves)


def changed_case(case: LaunchCase, car: Car) -> LaunchCase:
    """Return a case with another car of the same packs and clicks, whose curves are those of the case.

    Raises
    ------
    QuantityError
        If the car's values are no car's.
    """
    half = half_car(car, case.curves)
    return replace(
        case, car=car, half=half, damping=car_damping(car, case.curves), large=large_car(car, half, case.curves)
    )  # fmt: skip


def with_shocks_stops(bench: Workbench, car: Car) -> Car:
    """Return a car with the stops that its shocks' files state, where its own file states none."""
    found = {}
    for key, travel in zip(STOPS, ("bump_travel", "droop_travel"), strict=True):
        stated = dict(getattr(car.extras, key))
        for corner in car.corners.values():
            if axle_of(corner.name) in stated or not (corner.shock and bench.library.has_shock_file(corner.shock)):
                continue
            curve = getattr(bench.shock(corner.shock), key)
            if curve is not None and getattr(corner, travel) is not None:
                stated[corner.name] = at_wheel(curve, corner.shock_ratio)
        found[key] = stated
    return replace(car, extras=replace(car.extras, bump_stop=found["bump_stop"], droop_stop=found["droop_stop"]))


def surfaces_of(car: Car, names: Sequence[str]) -> tuple[Surface, ...]:
    """Return the surfaces named, or all the car's file has.

    Raises
    ------
    Lacking
        If the car's file has none.
    CallError
        If it has none of that name.
    """
    where = car.file or car.name
    if not car.surfaces:
        raise Lacking(
            "surfaces is missing, and a launch needs one", where=where, hint="add [surfaces.loose] grip = 0.65"
        )
    for name in names:
        if name not in car.surfaces:
            raise CallError(f"{where} has no surface '{name}'", hint=f"it has {', '.join(car.surfaces)}")
    return tuple(car.surfaces[name] for name in (names or car.surfaces))
