"""What `travel` found in a log, as people read it in a terminal."""

from __future__ import annotations

import re
from math import isfinite

from dynoan.analysis.travel.summary import CornerTravel, PartTravel
from dynoan.jobs.travel.found import SIDE, LoggedShock, PartSide, TravelAnswer
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.signs import percent
from dynoan.units import Shown, enumerated, factor, parse, shown


def blocks(answer: TravelAnswer, look: Look) -> list[Block]:
    """Return how the log was understood, then a table of speeds and, with curves, one of knees and energy."""
    ranges = _ranges(answer, look)
    return [
        *(Paragraph(understood(shock, look.units)) for shock in answer.shocks),
        Paragraph(f"Parts: {answer.parts_from}."),
        _speeds(answer, look.units),
        *([ranges] if ranges.rows else []),
        *(Paragraph(text) for shock in answer.shocks if (text := asked_for(shock, look.units))),
    ]


def asked_for(shock: LoggedShock, units: Shown) -> str:
    """Return which speeds to ask the dyno for, empty where the tests hold all that was logged."""
    velocity, curve = shown("velocity", units), shock.travel.curve
    if curve is None or not shock.to_ask_for():
        return ""
    told = [
        f"{velocity.text(speed)} in {d} (logged up to {velocity.text(shock.travel.parts['all'].peak[d], unit=False)}, "
        f"tested to {velocity.text(curve.side(d).top_speed, unit=False)})"
        for d, speed in shock.to_ask_for().items()
    ]
    return f"{CORNER_NAMES[shock.corner]}: never tested so fast; ask for {enumerated(told)} next time."


def understood(shock: LoggedShock, units: Shown = "metric") -> str:
    """Return how a shock's column was understood."""
    moved, at = shock.travel.motion, shown("length", units).text(shock.at)
    return (
        f"{CORNER_NAMES[shock.corner]}: column '{shock.column.name}' at {1 / moved.step:.0f} Hz, "
        f"{_scale(shock.scale, units)}, compression taken as positive, zero {at} ({shock.zero}); {moved.smoothing.text}"
    )


def _scale(given: str, units: Shown) -> str:
    """Return a scale as it was given; in US units a metric one to three figures, as a rounded one would be another."""
    parts = re.fullmatch(r"(.+?)\s*(?:\bper\b|/)\s*(\S+)", given)
    if units == "metric" or parts is None or re.search(r"\bin\b|\"", parts[1]):
        return given
    return f"{parse(parts[1], 'length') / factor('in', 'length'):.3g} in per {parts[2]}"


def _speeds(answer: TravelAnswer, units: Shown) -> Table:
    length = shown("length", units)
    heads = [f"{m.words} [{m.unit_text(units)}]" if m.kind else m.words for m in SIDE]
    rows = [
        _speed_row(shock, part, direction, units)
        for shock in answer.shocks
        for part in shock.travel.parts.values()
        for direction in DIRECTIONS
    ]
    columns = ["shock", "part", "seconds", "still", "direction", *heads, f"furthest [{length.unit}]",
               "at the end of its travel"]  # fmt: skip
    return Table(columns, rows)


def _speed_row(shock: LoggedShock, part: PartTravel, direction: Direction, units: Shown) -> list[str]:
    first = direction == "compression"
    end, reached = (part.bottomed, part.deepest) if first else (part.topped, part.longest)
    side = PartSide(part, direction)
    return [
        CORNER_NAMES[shock.corner] if first and part.name == "all" else "", part.name if first else "",
        f"{part.seconds:.1f}" if first else "", percent(part.still) if first else "", direction,
        *(m.text(side, units) for m in SIDE),
        ("at least " if shock.at_least(part, direction) else "")
        + shown("length", units).text(max(reached, 0.0), unit=False),
        "–" if end is None else f"{end.times} x, {end.seconds:.2f} s",
    ]  # fmt: skip


def _ranges(answer: TravelAnswer, look: Look) -> Table:
    velocity, energy = shown("velocity", look.units), shown("energy", look.units)
    rows = [
        row
        for shock in answer.shocks
        for part in _telling(shock.travel, look.more)
        for row in _range_rows(shock.travel, part, look.units)
    ]
    columns = [
        "shock",
        "part",
        "direction",
        f"speed [{velocity.unit}]",
        "time",
        f"energy [{energy.unit}]",
        "of all energy",
    ]
    return Table(columns, rows, "Between the knees of what is on the car (time: of the time in that direction)")


def _telling(found: CornerTravel, more: bool) -> list[PartTravel]:
    """Return the parts whose ranges people see: the named ones and the rest, or the whole run; all with more."""
    parts = list(found.parts.values())
    return parts if more or len(parts) == 1 else [p for p in parts if p.name != "all"]


def _range_rows(found: CornerTravel, part: PartTravel, units: Shown) -> list[list[str]]:
    velocity, energy = shown("velocity", units), shown("energy", units)
    heads = part is _telling(found, False)[0]
    rows = []
    for i, r in enumerate(part.ranges):
        low, high = (velocity.text(v, unit=False) if isfinite(v) else "" for v in (r.start, r.end))
        span = f"{low} to {high}" if high else (f"over {low}" if r.start else "all")
        rows.append([
            CORNER_NAMES[found.corner] if i == 0 and heads else "", part.name if i == 0 else "", r.direction, span,
            percent(r.time), energy.text(r.energy, unit=False), percent(r.share) if isfinite(r.share) else "–",
        ])  # fmt: skip
    return rows
