"""What the trackside page is made of, gathered from the library."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from dynoan.cli.call import progress
from dynoan.errors import CallError, DynoanError
from dynoan.show.pages.trackside.view import RankedChoice, TracksideView

if TYPE_CHECKING:
    from dynoan.analysis.choosing.choice import Choice
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
        choices=ranked(call, bench, car, maps, counting), setups=tuple(own[:SETUPS]), car_text=car_text,
        corner_text=corner_text, warnings=tuple(f"{m.pack}: {note}" for m in maps.values() for note in m.notes),
    )  # fmt: skip


def _maps(call: Call, bench: Workbench, packs: Sequence[str]) -> dict[str, ClickMap]:
    maps: dict[str, ClickMap] = {}
    with progress(list(packs or bench.library.packs()), "packs", call) as names:
        for pack in names:
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
    call: Call, bench: Workbench, car: Car, maps: Mapping[str, ClickMap], counting: Mapping[str, Mapping[str, Shock]]
) -> tuple[RankedChoice, ...]:
    """Return the settings that `dynoan choose` ranks highest for each axle with targets, as the page shows them."""
    return tuple(_row(choice, corners, counting) for corners, choice in best(call, bench, car, tuple(maps.values())))


def best(call: Call, bench: Workbench, car: Car, maps: Sequence[ClickMap]) -> list[tuple[tuple[str, ...], Choice]]:
    """Return what `dynoan choose` ranks highest for each axle with targets, best first, with the corners it is for."""
    from dynoan.jobs.choose import best_settings

    try:
        return [(found.corners, found.choice) for found in best_settings(bench, car, maps, RANKED)]
    except DynoanError as error:
        call.warn(f"car {car.name}: no ranked settings: {error}")
        return []


def _row(choice: Choice, corners: Sequence[str], counting: Mapping[str, Mapping[str, Shock]]) -> RankedChoice:
    ratio: dict[str, dict[str, float | None]] = {"compression": {}, "rebound": {}}
    for (direction, level), banded in choice.ratio.items():
        ratio[direction][level] = banded.value
    clicks = {name: counting[name][choice.pack].to_counted(choice.clicks) for name in corners}
    return RankedChoice(choice.where, choice.pack, clicks, ratio, choice.miss, choice.standing)
