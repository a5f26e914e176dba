"""Cars by name: of the library, of a car file, or of a recorded setup."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.errors import LookupFault
from dynoan.jobs.car_spread import beyond_any_car
from dynoan.model.car import Car
from dynoan.model.car_doubts import doubts

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


def car_or_setup(bench: Workbench, name: str, part: str) -> Car:
    """Return the car of a recorded setup, else a car by its name or its file's path.

    Raises
    ------
    LookupFault
        If the library knows neither; `part` is the part of the question that named it.
    QuantityError
        If a car's file is wrong.
    """
    if not name.endswith(".toml"):
        setups = {setup.name: setup for setup in bench.library.setups()}
        if name in setups:
            return setups[name].car
        if name not in bench.library.cars():
            have = ", ".join([*setups, *bench.library.cars()]) or "none"
            raise LookupFault(f"the library holds no setup and no car '{name}'", hint=f"it holds {have}", part=part)
    return bench.library.car(name)


def said_of(bench: Workbench, car: Car) -> list[str]:
    """Return what a person should know before trusting figures of a car, in words.

    What its file likely has wrong, and what hangs on packs and clicks, see `untold_of`.
    """
    return [*doubted(car), *untold_of(bench, car)]


def untold_of(bench: Workbench, car: Car) -> list[str]:
    """Return which shocks were never tested with the pack that is on them, and which clicks are left out, in words."""
    return [*bench.untested(car), *bench.unsaid(car)]


def doubted(car: Car) -> list[str]:
    """Return what a car's file likely has wrong, in words."""
    where = car.file or f"car {car.name}"
    return [f"{where}: {said}" for said in (*map(str, doubts(car)), *beyond_any_car(car))]
