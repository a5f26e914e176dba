"""Logged travel as tables for people and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import TYPE_CHECKING, Any

from dynoan.cli.call import Call
from dynoan.cli.travel_inputs import corner_name
from dynoan.model.curve import DIRECTIONS
from dynoan.units import Display, shown

if TYPE_CHECKING:
    from dynoan.analysis.travel.summary import CornerTravel, PartTravel
    from dynoan.cli.travel import Channel


def show(call: Call, channels: Sequence[Channel], results: Sequence[CornerTravel], parts_from: str) -> None:
    """Print how the log was understood, then a table of speeds and, with curves, one of knees and energy."""
    if call.json:
        return
    from dynoan.show.text.tables import table

    units = call.shown_units
    velocity, length = shown("velocity", units), shown("length", units)
    for channel in channels:
        moved = channel.motion
        call.say(
            f"{corner_name(channel.corner)}: column '{channel.column.name}' at {1 / moved.step:.0f} Hz, "
            f"{channel.scale}, compression positive, zero {channel.zero}; {moved.smoothing.text}"
        )
    call.say(f"Parts: {parts_from}.")
    speeds = [f"{name} [{velocity.unit}]" for name in ("rms", "95 % slower", "peak")]
    columns = ["shock", "part", "seconds", "still", "direction", "time", *speeds]
    columns += [f"furthest [{length.unit}]", "at the end"]
    rows = [row for r in results for part in r.parts.values() for row in _speed_rows(r, part, (velocity, length))]
    table(columns, rows)
    ranges = [row for r in results for part in _telling(r, call.verbose) for row in _range_rows(r, part, velocity)]
    if ranges:
        columns = ["shock", "part", "direction", f"speed [{velocity.unit}]", "time", "energy [J]", "of all energy"]
        table(columns, ranges, title="Between the knees of what is on the car (time: of the time in that direction)")


def _telling(result: CornerTravel, verbose: int) -> list[PartTravel]:
    """Return the parts whose ranges people see: the named ones and the rest, or the whole run; all with -v."""
    parts = list(result.parts.values())
    return parts if verbose or len(parts) == 1 else [p for p in parts if p.name != "all"]


def _speed_rows(result: CornerTravel, part: PartTravel, units: tuple[Display, Display]) -> list[list[str]]:
    velocity, length = units
    out = []
    for direction in DIRECTIONS:
        bump = direction == "compression"
        end = part.bottomed if bump else part.topped
        reached = part.deepest if bump else part.longest
        out.append([
            corner_name(result.corner) if bump and part.name == "all" else "", part.name if bump else "",
            f"{part.seconds:.1f}" if bump else "", f"{part.still:.0%}" if bump else "", direction,
            f"{part.moving[direction]:.0%}", *(velocity.text(v[direction], unit=False) for v in
                                               (part.typical, part.most, part.peak)),
            length.text(max(reached, 0.0), unit=False), "–" if end is None else f"{end[0]} x, {end[1]:.2f} s",
        ])  # fmt: skip
    return out


def _range_rows(result: CornerTravel, part: PartTravel, velocity: Display) -> list[list[str]]:
    out = []
    for i, r in enumerate(part.ranges):
        low, high = (velocity.text(v, unit=False) if isfinite(v) else "" for v in (r.start, r.end))
        span = f"{low} to {high}" if high else (f"over {low}" if r.start else "all")
        first = i == 0
        heads = part.name == next(p.name for p in _telling(result, 0))
        energy_share = f"{r.share:.0%}" if r.share == r.share else "–"
        out.append([corner_name(result.corner) if first and heads else "", part.name if first else "",
                    r.direction, span, f"{r.time:.0%}", f"{r.energy:.1f}", energy_share])  # fmt: skip
    return out


def to_json(channels: Sequence[Channel], results: Sequence[CornerTravel]) -> dict[str, Any]:
    """Return everything as JSON, SI, rebound as magnitudes except in the signed histogram."""
    corners = {}
    for channel, result in zip(channels, results, strict=True):
        s = channel.motion.smoothing
        corners[channel.corner] = {
            "column": channel.column.name, "unit": channel.column.unit, "scale": channel.scale, "zero": channel.zero,
            "rate_hz": 1 / channel.motion.step, "gaps": channel.motion.gaps,
            "filter": {"kind": "Savitzky-Golay", "window_s": s.window, "samples": s.samples, "order": s.order,
                       "cutoff_hz": s.cutoff, "velocity_noise_m_s": s.noise, "travel_noise_m": s.travel_noise},
            "still_below_m_s": result.still_below,
            "parts": {name: _part_json(part) for name, part in result.parts.items()},
        }  # fmt: skip
    return {"corners": corners}


def _part_json(part: PartTravel) -> dict[str, Any]:
    directions: dict[str, Any] = {
        str(d): {
            "time_share": part.moving[d], "rms_m_s": part.typical[d], "quantile_95_m_s": part.most[d],
            "peak_m_s": part.peak[d],
            "knees": [{"velocity_m_s": k.velocity, "below_share": k.below, "above_share": k.above}
                      for k in part.knees if k.direction == d],
            "ranges": [{"from_m_s": r.start, "to_m_s": r.end, "time_share": r.time, "energy_j": r.energy,
                        "energy_share": r.share} for r in part.ranges if r.direction == d],
        }
        for d in DIRECTIONS
    }  # fmt: skip
    ends = {
        key: None if found is None else {"times": found[0], "seconds": found[1]}
        for key, found in (("bottoming", part.bottomed), ("topping", part.topped))
    }
    return {
        "seconds": part.seconds, "still_share": part.still, **directions, **ends, "deepest_m": part.deepest,
        "longest_m": part.longest, "beyond_tested_share": part.beyond_tested,
        "histogram": {"edges_m_s": part.histogram.edges, "share": part.histogram.share},
    }  # fmt: skip
