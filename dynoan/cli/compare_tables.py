"""Tables of `dynoan compare`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.authority import Coverage
    from dynoan.analysis.matching.compare import Crossing
    from dynoan.cli.call import Call
    from dynoan.model.curve import Curve
    from dynoan.units import Shown


def comparison_rows(curves: Sequence[Curve], at: tuple[float, ...] | None) -> list[dict[str, Any]]:
    """Return force of every curve and difference from the first, by direction and speed; None beyond its data."""
    from dynoan.cli.curve_json import speeds_for
    from dynoan.model.curve import DIRECTIONS

    speeds = sorted({s for curve in curves for s in speeds_for(curve, at)}) if at is None else list(at)
    rows = []
    for direction in DIRECTIONS:
        sides = [curve.side(direction) for curve in curves]
        for speed in speeds:
            force = [float(s.force(speed)) if _holds(s, speed) else None for s in sides]
            first = force[0]
            off = [100 * (f / first - 1) if f is not None and first else None for f in force]
            if sum(f is not None for f in force) > 1:
                rows.append({"direction": direction, "velocity_m_s": speed, "force_n": force, "difference_pct": off})
    return rows if at is not None else _thinned(rows)


def _holds(side: Any, speed: float) -> bool:
    return bool(side.low_speed * 0.9 <= speed <= side.top_speed * 1.001)


def _thinned(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Leave out speeds within 8 % of the one before: the tops of several curves crowd."""
    out: list[dict[str, Any]] = []
    for row in rows:
        last = out[-1] if out else None
        near = last and last["direction"] == row["direction"] and row["velocity_m_s"] < 1.08 * last["velocity_m_s"]
        if not near:
            out.append(row)
    return out


def show(
    call: Call, labels: Sequence[str], rows: Sequence[dict[str, Any]], crossed: Sequence[Crossing],
    covered: dict[str, tuple[Coverage, ...]],
) -> None:  # fmt: skip
    """Print the comparison for people."""
    from dynoan.model.curve import DIRECTIONS
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    units = call.shown_units
    force, velocity = shown("force", units), shown("velocity", units)
    for i, label in enumerate(labels):
        call.say(f"{letter(i)}  {label}")
    for direction in DIRECTIONS:
        mine = [row for row in rows if row["direction"] == direction]
        if not mine:
            continue
        call.say()
        columns = [f"velocity {velocity.unit}", *(f"{letter(i)} {force.unit}" for i in range(len(labels))),
                   *(f"{letter(i)} against A" for i in range(1, len(labels)))]  # fmt: skip
        table(columns, [_cells(row, units) for row in mine], direction)
    for one in crossed:
        call.say(f"{one.direction}: {letter(one.first)} is the stiffer below {velocity.text(one.speed)}, "
                 f"{letter(one.second)} above")  # fmt: skip
    for pack, spans in covered.items():
        for span in spans:
            where = f"from {velocity.text(span.low)} to {velocity.text(span.high)}"
            say = f"{span.adjuster} has the most say {where} (up to {span.percent:.1f} % a click)"
            call.say(f"pack {pack}, {span.direction}: {say}")


def letter(i: int) -> str:
    """Return the letter of the i-th curve in the tables."""
    return "ABCDEFGHIJ"[i]


def _cells(row: dict[str, Any], units: Shown) -> list[str]:
    from dynoan.units import shown

    force, velocity = shown("force", units), shown("velocity", units)
    forces = [force.text(f, unit=False) if f is not None else "–" for f in row["force_n"]]
    off = [f"{d:+.1f} %" if d is not None else "–" for d in row["difference_pct"][1:]]
    return [velocity.text(row["velocity_m_s"], unit=False), *forces, *off]


def print_csv(labels: Sequence[str], rows: Sequence[dict[str, Any]]) -> None:
    """Print the comparison as CSV in SI."""
    from dynoan.show.text.tables import csv_text

    columns = ["direction", "velocity_m_s", *(f"force_n {x}" for x in labels),
               *(f"difference_pct {x}" for x in labels[1:])]  # fmt: skip
    body = [[r["direction"], r["velocity_m_s"], *r["force_n"], *r["difference_pct"][1:]] for r in rows]
    click.echo(csv_text(columns, body), nl=False)
