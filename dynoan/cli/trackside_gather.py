"""What the trackside page is made of, gathered from the library."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from dynoan.errors import CallError, DynoanError
from dynoan.show.trackside_view import RankedChoice, TracksideView

if TYPE_CHECKING:
    from dynoan.analysis.choosing_aims import Place
    from dynoan.analysis.choosing_choice import Choice
    from dynoan.cli.call import Call
    from dynoan.model.car import Car
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.shock import Shock
    from dynoan.workbench import Workbench

RANKED = 5  #: settings an axle
SETUPS = 12


def gather(call: Call, bench: Workbench, car: Car, packs: Sequence[str], made: str) -> TracksideView:
    """Return the page's view of a car with some packs, or with every pack that the library has tested.

    Raises
    ------
    CallError
        If no pack can be shown.
    """
    maps = _maps(call, bench, packs)
    counting = {name: {p: bench.corner_shock(corner, p) for p in maps} for name, corner in car.corners.items()}
    car_text, corner_text = car_parts(car)
    setups, faults = bench.library.readable_setups()
    for fault in faults:
        call.warn(f"{fault.file}: left out: {fault.fault}")
    own = sorted((s for s in setups if s.car.name == car.name), key=lambda s: s.date, reverse=True)
    return TracksideView(
        car=car, maps=maps, counting=counting, made=made, units=call.shown_units,
        choices=ranked(call, car, maps, counting), setups=tuple(own[:SETUPS]), car_text=car_text,
        corner_text=corner_text, warnings=tuple(f"{m.pack}: {note}" for m in maps.values() for note in m.notes),
    )  # fmt: skip


def _maps(call: Call, bench: Workbench, packs: Sequence[str]) -> dict[str, ClickMap]:
    maps: dict[str, ClickMap] = {}
    for pack in packs or bench.library.packs():
        try:
            maps[pack] = bench.click_map(pack)
        except DynoanError as error:
            if packs:
                raise
            call.warn(f"pack {pack} is left out: {error}")
    if not maps:
        raise CallError("the library holds no pack to show; keep sweeps of one with dynoan add")
    return maps


def car_parts(car: Car) -> tuple[str, dict[str, str]]:
    """Return a car's file without what is turned on the page: the car, and the rest of each corner's table."""
    import tomllib

    import tomli_w

    from dynoan.library.car_file import car_to_text

    turned = {"mass", "spring", "pack", "clicks"}
    data = tomllib.loads(car_to_text(car))
    corners = {name: data.pop(name, {}) for name in car.corners}
    for axle in ("front", "rear"):
        data[axle] = {k: v for k, v in data.get(axle, {}).items() if k not in turned}
    rest = {name: {k: v for k, v in table.items() if k not in turned} for name, table in corners.items()}
    return tomli_w.dumps(data), {name: f"[{name}]\n" + tomli_w.dumps(table) for name, table in rest.items()}


def ranked(
    call: Call, car: Car, maps: Mapping[str, ClickMap], counting: Mapping[str, Mapping[str, Shock]]
) -> tuple[RankedChoice, ...]:
    """Return the settings nearest to the targets of each axle that has some, best first."""
    from dynoan.analysis.choosing import Rules, plans
    from dynoan.analysis.choosing_aims import Group

    out: list[RankedChoice] = []
    for place in places(car, counting):
        try:
            found = plans([Group(place.name, (place,))], tuple(maps.values()), Rules(count=RANKED))
        except DynoanError as error:
            call.warn(f"{place.name}: no choices on the page: {error}")
            continue
        out += [_row(choice, place, counting) for plan in found for choice in plan.choices]
    return tuple(out)


def places(car: Car, counting: Mapping[str, Mapping[str, Shock]]) -> list[Place]:
    """Return each axle that has targets, with what is wanted of its corners and what is on them now."""
    from dynoan.analysis.choosing_aims import Aim, Place, wanted_from

    found = []
    for axle, targets in car.targets.items():
        wanted = wanted_from(targets)
        if not wanted:
            continue
        aims = []
        for corner in car.axle(axle):
            shock = counting[corner.name].get(corner.pack or "")
            known = {a.name for a in shock.adjusters} if shock else set()
            clicks = {k: v for k, v in corner.clicks.items() if k in known}
            aims.append(Aim(corner, wanted, shock.from_closed(clicks) if shock else None))
        found.append(Place(axle, tuple(aims), targets.low_velocity, targets.high_velocity))
    return found


def _row(choice: Choice, place: Place, counting: Mapping[str, Mapping[str, Shock]]) -> RankedChoice:
    ratio: dict[str, dict[str, float | None]] = {"compression": {}, "rebound": {}}
    for (direction, level), banded in choice.ratio.items():
        ratio[direction][level] = banded.value
    names = [aim.corner.name for aim in place.aims]
    clicks = {name: as_counted(counting[name][choice.pack], choice.clicks) for name in names}
    return RankedChoice(choice.where, choice.pack, clicks, ratio, choice.miss, choice.standing)


def as_counted(shock: Shock, from_closed: Mapping[str, int]) -> dict[str, int]:
    """Return clicks from closed as a shock counts them; an adjuster that it does not have counts from closed."""
    known = {a.name: a for a in shock.adjusters}
    return {n: known[n].from_closed(c) if n in known else c for n, c in from_closed.items()}
