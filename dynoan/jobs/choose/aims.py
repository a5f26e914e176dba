"""What is wanted where: the places of a car with their target ratios."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, TypedDict, Unpack

from dynoan.analysis.choosing.aims import CornerAim, Group, Place, WantedRatio, filled, scaled, wanted_from, wanted_like
from dynoan.errors import CallError
from dynoan.jobs.car_spread import ratio_spread
from dynoan.jobs.cars import car_or_setup
from dynoan.jobs.choose.assumptions import LEAST_PROPORTION, LEAST_RATIO, MOST_PROPORTION, MOST_RATIO
from dynoan.jobs.ratio.asked import shock_velocity, velocities
from dynoan.model.car import AXLES, CORNERS, Car, Corner, Target, Targets, axle_of

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


class RatioWishGiven(TypedDict, total=False):
    """The parts of a `RatioWish` as people give them; what is left out is not wanted."""

    axle: str | None
    corner: str | None
    per_corner: bool
    compression_low: float | None
    compression_high: float | None
    rebound_low: float | None
    rebound_high: float | None
    low: float | str | None
    high: float | str | None
    rebound_compression: float | None
    front_rear: float | None
    like: str | None
    surface: str | None


@dataclass(frozen=True)
class RatioWish:
    """What is wanted and where. Targets named here replace all of the car file's."""

    axle: str | None = None  #: None: both
    corner: str | None = None  #: one alone
    per_corner: bool = False  #: each corner its own clicks, in the pack of its axle
    compression: Target = field(default_factory=Target)
    rebound: Target = field(default_factory=Target)
    low: float | None = None  #: at the shock [m/s]; None: the targets' own
    high: float | None = None  #: at the shock [m/s]; None: the targets' own
    rebound_compression: float | None = None  #: where only one direction has targets
    front_rear: float | None = None  #: where only one axle has targets
    like: str | None = None  #: a recorded setup or another car, whose ratios are wanted
    surface: str | None = None  #: whose proposed targets are wanted, in the place of the car file's

    @classmethod
    def asked(cls, **given: Unpack[RatioWishGiven]) -> RatioWish:
        """Return a wish from values as people give them: ratios as numbers, velocities in m/s or with a unit.

        Raises
        ------
        CallError
            If a value is impossible, or parts exclude one another.
        QuantityError
            If a velocity is none.
        """
        axle, corner, like = given.get("axle"), given.get("corner"), given.get("like")
        _one_of(axle, AXLES, "axle")
        _one_of(corner, CORNERS, "corner")
        low, high = given.get("low"), given.get("high")
        wish = cls(
            axle, corner, given.get("per_corner", False),
            compression=Target(_ratio(given.get("compression_low"), "compression_low"),
                               _ratio(given.get("compression_high"), "compression_high")),
            rebound=Target(_ratio(given.get("rebound_low"), "rebound_low"),
                           _ratio(given.get("rebound_high"), "rebound_high")),
            low=None if low is None else shock_velocity(low, "low"),
            high=None if high is None else shock_velocity(high, "high"),
            rebound_compression=_proportion(given.get("rebound_compression"), "rebound_compression"),
            front_rear=_proportion(given.get("front_rear"), "front_rear"),
            like=like, surface=given.get("surface"),
        )  # fmt: skip
        if corner and (axle or wish.per_corner):
            raise CallError("a corner stands alone: without axle, and not per corner", need="corner alone")
        if like and (wish.front_rear or wish.rebound_compression or wish.targeted):
            raise CallError(
                "what is wanted like a setup has its targets from there", hint="leave out the others", need="like alone"
            )
        if wish.surface and wish.wished:
            raise CallError(
                "targets proposed for a surface stand alone", hint="leave out the others", need="surface alone"
            )
        return wish

    @property
    def wished(self) -> bool:
        """Whether something is wanted beside what the car's file may say, and what its surfaces propose."""
        return self.targeted or bool(self.like) or self.front_rear is not None or self.rebound_compression is not None

    @property
    def targeted(self) -> bool:
        """Whether a target is named."""
        return any(t.low is not None or t.high is not None for t in (self.compression, self.rebound))


def _one_of(value: str | None, known: tuple[str, ...], part: str) -> None:
    if value is not None and value not in known:
        raise CallError(f"there is no '{value}'", hint=f"it is one of {', '.join(known)}", part=part)


def _ratio(value: float | None, part: str) -> float | None:
    if value is not None and not LEAST_RATIO <= value <= MOST_RATIO:
        raise CallError(
            f"{value:g} is no damping ratio", hint=f"they lie between {LEAST_RATIO:g} and {MOST_RATIO:g}", part=part
        )
    return value


def _proportion(value: float | None, part: str) -> float | None:
    if value is not None and not LEAST_PROPORTION <= value <= MOST_PROPORTION:
        raise CallError(
            f"{value:g} is no proportion",
            hint=f"they lie between {LEAST_PROPORTION:g} and {MOST_PROPORTION:g}",
            part=part,
        )
    return value


def groups(bench: Workbench, car: Car, wish: RatioWish) -> tuple[Group, ...]:
    """Return the places to choose for, with their aims, grouped by what must share a pack.

    Raises
    ------
    CallError
        If no target is set, or one is set for both directions where a proportion should give one of them.
    LookupFault
        If the library knows no setup and no car to be like.
    """
    axles = [axle_of(wish.corner)] if wish.corner else [wish.axle] if wish.axle else list(AXLES)
    like = car_or_setup(bench, wish.like, "like") if wish.like else None
    found = [group for axle in axles if (group := _group(bench, car, axle, wish, like)) is not None]
    if not found:
        where = car.file or car.name
        raise CallError(
            f"no target is set for {' or '.join(axles)}",
            where=where,
            hint=f"write [targets.{axles[0]}]",
            need="targets",
        )
    return tuple(found)


def _group(bench: Workbench, car: Car, axle: str, wish: RatioWish, like: Car | None) -> Group | None:
    corners = [c for c in car.axle(axle) if wish.corner in (None, c.name)]
    targets = _targets(car, axle, wish)
    aims = [_aim(bench, car, corner, _wanted(bench, corner, targets, like)) for corner in corners]
    if not any(aim.wanted for aim in aims):
        return None
    apart = wish.per_corner or wish.corner is not None
    names = [(a.corner.name, (a,)) for a in aims] if apart else [(axle, tuple(aims))]
    return Group(axle, tuple(Place(name, part, targets.low_velocity, targets.high_velocity) for name, part in names))


def _targets(car: Car, axle: str, wish: RatioWish) -> Targets:
    """Return an axle's targets: those named, else the car file's, else what follows from the other axle's."""
    low, high = velocities(car, axle, wish.low, wish.high)
    targets = car.targets.get(axle)
    if targets is None and wish.front_rear is not None:
        other = car.targets_of("rear" if axle == "front" else "front")
        targets = scaled(other, wish.front_rear if axle == "front" else 1 / wish.front_rear)
    targets = replace(targets or Targets(), low_velocity=low, high_velocity=high)
    if wish.targeted:
        targets = replace(targets, compression=wish.compression, rebound=wish.rebound)
    return filled(targets, rebound_compression=wish.rebound_compression)


def _wanted(bench: Workbench, corner: Corner, targets: Targets, like: Car | None) -> tuple[WantedRatio, ...]:
    if like is None:
        return wanted_from(targets)
    model = like.corners[corner.name]
    return wanted_like(model, bench.corner_curve(like, model))


def _aim(bench: Workbench, car: Car, corner: Corner, wanted: tuple[WantedRatio, ...]) -> CornerAim:
    shock = bench.corner_shock(corner, corner.pack) if corner.pack in bench.library.packs() and corner.pack else None
    own = shock if shock is not None and shock.stated else None
    return CornerAim(
        corner,
        wanted,
        now=shock.to_closed(corner.clicks) if shock is not None and corner.clicks else None,
        last=None if own is None else {a.name: a.clicks for a in own.adjusters},
        spread=ratio_spread(car, corner.name),
    )
