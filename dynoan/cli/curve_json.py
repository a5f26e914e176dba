"""One curve as the JSON object that others rely on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from dynoan.errors import CallError, QuantityError
from dynoan.model.curve import DIRECTIONS, Curve, Side

#: speeds shown where none are asked for, as far as the data go [m/s]
USUAL = (0.013, 0.025, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.3, 1.6, 2.0)


def parse_speeds(text: str | None) -> tuple[float, ...] | None:
    """Return the speeds in text such as "0.025,0.05" (m/s) or "1 in/s, 2 in/s"; None stays None. [m/s]

    Raises
    ------
    CallError
        If a part is no speed above zero.
    """
    if text is None:
        return None
    from dynoan.units import parse

    speeds = []
    for part in filter(None, (p.strip() for p in text.split(","))):
        try:
            speeds.append(abs(float(part)))
        except ValueError:
            try:
                speeds.append(abs(parse(part, "velocity")))
            except QuantityError as error:
                raise CallError(f"--at: {error}") from None
    if not speeds or not all(math.isfinite(s) and s > 0 for s in speeds):
        raise CallError(f"--at: '{text}' holds no speeds above zero; write it like 0.025,0.05 (m/s) or '2 in/s'")
    return tuple(dict.fromkeys(speeds))


def speeds_for(curve: Curve, at: Sequence[float] | None) -> list[float]:
    """Return the speeds of a curve's table: those asked for, else the usual ones inside the data and the top. [m/s]"""
    if at is not None:
        return list(at)
    top = max(curve.compression.top_speed, curve.rebound.top_speed)
    inside = [s for s in USUAL if s <= 0.97 * top]
    return [*inside, round(top, 4)] if top > 0 else inside


def curve_json(curve: Curve, at: Sequence[float] | None = None) -> dict[str, Any]:
    """Return one curve as JSON: SI, knees and pieces in magnitudes, the table signed, damping force alone.

    Parameters
    ----------
    curve
        The curve.
    at
        Speeds of the table, taken in both directions [m/s]; the usual ones where None.
    """
    return {
        "what": curve.what, "shock": curve.shock, "pack": curve.pack, "clicks": dict(curve.clicks),
        "gas_force_n": curve.gas_force, "friction_n": curve.friction, "rms_n": curve.rms, "standing": curve.standing,
        **{direction: _side(curve.side(direction)) for direction in DIRECTIONS},
        "table": _table(curve, speeds_for(curve, at)),
        "temperature_c": curve.temperature, "sweeps": list(curve.sweeps), "findings": list(curve.findings),
    }  # fmt: skip


def _side(side: Side) -> dict[str, Any]:
    return {
        "knees": [{"velocity_m_s": k.velocity, "low_m_s": k.low, "high_m_s": k.high, "force_n": k.force}
                  for k in side.knees],
        "segments": [{"from_m_s": s.start, "to_m_s": s.end, "slope_n_s_m": s.slope, "character": s.character,
                      "bent": bool(s.bend)} for s in side.segments],
        "rms_n": side.rms, "samples": side.samples, "low_speed_m_s": side.low_speed, "top_speed_m_s": side.top_speed,
        "notes": list(side.notes),
    }  # fmt: skip


def _table(curve: Curve, speeds: Sequence[float]) -> list[dict[str, Any]]:
    signed = np.array([*(-s for s in sorted(speeds, reverse=True)), *sorted(speeds)])
    force = curve(signed)
    low, high = curve.band(signed)
    beyond = curve.extrapolated(signed) > 0
    return [
        {"velocity_m_s": float(v), "force_n": float(f), "low_n": float(a), "high_n": float(b), "extrapolated": bool(e)}
        for v, f, a, b, e in zip(signed, force, low, high, beyond, strict=True)
    ]


def beyond_words(curve: Curve, at: Sequence[float] | None) -> list[str]:
    """Return a warning for each direction in which a speed asked for lies beyond the data."""
    words = []
    for direction in DIRECTIONS:
        side = curve.side(direction)
        over = [s for s in at or () if s > side.top_speed * (1 + 1e-9)]
        if over and side.top_speed > 0:
            words.append(f"{curve.what}: {max(over):g} m/s lies beyond the data in {direction} (up to "
                         f"{side.top_speed:.3g} m/s): the last slope goes on and the band widens")  # fmt: skip
    return words
