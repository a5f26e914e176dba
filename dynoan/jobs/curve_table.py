"""What every curve says of itself in an answer: its record in SI, the speeds of its table, what lies beyond."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.conditioning.left_open.low_speed_untold import HARD, LOW, NOT_AT_ALL
from dynoan.analysis.statistics import Z95
from dynoan.errors import QuantityError
from dynoan.jobs.answering import quantity
from dynoan.model.arrays import BoolArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.side import Side
from dynoan.units import Shown

#: speeds shown where none are asked for, as far as the data go [m/s]
USUAL = (0.013, 0.025, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.3, 1.6, 2.0)
#: the same in a library of US units: round in in/s [m/s]
US_USUAL = tuple(0.0254 * s for s in (0.5, 1, 2, 4, 6, 8, 10, 12, 16, 20, 24, 32, 40, 50, 63, 80))
#: beyond this share of its top speed a usual speed would stand beside the top itself
CROWDED = 0.97
#: a speed beyond the top one by no more than this share reads as the top itself, in the three digits that are shown
HARDLY_BEYOND = 0.005

Speeds = tuple[float, ...]
#: speeds as people give them: "0.025,2 in/s", one number in m/s, or several of either
SpeedsAsked = str | float | Iterable[float | str] | None


def asked_speeds(given: SpeedsAsked, part: str = "at") -> Speeds | None:
    """Return the speeds asked for, each once, without sign; None stays None. [m/s]

    Raises
    ------
    QuantityError
        If one is no speed above zero.
    """
    if given is None:
        return None
    several = given.split(",") if isinstance(given, str) else [given] if isinstance(given, int | float) else given
    words = [w.strip() if isinstance(w, str) else w for w in several]
    found = [abs(quantity(w, "velocity", part, bare=True)) for w in words if w != ""]
    if not found or not all(math.isfinite(s) and s > 0 for s in found):
        shown = given if isinstance(given, str) else ", ".join(map(str, words))
        how = "write it like 0.025,0.05 (m/s) or '2 in/s'"
        raise QuantityError(f"'{shown}' holds no speeds above zero", hint=how, part=part)
    return tuple(dict.fromkeys(found))


def speeds_for(curve: Curve, at: Sequence[float] | None, units: Shown = "metric") -> list[float]:
    """Return the speeds of a curve's table: those asked for, else the usual ones inside the data and the top. [m/s]

    Records hold the metric ones whatever a library is shown in; people read round numbers in their own units.
    """
    if at is not None:
        return list(at)
    top = max(curve.compression.top_speed, curve.rebound.top_speed)
    inside = [s for s in (USUAL if units == "metric" else US_USUAL) if s <= CROWDED * top]
    return [*inside, round(top, 4)] if top > 0 else inside


def curve_dict(curve: Curve, at: Sequence[float] | None = None) -> dict[str, Any]:
    """Return one curve as plain values: SI, knees and pieces in magnitudes, the table signed, damping force alone.

    Parameters
    ----------
    curve
        The curve.
    at
        Speeds of the table, taken in both directions [m/s]; the usual ones where None.
    """
    return {
        "what": curve.what, "shock": curve.shock, "pack": curve.pack, "clicks": dict(curve.clicks),
        "gas_force_n": curve.gas_force, "friction_n": curve.friction, **_friction_band(curve),
        "rms_n": curve.rms, "standing": curve.standing,
        **{direction: _side(curve.side(direction)) | low_speed(curve, direction) for direction in DIRECTIONS},
        "table": table(curve, at),
        "temperature_c": curve.temperature, "sweeps": list(curve.sweeps), "findings": list(curve.findings),
    }  # fmt: skip


def _friction_band(curve: Curve) -> dict[str, float | None]:
    """Return the 95 % limits of friction, None where nothing tells them. [N]"""
    if not math.isfinite(curve.friction + curve.friction_sd):
        return {"friction_low_n": None, "friction_high_n": None}
    half = Z95 * curve.friction_sd
    return {"friction_low_n": max(0.0, curve.friction - half), "friction_high_n": curve.friction + half}


def low_speed(curve: Curve, direction: Direction) -> dict[str, Any]:
    """Return how well damping at low speed is known: half its band over it, and the word for that.

    Both None where the data do not reach so far.
    """
    side = curve.side(direction)
    if side.top_speed < LOW:
        return {"low_speed_doubt": None, "low_speed_verdict": None}
    force, (low, high) = float(side.force(LOW)), (float(limit) for limit in side.band(LOW))
    doubt = 0.5 * (high - low) / force if force > 0 else math.inf
    word = "told" if doubt < HARD else "hard to tell" if doubt < NOT_AT_ALL else "cannot tell"
    return {"low_speed_doubt": doubt if math.isfinite(doubt) else None, "low_speed_verdict": word}


def _side(side: Side) -> dict[str, Any]:
    return {
        "knees": [{"velocity_m_s": k.velocity, "low_m_s": k.low, "high_m_s": k.high, "force_n": k.force}
                  for k in side.knees],
        "segments": [{"from_m_s": s.start, "to_m_s": s.end, "slope_n_s_m": s.slope, "character": s.character,
                      "bent": bool(s.bend)} for s in side.segments],
        "rms_n": side.rms, "samples": side.samples, "low_speed_m_s": side.low_speed, "top_speed_m_s": side.top_speed,
        "notes": list(side.notes),
    }  # fmt: skip


#: the keys of a curve's table
TABLE = ("velocity_m_s", "force_n", "low_n", "high_n", "extrapolated", "sum_n", "sum_low_n", "sum_high_n")


def table(curve: Curve, at: Sequence[float] | None = None) -> list[dict[str, Any]]:
    """Return signed velocity, damping force and band at the speeds of both directions, a row each, keyed as `TABLE`.

    Beside them stands the sum of damping and friction with its band, None where the friction is not known.
    """
    speeds = speeds_for(curve, at)
    signed = np.array([*(-s for s in sorted(speeds, reverse=True)), *sorted(speeds)])
    low, high = curve.band(signed)
    summed = (curve.total(signed), *curve.total_band(signed))
    known = math.isfinite(curve.friction) or curve.compression.total is not None
    sums = summed if known else (np.full(len(signed), None),) * 3
    columns = (signed, curve(signed), low, high, is_beyond(curve, signed), *sums)
    return [dict(zip(TABLE, row, strict=True)) for row in zip(*(c.tolist() for c in columns), strict=True)]


def is_beyond(curve: Curve, velocity: ArrayLike) -> BoolArray:
    """Return whether signed velocities lie beyond the data, so far that the digits shown tell it; of their shape."""
    return np.asarray(curve.extrapolated(np.asarray(velocity, dtype=float) / (1 + HARDLY_BEYOND)) > 0)


def beyond(curve: Curve, at: Sequence[float] | None) -> list[str]:
    """Return a warning for each direction in which a speed asked for lies beyond the data."""
    words = []
    for direction in DIRECTIONS:
        side = curve.side(direction)
        over = [s for s in at or () if s > side.top_speed * (1 + HARDLY_BEYOND)]
        if over and side.top_speed > 0:
            words.append(f"{curve.what}: {max(over):g} m/s lies beyond the data in {direction} (up to "
                         f"{side.top_speed:.3g} m/s): the last slope goes on and the band widens")  # fmt: skip
    return words
