"""``shocks/NAME.toml``: a shock's adjusters, how its clicks count, and its sizes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dynoan.errors import QuantityError
from dynoan.library.stop_curves import stop_curves
from dynoan.library.tables import TomlTable
from dynoan.library.toml_text import parse_toml
from dynoan.model.links import STOPS
from dynoan.model.shock import ADJUSTERS, Adjuster, Counted, Shock

MOST_CLICKS = 200
#: least and most that any shock for a car has; common practice, no source
SIZES = {"rod": (3e-3, 0.06), "piston": (0.01, 0.2), "stroke": (5e-3, 1.0)}
GAS = (0.0, 1e7)  #: gauge pressure [Pa]
_KEYS = ("rod", "piston", "stroke", "gas_pressure", "counted", "adjusters", *STOPS)
#: what could stand at a key, where a reading is to go on after a fault
STAND_INS: Mapping[str, Any] = {"clicks": 20}
_COUNTED = ("from closed", "from soft")


def shock_from_text(text: str, file: str, name: str) -> Shock:
    """Return the shock that a shock file describes.

    Raises
    ------
    QuantityError
        If the text is not TOML, or a key is unknown, missing, or its value impossible; file and key are named.
    """
    return shock_from_data(parse_toml(text, file), file, name)


def shock_from_data(data: Mapping[str, Any], file: str, name: str) -> Shock:
    """Return the shock that a shock file's tables describe; `shock_from_text` with the TOML already parsed."""
    top = TomlTable(data, file, _KEYS)
    counted = top.choice("counted", _COUNTED) or "from closed"
    adjusters = top.table("adjusters", ADJUSTERS)
    found = () if adjusters is None else tuple(_adjuster(adjusters, key, counted) for key in adjusters.data)
    _refuse_doubles(top, {a.name for a in found})
    sizes = {key: _bounded(top, key, "length", *SIZES[key]) for key in SIZES}
    if (rod := sizes["rod"]) and (piston := sizes["piston"]) and rod >= piston:
        raise top.fault(
            "rod",
            f"'{top.data['rod']}' is not thinner than the piston of '{top.data['piston']}' that it stands on",
            hint="check both",
        )
    gas = _bounded(top, "gas_pressure", "pressure", *GAS)
    bump, droop = (stop_curves(top).get(key) for key in STOPS)
    return Shock(name, found, sizes["rod"], sizes["piston"], sizes["stroke"], gas, bump, droop)


def _adjuster(adjusters: TomlTable, name: str, counted: str) -> Adjuster:
    table = adjusters.table(name, ("clicks", "counted"))
    assert table is not None  # the key was just seen
    clicks = table.whole("clicks", 1, MOST_CLICKS)
    if clicks is None:
        raise table.fault("clicks", "missing", hint="write the last position, such as clicks = 20")
    way: Counted = table.choice("counted", _COUNTED) or counted  # type: ignore[assignment]
    return Adjuster(name, clicks, way)


def _refuse_doubles(top: TomlTable, names: set[str]) -> None:
    for one, others in (("c", {"lsc", "hsc", "cr"}), ("r", {"lsr", "hsr", "cr"}), ("cr", {"lsc", "hsc", "lsr", "hsr"})):
        if one in names and names & others:
            other = sorted(names & others)[0]
            raise top.fault(f"adjusters.{one}", f"stands beside {other}, which turns the same", hint="keep one of them")


def _bounded(table: TomlTable, key: str, kind: str, low: float, high: float) -> float | None:
    value = table.quantity(key, kind)
    if value is not None and not low <= value <= high:
        raise QuantityError(
            f"'{table.data[key]}' is no shock's", where=table.where(key), hint="check the number and its unit"
        )
    return value
