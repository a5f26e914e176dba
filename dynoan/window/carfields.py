"""The fields of a car's form, in the groups in which they are asked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dynoan.library.car_keys import QUANTITIES
from dynoan.model.car import CORNER_NAMES, CORNERS
from dynoan.units import parse, shown

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


@dataclass(frozen=True)
class CarGroup:
    """Fields that belong together."""

    title: str
    hint: str
    fields: tuple[CarField, ...]


def _axle(axle: str) -> CarGroup:
    def one(key: str, words: str, example: str, **more: Any) -> CarField:
        return CarField(f"{axle}.{key}", words, example, **more)

    return CarGroup(
        f"{axle.capitalize()} axle, both sides", "What left and right share.",
        (
            one("spring", "Spring rate", "45 N/mm", kind="stiffness", needed=True, letter="d"),
            one("spring_ratio", "Spring travel for each wheel travel", "0.95", kind="number", needed=True, letter="e"),
            one("shock_ratio", "Shock travel for each wheel travel", "0.92", kind="number", needed=True, letter="f"),
            one("unsprung", "Wheel, tyre, hub, brake, half the links", "34 kg", kind="mass", needed=True, letter="g"),
            one("tyre", "Tyre rate", "210 N/mm", kind="stiffness", letter="h"),
            one("bump_travel", "Wheel travel up to the bump stop", "75 mm", kind="length", letter="i"),
            one("droop_travel", "Wheel travel down to the droop stop", "85 mm", kind="length", letter="j"),
            one("pack", "Valve pack in its shocks", "gravel", kind="text"),
            one("clicks", "Clicks, as the shock counts", "lsc=8,hsc=12,lsr=10,hsr=12", kind="clicks"),
        ),
    )  # fmt: skip


_SIDES = (("compression", "low"), ("compression", "high"), ("rebound", "low"), ("rebound", "high"))
GROUPS: tuple[CarGroup, ...] = (
    CarGroup("The scales", "Ready to drive, driver in, on level ground.", tuple(
        CarField(f"{c}.mass", CORNER_NAMES[c].capitalize(), "268 kg", "mass", True, "c") for c in CORNERS
    )),
    _axle("front"), _axle("rear"),
    CarGroup("Shocks", "Which shock sits where, by the name your library has for it.", tuple(
        CarField(f"{c}.shock", CORNER_NAMES[c].capitalize(), f"{c.upper()}-01", "text") for c in CORNERS
    )),
    CarGroup("Wanted damping ratios", "At the shock's low and high velocity; leave open what is not wanted.", tuple(
        CarField(f"targets.{axle}.{way}.{level}", f"{axle.capitalize()}, {way}, {level}", example, "number")
        for axle, examples in (("front", "0.42 0.30 0.62 0.42"), ("rear", "0.38 0.30 0.57 0.43"))
        for (way, level), example in zip(_SIDES, examples.split(), strict=True)
    )),
    CarGroup("For the launch", "Needed to reckon how it leaves the line.", (
        CarField("wheelbase", "Wheelbase", "2430 mm", "length", letter="a"),
        CarField("cg_height", "Height of the centre of gravity", "510 mm", "length", letter="b"),
        CarField("driven", "Driven axle", "rear", "choice", choices=("front", "rear", "all")),
        CarField("antisquat", "Anti-squat of the driven axle", "45 %", "ratio"),
        CarField("surfaces.loose.grip", "Grip on loose ground", "0.65", "number"),
        CarField("surfaces.loose.roughness", "Roughness of loose ground, A to H", "D", "text"),
        CarField("surfaces.sticky.grip", "Grip on sticky ground", "1.05", "number"),
        CarField("surfaces.sticky.roughness", "Roughness of sticky ground, A to H", "B", "text"),
    )),
)  # fmt: skip
FIELDS: dict[str, CarField] = {f.key: f for group in GROUPS for f in group.fields}
