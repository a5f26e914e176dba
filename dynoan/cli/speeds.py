"""Speeds as typed on the command line: a bare number is in the unit of the tables shown."""

from __future__ import annotations

import contextlib
import math

from dynoan.cli.call import Call
from dynoan.errors import DynoanError, QuantityError
from dynoan.units import shown

LOW = ("The low speed at the shock, with a unit or in the unit of the tables shown. Default: the targets' own, "
       "else 0.05 m/s or 2 in/s.")  # fmt: skip
HIGH = "The high speed at the shock, as --low. Default: the targets' own, else 0.25 m/s or 10 in/s."
HELP = "Speeds of the table, both directions, with a unit ('0.05 m/s,2 in/s') or in the unit of the tables shown."
LEAST = 1.0  #: a bare number below this is more likely meant in another unit than in mm/s or in/s


def with_units(call: Call, at: str | None, part: str = "at") -> str | None:
    """Return the speeds of an option, each with its unit: bare ones get that of the tables shown.

    Raises
    ------
    QuantityError
        If a bare number is too small to be a speed in that unit.
    """
    words = [] if at is None else [word.strip() for word in at.split(",")]
    bare = [word for word in words if _number(word) is not None]
    if not bare:
        return at
    if call.units is None:
        with contextlib.suppress(DynoanError):  # no library: rig files alone are shown as told
            call.workbench()
    unit = shown("velocity", call.shown_units).unit
    for word in bare:
        if 0 < abs(_number(word) or 0) < LEAST:
            how = f"write '{word} m/s' or '{word} {unit}'"
            raise QuantityError(f"'{word}' has no unit and would be {word} {unit}", hint=how, part=part)
    return ",".join(f"{word} {unit}" if word in bare else word for word in words)


def _number(word: str) -> float | None:
    try:
        value = float(word)
    except ValueError:
        return None
    return value if math.isfinite(value) else None
