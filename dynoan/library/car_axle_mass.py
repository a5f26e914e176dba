"""The mass on an axle, where a team has a scale for both its wheels and none for each: what it makes of the corners."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from dynoan.library.tables import TomlTable
from dynoan.model.car import AXLES, CORNERS, Corner, axle_of

KEY = "axle_mass"


def stated_masses(axles: Mapping[str, TomlTable | None]) -> dict[str, float]:
    """Return the masses that scales under whole axles show, by axle. [kg]

    Raises
    ------
    QuantityError
        If one is no mass, file and key named.
    """
    found = {axle: table.quantity(KEY, "mass") for axle, table in axles.items() if table is not None}
    return {axle: mass for axle, mass in found.items() if mass is not None}


def given_apart(data: Mapping[str, Any], corner: str) -> Any | None:
    """Return what a corner's file states as its own mass; None for nothing, or for a blank that was left empty."""
    own, axle = (data.get(name) for name in (corner, axle_of(corner)))
    stated = (table["mass"] for table in (own, axle) if isinstance(table, Mapping) and table.get("mass", "") != "")
    return next(stated, None)


def shared_out(top: TomlTable, stated: Mapping[str, float]) -> dict[str, float]:
    """Return the masses of corners whose files leave them to their axle: half of it, or what the other wheel leaves.

    Parameters
    ----------
    top
        The whole file.
    stated
        Of `stated_masses`.

    Raises
    ------
    QuantityError
        If both wheels of such an axle have a mass of their own.
    """
    out: dict[str, float] = {}
    for axle, mass in stated.items():
        pair = [c for c in CORNERS if axle_of(c) == axle]
        own = [c for c in pair if given_apart(top.data, c) is not None]
        table = TomlTable(top.data[axle], top.file, top.data[axle], axle)
        if len(own) == len(pair):
            both = " and ".join(f"{c}.mass" for c in own)
            raise table.fault(KEY, f"stands beside {both}, which say the same", hint="keep the one or the others")
        other = _own_mass(top, own[0]) if own else None
        rest = mass / 2 if other is None else mass - other
        if not rest > 0:
            raise table.fault(KEY, f"{mass:.4g} kg leave nothing beside the {other:.4g} kg of {own[0]}")
        out |= {c: rest for c in pair if c not in own}
    return out


def _own_mass(top: TomlTable, corner: str) -> float | None:
    return TomlTable(top.data[corner], top.file, top.data[corner], corner).quantity("mass", "mass")


def kept_whole(corners: Mapping[str, Corner], stated: Mapping[str, float]) -> dict[str, float]:
    """Return the axles' masses that still are what their corners carry together. [kg]"""
    return {
        axle: mass for axle, mass in stated.items()
        if math.isclose(sum(c.mass for c in corners.values() if axle_of(c.name) == axle), mass, rel_tol=1e-9)
    }  # fmt: skip


def write_whole(data: dict[str, Any], corners: Mapping[str, Corner], stated: Mapping[str, float]) -> None:
    """Put axles' masses into a car's tables in the place of their corners', but one where left and right differ."""
    for axle, mass in kept_whole(corners, stated).items():
        data[axle][KEY] = f"{mass:.12g} kg"
        left, right = (c for c in CORNERS if axle_of(c) == axle)
        data[right].pop("mass", None)
        if corners[left].mass == corners[right].mass:
            data[left].pop("mass", None)


def taken_apart(data: dict[str, Any], corners: Mapping[str, Corner], key: str) -> None:
    """Make room in a car's tables for a change: an axle's mass gives way to its corners', and they to it.

    Half of the axle's ± goes to each of its corners.
    """
    place, _, last = key.rpartition(".")
    for axle in AXLES:
        pair = [c for c in CORNERS if axle_of(c) == axle]
        if last == KEY and place == axle:
            for c in (axle, *pair):
                data.get(c, {}).pop("mass", None)
        elif last == "mass" and place in (axle, *pair) and KEY in data.get(axle, {}):
            spread = str(data[axle].pop(KEY)).partition("±")[2].strip()
            each = f" ± {float(spread.split()[0]) / 2:.12g}" if spread else ""
            for c in pair:
                data.setdefault(c, {})["mass"] = f"{corners[c].mass:.12g}{each} kg"
