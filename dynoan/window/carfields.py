"""The fields of a car's form, in the groups in which they are asked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dynoan.library.car_keys import QUANTITIES
from dynoan.model.car import AXLES, CORNER_NAMES, CORNERS
from dynoan.model.shock import ADJUSTERS, clicks_text
from dynoan.units import parse, shown
from dynoan.window.rendering import bare_number

if TYPE_CHECKING:
    from dynoan.units import Shown


@dataclass(frozen=True)
class CarField:
    """One field of the form."""

    key: str  #: as the car's file has it
    words: str
    example: str = ""
    kind: str = ""  #: of quantity; "number", "text", "clicks" or "choice" else
    needed: bool = False
    letter: str = ""  #: at the drawing
    choices: tuple[str, ...] = ()

    def shown_example(self, units: Shown) -> str:
        """Return the example in the units people are shown, as round as it was."""
        if units == "metric" or self.kind not in QUANTITIES.values():
            return self.example
        how = shown(self.kind, units)
        value = parse(self.example, self.kind) / how.factor
        return f"{value:.0f} {how.unit}" if value >= 10 else f"{value:.1f} {how.unit}"

    def unit(self, units: Shown) -> str:
        """Return the unit that a bare number is in; "" where there is none."""
        return shown(self.kind, units).unit if self.kind in QUANTITIES.values() else ""

    def bare(self, text: str, units: Shown) -> str:
        """Return a value without its unit where that is the one a bare number is in."""
        number, _, unit = text.partition(" ")
        return number if unit and unit == self.unit(units) and bare_number(number) else text


def bare_example(field: CarField, units: Shown) -> str:
    """Return a field's example as somebody would type it there."""
    return field.bare(field.shown_example(units), units)


@dataclass(frozen=True)
class CarGroup:
    """Fields that belong together."""

    title: str
    hint: str
    fields: tuple[CarField, ...]
    later: bool = False  #: whether it can wait, and is folded until something stands in it


def _axle(axle: str) -> CarGroup:
    def one(key: str, words: str, example: str = "", **more: Any) -> CarField:
        return CarField(f"{axle}.{key}", words, example, **more)

    return CarGroup(
        f"{axle.capitalize()} axle, both sides", "What left and right share.",
        (
            one("spring", "Spring rate", "45 N/mm", kind="stiffness", needed=True, letter="d"),
            one("spring_ratio", "Spring travel for each wheel travel", "0.95", kind="number", needed=True, letter="e"),
            one("shock_ratio", "Shock travel for it; open: as the spring's", "0.92", kind="number", letter="f"),
            one("unsprung", "Wheel, tyre, hub, brake, half the links", "34 kg", kind="mass", needed=True, letter="g"),
            one("tyre", "Tyre rate", "210 N/mm", kind="stiffness", letter="h"),
            one("bump_travel", "Wheel travel up to the bump stop", "75 mm", kind="length", letter="i"),
            one("droop_travel", "Wheel travel down to the droop stop", "85 mm", kind="length", letter="j"),
            one("pack", "Valve pack in its shocks", "gravel", kind="text"),
            one("clicks", "Clicks, as the shock counts them", kind="clicks"),
        ),
    )  # fmt: skip


_SIDES = (("compression", "low"), ("compression", "high"), ("rebound", "low"), ("rebound", "high"))
GROUPS: tuple[CarGroup, ...] = (
    CarGroup("The scales", "Ready to drive, driver in, on level ground.", tuple(
        CarField(f"{c}.mass", CORNER_NAMES[c].capitalize(), "268 kg", "mass", True, "c") for c in CORNERS
    )),
    _axle("front"), _axle("rear"),
    CarGroup("Shocks", "Which shock sits where; those whose names say it are filled in.", tuple(
        CarField(f"{c}.shock", CORNER_NAMES[c].capitalize(), f"{c.upper()}-01", "text") for c in CORNERS
    )),
    CarGroup("Wanted damping ratios", "At the shock's low and high velocity; leave open what is not wanted.", tuple(
        CarField(f"targets.{axle}.{way}.{level}", f"{axle.capitalize()}, {way}, {level}", example, "number")
        for axle, examples in (("front", "0.42 0.30 0.62 0.42"), ("rear", "0.38 0.30 0.57 0.43"))
        for (way, level), example in zip(_SIDES, examples.split(), strict=True)
    ), later=True),
    CarGroup("For the launch", "Needed to reckon how it leaves the line.", (
        CarField("wheelbase", "Wheelbase", "2430 mm", "length", letter="a"),
        CarField("cg_height", "Height of the centre of gravity", "510 mm", "length", letter="b"),
        CarField("driven", "Driven axle", "rear", "choice", choices=("front", "rear", "all")),
        CarField("antisquat", "Anti-squat of the driven axle", "45 %", "ratio"),
        CarField("surfaces.loose.grip", "Grip on loose ground", "0.65", "number"),
        CarField("surfaces.loose.roughness", "Roughness of loose ground, A to H", "D", "text"),
        CarField("surfaces.sticky.grip", "Grip on sticky ground", "1.05", "number"),
        CarField("surfaces.sticky.roughness", "Roughness of sticky ground, A to H", "B", "text"),
    ), later=True),
)  # fmt: skip
FIELDS: dict[str, CarField] = {f.key: f for group in GROUPS for f in group.fields}


def plain_fields(given: Mapping[str, str], units: Shown, *, new: bool) -> dict[str, str]:
    """Return what a form holds, by key of the car's file, as the file would hold it.

    A bare number is in the unit that its field shows, clicks come from a field an adjuster, and in a new car a
    shock moves as its spring does where its field is left open.
    """
    values = {key: given[key].strip() for key in FIELDS if key in given}
    for axle in AXLES:
        turned = {a: given[key].strip() for a in ADJUSTERS if (key := f"{axle}.clicks.{a}") in given}
        if turned:
            values[f"{axle}.clicks"] = _clicks(turned)
        ratios = [f"{axle}.{part}_ratio" for part in ("spring", "shock")]
        if new and all(key in values for key in ratios) and not values[ratios[1]]:
            values[ratios[1]] = values[ratios[0]]
    units_of = {key: FIELDS[key].unit(units) for key in values}
    return {k: f"{v} {units_of[k]}" if units_of[k] and bare_number(v) else v for k, v in values.items()}


def _clicks(turned: Mapping[str, str]) -> str:
    said = {name: text for name, text in turned.items() if text}
    if all(text.isdecimal() for text in said.values()):
        return clicks_text({name: int(text) for name, text in said.items()})
    return ",".join(f"{name}={text}" for name, text in said.items())


def seated(shocks: Iterable[str]) -> dict[str, str]:
    """Return which shock sits where as their names say it: those that begin with a corner's.

    >>> seated(["FL-01", "RR-04", "spare"])
    {'fl.shock': 'FL-01', 'rr.shock': 'RR-04'}
    """
    found: dict[str, list[str]] = {}
    for shock in shocks:
        head = re.split(r"[^a-z]+", shock.casefold().replace(" ", "-"))[0]
        if head in CORNERS:
            found.setdefault(f"{head}.shock", []).append(shock)
    return {key: names[0] for key, names in found.items() if len(names) == 1}
