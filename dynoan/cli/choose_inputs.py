"""What `dynoan choose` is asked: places, targets, packs and rules, from the words of the command line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from dynoan.errors import CallError, LookupFault
from dynoan.model.car import AXLES, Car, Corner, Target, Targets, axle_of

if TYPE_CHECKING:
    from dynoan.analysis.choosing.aims import Aim, Group, Place, Wanted
    from dynoan.analysis.choosing.choose import Rules
    from dynoan.model.shock import Shock
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class Wish:
    """What is wanted and where, as typed."""

    axle: str | None = None
    corner: str | None = None
    per_corner: bool = False
    compression_low: float | None = None
    compression_high: float | None = None
    rebound_low: float | None = None
    rebound_high: float | None = None
    low: str | None = None
    high: str | None = None
    rebound_compression: float | None = None
    front_rear: float | None = None
    like: str | None = None


@dataclass(frozen=True)
class Limits:
    """What may be used, as typed."""

    packs: str | None = None
    once: bool = False
    inside: bool = False
    within: int | None = None
    tolerance: str = "10 %"
    count: int = 10


def rules(limits: Limits) -> Rules:
    """Return the rules of the search.

    Raises
    ------
    CallError
        If a number makes no sense.
    """
    from dynoan.analysis.choosing.choose import Rules
    from dynoan.units import parse

    tolerance = parse(limits.tolerance, "ratio", where="--tolerance")
    if not 0 < tolerance < 1:
        raise CallError(f"--tolerance: {limits.tolerance} is not a share between 0 and 100 %; write it like '10 %'")
    return Rules(tolerance, limits.inside, limits.within, limits.count)


def packs(bench: Workbench, limits: Limits) -> tuple[str, ...]:
    """Return the packs at hand: those named, else all of the library.

    Raises
    ------
    LookupFault
        If one is unknown, or the library has none.
    """
    known = bench.library.packs()
    named = tuple(dict.fromkeys(p.strip() for p in (limits.packs or "").split(",") if p.strip())) or known
    for name in named:
        if name not in known:
            raise LookupFault(f"--packs: the library holds no pack '{name}'; it holds {', '.join(known) or 'none'}")
    if not named:
        raise LookupFault("the library holds no sweep with a pack; add some with 'dynoan add'")
    return named


def groups(bench: Workbench, car: Car, wish: Wish) -> tuple[Group, ...]:
    """Return the places to choose for, with their aims, grouped by what must share a pack.

    Raises
    ------
    CallError
        If options exclude one another or no target is set.
    """
    from dynoan.analysis.choosing.aims import Group

    if wish.corner and (wish.axle or wish.per_corner):
        raise CallError("--corner stands alone; leave out --axle and --per-corner")
    if wish.like and (wish.front_rear or wish.rebound_compression or any(_named(wish))):
        raise CallError("--like takes its targets from a setup; leave out the other targets")
    axles = [axle_of(wish.corner)] if wish.corner else [wish.axle] if wish.axle else list(AXLES)
    like = _like(bench, wish.like) if wish.like else None
    out = []
    for axle in axles:
        corners = [c for c in car.axle(axle) if wish.corner in (None, c.name)]
        targets = _targets(car, axle, wish)
        aims = [_aim(bench, corner, _wanted(bench, corner, targets, like)) for corner in corners]
        if not any(aim.wanted for aim in aims):
            continue
        apart = wish.per_corner or wish.corner is not None
        names = [(a.corner.name, (a,)) for a in aims] if apart else [(axle, tuple(aims))]
        out.append(Group(axle, tuple(_place(name, part, targets) for name, part in names)))
    if not out:
        where = car.file or car.name
        raise CallError(
            f"{where}: no target is set for {' or '.join(axles)}; "
            f"write [targets.{axles[0]}] or give --rebound-low and so on"
        )
    return tuple(out)


def _named(wish: Wish) -> list[bool]:
    return [getattr(wish, f"{d}_{at}") is not None for d in ("compression", "rebound") for at in ("low", "high")]


def _place(name: str, aims: tuple[Aim, ...], targets: Targets) -> Place:
    from dynoan.analysis.choosing.aims import Place

    return Place(name, aims, targets.low_velocity, targets.high_velocity)


def _targets(car: Car, axle: str, wish: Wish) -> Targets:
    """Return an axle's targets: those typed, else the car file's, else what follows from the other axle's."""
    from dynoan.analysis.choosing.aims import filled, scaled
    from dynoan.jobs.ratio import velocities

    low, high = velocities(car, axle, *_asked(wish))
    targets = car.targets.get(axle)
    if targets is None and wish.front_rear is not None:
        other = car.targets.get("rear" if axle == "front" else "front", Targets())
        targets = scaled(other, wish.front_rear if axle == "front" else 1 / wish.front_rear)
    targets = replace(targets or Targets(), low_velocity=low, high_velocity=high)
    if any(_named(wish)):
        targets = replace(targets, compression=_typed(wish, "compression"), rebound=_typed(wish, "rebound"))
    return filled(targets, rebound_compression=wish.rebound_compression)


def _typed(wish: Wish, direction: str) -> Target:
    values = {at: getattr(wish, f"{direction}_{at}") for at in ("low", "high")}
    for at, value in values.items():
        if value is not None and not 0.02 <= value <= 3:
            raise CallError(f"--{direction}-{at}: {value:g} is no damping ratio; they lie between 0.02 and 3")
    return Target(values["low"], values["high"])


def _wanted(bench: Workbench, corner: Corner, targets: Targets, like: Car | None) -> tuple[Wanted, ...]:
    from dynoan.analysis.choosing.aims import wanted_from, wanted_like

    if like is None:
        return wanted_from(targets)
    model = like.corners[corner.name]
    return wanted_like(model, bench.corner_curve(like, model))


def _like(bench: Workbench, name: str) -> Car:
    if not name.endswith(".toml"):
        setups = {setup.name: setup for setup in bench.library.setups()}
        if name in setups:
            return setups[name].car
        if name not in bench.library.cars():
            have = ", ".join([*setups, *bench.library.cars()]) or "none"
            raise LookupFault(f"--like: the library holds no setup and no car '{name}'; it holds {have}")
    return bench.library.car(name)


def _aim(bench: Workbench, corner: Corner, wanted: tuple[Wanted, ...]) -> Aim:
    from dynoan.analysis.choosing.aims import Aim

    shock = bench.corner_shock(corner, corner.pack) if corner.pack in bench.library.packs() and corner.pack else None
    own = shock if shock is not None and shock.stated else None
    return Aim(
        corner,
        wanted,
        now=shock.to_closed(corner.clicks) if shock is not None and corner.clicks else None,
        last=None if own is None else {a.name: a.clicks for a in own.adjusters},
    )


def counted(shocks: Sequence[Shock]) -> str:
    """Return in words how the clicks of shocks are counted."""
    ways = {a.counted for shock in shocks for a in shock.adjusters}
    if len(ways) == 1:
        return f"clicks counted {ways.pop()}"
    per = dict.fromkeys(f"{a.name} {a.counted}" for shock in shocks for a in shock.adjusters)
    return f"clicks counted: {', '.join(per)}"


def _asked(wish: Wish) -> tuple[float | None, float | None]:
    from dynoan.jobs.ratio import shock_velocity

    low, high = (None if v is None else shock_velocity(v, p) for v, p in ((wish.low, "low"), (wish.high, "high")))
    return low, high
