"""``dynoan travel``: which velocities logged travel shows, and how they fall on the curves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, Call, command
from dynoan.errors import CallError, DynoanError

if TYPE_CHECKING:
    from dynoan.analysis.travel.summary import CornerTravel, Ends, Part
    from dynoan.analysis.travel.velocity import Motion
    from dynoan.cli.logs import LogColumn
    from dynoan.model.arrays import FloatArray
    from dynoan.model.car import Car
    from dynoan.model.curve import Curve

EPILOG = """\b
Examples:
  dynoan travel run3.csv --car kestrel --plot travel.png
  dynoan travel run3.csv --corner rl=POT_3 --scale "-25 mm per V" --zero "2.1 V" --part launch=2.0..5.0
"""


@dataclass(frozen=True)
class Channel:
    """One shock's column, calibrated, and how it was understood."""

    corner: str
    column: LogColumn
    zero: str  #: where the zero comes from
    scale: str
    motion: Motion


@command(epilog=EPILOG)
@click.argument("log", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--car", "car_name", help="Lay the curves of what is on this car under the velocities.")
@click.option("--corner", "corners", multiple=True, metavar="fl=COLUMN", help="Which column is which shock.")
@click.option("--scale", "scales", multiple=True, metavar="[fl=]LENGTH per UNIT",
              help='Such as "25 mm per V"; minus where the number rises as the shock gets longer.')  # fmt: skip
@click.option("--zero", "zeros", multiple=True, metavar="[fl=]READING",
              help='The reading at rest, such as "2.1 V". Default: the median before the start.')  # fmt: skip
@click.option("--part", "parts", multiple=True, metavar="[NAME=]FROM..TO",
              help="A stretch of the run in seconds. Default: the launch, found by itself.")  # fmt: skip
@click.option("--window", help='Width of the velocity filter, such as "20 ms". Default: set from the record.')
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def travel(call: Call, log: Path, car_name: str | None, parts: tuple[str, ...], plot: Path | None, **told: Any) -> int:
    """Show which velocities logged shock travel holds: LOG is a CSV with time and the travel of one to four shocks.

    Time by velocity and direction, in the launch and the rest; with --car the time below and above each knee, the
    energy each range of speeds takes out, and how often the stroke ended.
    """
    from dynoan.cli.launch_inputs import check_plot
    from dynoan.cli.logs import read_log, time_of
    from dynoan.cli.travel_inputs import columns_of, parse_parts, per_corner

    check_plot(plot)
    columns = read_log(log)
    time, found = time_of(columns), columns_of(columns, per_corner(told["corners"], "--corner"))
    given = parse_parts(parts)
    start, how = _start(columns, time, found, told)
    chosen, said = given or _launch(start), "as given" if given else how
    channels = [_channel(corner, column, time, start, told) for corner, column in found.items()]
    curves, ends = _on_car(call, car_name, found)
    results = _results(channels, chosen, curves, ends)
    _warn(call, results, said if not given else None)
    from dynoan.cli.travel_tables import show, to_json

    show(call, channels, results, said)
    if plot is not None:
        from dynoan.show.plots.travel import picture

        call.note(f"picture: {picture(plot, results, call.shown_units)}")
    return call.result({"file": str(log), "parts_from": said} | to_json(channels, results), DONE)


def _scale_of(corner: str, told: Mapping[str, Any]) -> Any:
    from dynoan.cli.travel_inputs import parse_scale, per_corner

    text = per_corner(told["scales"], "--scale").get(corner)
    return None if text is None else parse_scale(text)


def _start(
    columns: tuple[LogColumn, ...], time: FloatArray, found: Mapping[str, LogColumn], told: Mapping[str, Any]
) -> tuple[float | None, str]:
    """Return when the car leaves the line, by its speed or else by its shocks, and how that was found."""
    from dynoan.analysis.travel.summary import start_from_shocks, start_from_speed
    from dynoan.analysis.travel.velocity import motion
    from dynoan.cli.logs import like
    from dynoan.cli.travel_inputs import in_metres

    speed = like(columns, r"\b(speed|v car|geschwindigkeit|vitesse)\b")
    if speed is not None and speed.unit:
        start = start_from_speed(time, speed.si("velocity"))
        if start is not None:
            return start, f"the launch begins at {start:.2f} s, by the column '{speed.name}'"
    moved = [motion(time, in_metres(c, _scale_of(corner, told))) for corner, c in found.items()]
    start = start_from_shocks(moved)
    if start is None:
        return None, "no launch found: the log does not begin at rest; name it with --part 2.0..5.0"
    return start, f"the launch begins at {start:.2f} s, when the shocks begin to move"


def _launch(start: float | None) -> tuple[Part, ...]:
    from dynoan.analysis.travel.summary import launch_part

    return () if start is None else (launch_part(start),)


def _channel(corner: str, column: LogColumn, time: FloatArray, start: float | None, told: Mapping[str, Any]) -> Channel:
    from dynoan.analysis.travel.summary import at_rest
    from dynoan.analysis.travel.velocity import motion
    from dynoan.cli.travel_inputs import in_metres, parse_zero, per_corner
    from dynoan.units import parse

    scale = _scale_of(corner, told)
    raw = in_metres(column, scale)
    zero_text = per_corner(told["zeros"], "--zero").get(corner)
    if zero_text is None:
        zero, whence = at_rest(time, raw, start)
    else:
        zero, whence = parse_zero(zero_text, column, scale), f"the reading {zero_text}"
    window = None if told["window"] is None else parse(told["window"], "time", where="--window")
    try:
        moved = motion(time, raw - zero, window=window)
    except DynoanError as error:
        raise CallError(f"{column.file}: column '{column.name}': {error}") from None
    return Channel(corner, column, whence, scale.text if scale else column.unit, moved)


def _on_car(call: Call, name: str | None, found: Mapping[str, LogColumn]) -> tuple[dict[str, Curve], dict[str, Ends]]:
    """Return the curve at each logged corner and the ends of its stroke."""
    from dynoan.analysis.travel.summary import Ends

    if name is None:
        return {}, {}
    bench = call.workbench()
    car: Car = bench.library.car(name)
    curves, ends = {}, {}
    for key in found:
        corner = car.corners[key]
        curves[key] = bench.corner_curve(car, corner)
        stops = (None if t is None else t * corner.shock_ratio for t in (corner.bump_travel, corner.droop_travel))
        ends[key] = Ends(*stops)
    return curves, ends


def _results(
    channels: list[Channel], parts: tuple[Part, ...], curves: Mapping[str, Curve], ends: Mapping[str, Ends]
) -> list[CornerTravel]:
    from dynoan.analysis.travel.summary import corner_travel

    return [
        corner_travel(c.corner, c.motion, parts, curve=curves.get(c.corner), ends=ends.get(c.corner)) for c in channels
    ]


def _warn(call: Call, results: list[CornerTravel], how: str | None) -> None:
    from dynoan.cli.travel_inputs import corner_name

    if how is not None and how.startswith("no launch"):
        call.warn(how)
    for result in results:
        where, moved = corner_name(result.corner), result.motion
        if 1 / moved.step < 200:
            call.warn(f"{where}: logged at {1 / moved.step:.0f} Hz; peaks of fast wheel motion are lost below 200 Hz")
        if moved.gaps:
            call.warn(f"{where}: {moved.gaps} gap(s) in the log were left out")
        beyond = result.parts["all"].beyond_tested
        if beyond > 0:
            call.warn(f"{where}: {beyond:.1%} of the time is faster than any test of its curve")
