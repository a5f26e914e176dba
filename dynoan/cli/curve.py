"""``dynoan curve``: fitted curves with knees, slopes, gas, friction and bands."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from dynoan.cli.call import Call, cluster_option, command
from dynoan.cli.reading_options import reading_options

if TYPE_CHECKING:
    from dynoan.model.curve import Curve, Side
    from dynoan.model.importing import ReadOptions
    from dynoan.units import Shown
    from dynoan.workbench import Resolved


@command(
    epilog="Example:  dynoan curve pack=gravel,lsc=6 --at 0.025,0.05,'2 in/s' --plot gravel.png",
    short_help="Fit and show curves: knees, slopes, gas, friction, bands.",
)
@click.argument("what", metavar="WHAT...", nargs=-1, required=True)
@reading_options
@click.option("--at", metavar="SPEEDS", help="Speeds of the table, both directions: m/s, or with a unit ('2 in/s').")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
@click.option("--csv", is_flag=True, help="Print the table as CSV (SI) and nothing else.")
@cluster_option
def curve(call: Call, what: tuple[str, ...], options: ReadOptions, at: str | None, plot: Path | None, csv: bool) -> int:
    """Fit and show curves: knees, slopes, gas force, friction, and 95 % bands.

    WHAT is a rig's file, a sweep's id, or a setting: pack=gravel,lsc=6 or gravel@lsc=6,lsr=8 or shock=RL-02. Damping
    force alone is shown: what was found and taken out (gas, zero, friction, lag) is listed line by line.
    """
    from dynoan.cli.curve_json import beyond_words, curve_json, parse_speeds

    speeds = parse_speeds(at)
    found = [resolved for one in what for resolved in _resolve(call, one, options)]
    for one in found:
        for text in (*one.curve.warnings, *beyond_words(one.curve, speeds)):
            call.warn(text if text.startswith(one.curve.what) or len(found) == 1 else f"{one.label}: {text}")
    if csv and not call.json:
        _print_csv(found, speeds)
    elif not call.json:
        for one in found:
            _show(call, one, speeds)
    if plot is not None:
        _draw(found, plot, call.shown_units)
        call.note(f"picture: {plot}")
    curves = [{**curve_json(one.curve, speeds), "what": one.label} for one in found]
    return call.result({"curves": curves, **({"plot": str(plot)} if plot else {})})


def _resolve(call: Call, what: str, options: ReadOptions) -> tuple[Resolved, ...]:
    from dynoan.cli.compare import from_library

    if Path(what).is_file() or Path(what).is_dir():
        from dynoan.cli.reading_options import with_layouts
        from dynoan.workbench import resolve_file

        return resolve_file(Path(what), with_layouts(call, options))
    return from_library(call, what)


def _show(call: Call, one: Resolved, at: tuple[float, ...] | None) -> None:
    from dynoan.cli.curve_json import speeds_for
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    units, fitted = call.shown_units, one.curve
    force, speed = shown("force", units), shown("velocity", units)
    setting = " ".join(
        filter(None, (fitted.shock, fitted.pack, ",".join(f"{k}={v}" for k, v in fitted.clicks.items())))
    )
    call.say(f"{one.label}{f'  ({setting})' if setting and setting != one.label else ''}")
    stands = "" if fitted.standing == "tested" else f", standing: {fitted.standing}"
    call.say(f"gas force {force.text(fitted.gas_force)}, friction {force.text(fitted.friction)}, residual "
             f"{force.text(fitted.rms)} rms{stands}")  # fmt: skip
    rows = [r for name in ("compression", "rebound") for r in _piece_rows(name, getattr(fitted, name), units)]
    table(["direction", f"from {speed.unit}", f"to {speed.unit}", f"slope {shown('damping', units).unit}", "character",
           f"knee at its end {speed.unit}", f"force there {force.unit}"], rows)  # fmt: skip
    table([f"velocity {speed.unit}", f"compression {force.unit}", "95 % band", f"rebound {force.unit}", "95 % band"],
          [_force_row(fitted, s, units) for s in speeds_for(fitted, at)])  # fmt: skip
    if any(_beyond(fitted, s) for s in speeds_for(fitted, at)):
        call.say("* beyond the measured speeds")
    for note in (*fitted.compression.notes, *fitted.rebound.notes):
        call.say(f"note: {note}")
    if fitted.findings:
        call.say("found and taken out:")
    for line in fitted.findings:
        call.say(f"  {line}")
    call.say()


def _piece_rows(name: str, side: Side, units: Shown) -> list[list[str]]:
    from dynoan.units import shown

    speed, slope, force = shown("velocity", units), shown("damping", units), shown("force", units)
    rows = []
    for i, piece in enumerate(side.segments):
        knee = side.knees[i] if i < len(side.knees) else None
        law = f"force ~ v^{piece.exponent:.2f}" if not piece.slope_in else "bent"
        bent = f"{piece.character}, {law}" if piece.bend else piece.character
        where = f"{speed.text(knee.velocity, unit=False)} ({_range(knee.low, knee.high, speed.factor)})" if knee else ""
        rows.append([name, speed.text(piece.start, unit=False), speed.text(piece.end, unit=False),
                     slope.text(piece.slope, unit=False), bent, where,
                     force.text(knee.force, unit=False) if knee else ""])  # fmt: skip
    return rows


def _range(low: float, high: float, factor: float) -> str:
    return f"{low / factor:.1f} to {high / factor:.1f}"


def _beyond(fitted: Curve, speed: float) -> bool:
    return bool(fitted.extrapolated(speed) or fitted.extrapolated(-speed))


def _force_row(fitted: Curve, speed: float, units: Shown) -> list[str]:
    from dynoan.units import shown

    force, velocity = shown("force", units), shown("velocity", units)
    cells = [velocity.text(speed, unit=False)]
    for sign in (1.0, -1.0):
        low, high = fitted.band(sign * speed)
        half = 0.5 * float(high - low)
        mark = "*" if fitted.extrapolated(sign * speed) else ""
        cells += [force.text(abs(float(fitted(sign * speed))), unit=False) + mark,
                  f"± {half / force.factor:.{max(force.digits, 1)}f}" if half == half else "–"]  # fmt: skip
    return cells


def _print_csv(found: list[Resolved], at: tuple[float, ...] | None) -> None:
    from dynoan.cli.curve_json import curve_json
    from dynoan.show.text.tables import csv_text

    rows = [(one.label, *row.values()) for one in found for row in curve_json(one.curve, at)["table"]]
    click.echo(csv_text(("what", "velocity_m_s", "force_n", "low_n", "high_n", "extrapolated"), rows), nl=False)


def _draw(found: list[Resolved], path: Path, units: Shown) -> None:
    from dynoan.show.plots.curve import overlay, sweep_picture
    from dynoan.show.plots.style import save

    if len(found) == 1 and len(found[0].sweeps) == 1:
        figure = sweep_picture(found[0].sweeps[0], found[0].curve, units)
    else:
        figure = overlay([(one.label, one.curve) for one in found], units)
    save(figure, path)
