"""``dynoan predict``: the curve of a pack at any click, with its band and where it stands."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import Call, command

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.authority import Authority, DeadClicks
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.curve import Curve
    from dynoan.model.shock import Shock

EPILOG = """\b
Examples:
  dynoan predict gravel --clicks lsc=6,lsr=8
  dynoan predict gravel --clicks lsc=6 --clicks lsc=9 --at 0.05,0.25 --plot gravel.png
"""


@command(epilog=EPILOG, short_help="Give the curve at any click, tested or not.")
@click.argument("pack")
@click.option("--clicks", multiple=True, help="As the shock counts, such as lsc=6,lsr=8; may be given several times.")
@click.option("--shock", help="One of the shocks that carry the pack: its own force and its counting.")
@click.option("--at", metavar="SPEEDS", help="Speeds of the table, both directions: m/s, or with a unit ('2 in/s').")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def predict(
    call: Call, pack: str, clicks: tuple[str, ...], shock: str | None, at: str | None, plot: Path | None
) -> int:
    """Give the curve of PACK at any click, with its 95 % band and where it stands.

    Tested: a sweep of that setting is in the library. Between: it lies between tested clicks of every adjuster.
    Outside: it does not, and the band is wide. An adjuster left out sits where most tests sat. PACK may also be
    written with its clicks: gravel@lsc=6,lsr=8.
    """
    from dynoan.analysis.clickmap.authority import authority, dead_clicks
    from dynoan.cli.curve_json import beyond_words, curve_json, parse_speeds

    speeds = parse_speeds(at)
    bench = call.workbench()
    name, wanted = settings_of(pack, clicks)
    map = bench.click_map(name)
    counting = bench.counting_of(map, shock)
    curves = [curve_of(map, counting, one, shock) for one in wanted]
    worth, dead = authority(map, _base(map, counting, wanted[0])), dead_clicks(map)
    for text in [*map.notes, *(text for curve in curves for text in beyond_words(curve, speeds))]:
        call.warn(text)
    if not call.json:
        _show(call, map, counting, curves, (speeds, worth, dead))
    if plot is not None:
        from dynoan.show.plots.maps import prediction_figure
        from dynoan.show.plots.style import save

        tested = [t.curve for t in bench.tested(pack=name)]
        call.note(f"picture: {save(prediction_figure(map, curves, tested, worth, call.shown_units), plot)}")
    result = {"curves": [curve_json(curve, speeds) for curve in curves], **_json(map, counting, worth, dead)}
    return call.result(result)


def settings_of(pack: str, clicks: tuple[str, ...]) -> tuple[str, list[dict[str, int]]]:
    """Return the pack and the clicks asked for, from "gravel@lsc=6" or from --clicks; one empty setting where none.

    Raises
    ------
    CallError
        If clicks are given in both places.
    """
    from dynoan.errors import CallError
    from dynoan.model.shock import parse_clicks

    name, at, rest = pack.partition("@")
    if at and clicks:
        raise CallError(f"'{pack}' has clicks already; give them there or with --clicks, not both")
    texts = (rest,) if at else clicks or ("",)
    return name, [parse_clicks(text, where=f"'{pack}'" if at else "--clicks") for text in texts]


def curve_of(map: ClickMap, counting: Shock, clicks: dict[str, int], shock: str | None) -> Curve:
    """Return the curve of a map at clicks as `counting` counts them."""
    from dynoan.analysis.clickmap.mapping import curve_at

    from_closed = map.from_counted(counting, clicks)
    return curve_at(map, from_closed, clicks=counting.to_counted(from_closed), shock=shock)


def _base(map: ClickMap, counting: Shock, clicks: dict[str, int]) -> dict[str, int]:
    return map.from_counted(counting, clicks)


def _show(
    call: Call, map: ClickMap, counting: Shock, curves: list[Curve],
    more: tuple[tuple[float, ...] | None, tuple[Authority, ...], tuple[DeadClicks, ...]],
) -> None:  # fmt: skip
    from dynoan.cautions import CAUTIONS

    speeds, worth, dead = more
    tests = len(map.tested)
    loo = f", leave-one-out error {map.loo_error_pct:.1f} %" if map.loo_error_pct == map.loo_error_pct else ""
    call.say(f"pack {map.pack}: {map.view} view of {tests} tested setting{'s' if tests != 1 else ''} of "
             f"{', '.join(map.shocks)}{loo}; {counting.counted_words()}")  # fmt: skip
    if map.spread_pct == map.spread_pct:
        call.say(f"unit-to-unit spread of its shocks: {map.spread_pct:.1f} % (standard deviation)")
    for curve in curves:
        _show_curve(call, curve, speeds)
    show_authority(call, worth)
    for run in dead:
        call.say(f"{run.adjuster}: clicks {run.first} to {run.last} from closed change nothing")
    call.say(f"\n{CAUTIONS}")


def _show_curve(call: Call, curve: Curve, speeds: tuple[float, ...] | None) -> None:
    from dynoan.cli.curve_json import speeds_for
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    force, velocity = shown("force", call.shown_units), shown("velocity", call.shown_units)
    call.say(f"\n{curve.what}: {_standing(curve)}")
    rows = []
    for speed in speeds_for(curve, speeds):
        cells = [velocity.text(speed, unit=False)]
        for sign in (1.0, -1.0):
            low, high = curve.band(sign * speed)
            mark = "*" if curve.extrapolated(sign * speed) else ""
            half = float(high - low) / 2
            cells += [force.text(abs(float(curve(sign * speed))), unit=False) + mark,
                      f"± {half / force.factor:.{max(force.digits, 1)}f}"]  # fmt: skip
        rows.append(cells)
    table([f"velocity {velocity.unit}", f"compression {force.unit}", "95 % band", f"rebound {force.unit}", "95 % band"],
          rows)  # fmt: skip
    if any("*" in cell for row in rows for cell in row):
        call.say("* beyond the measured speeds")


def _standing(curve: Curve) -> str:
    return {
        "tested": "tested",
        "between": "between tested clicks",
        "outside": "outside the tested clicks: a guess, the worse the farther",
    }[curve.standing]


def show_authority(call: Call, worth: tuple[Authority, ...]) -> None:
    """Print what a click of each adjuster is worth, by direction and speed."""
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    if not worth:
        return
    force, velocity = shown("force", call.shown_units), shown("velocity", call.shown_units)
    columns = ["a click out of", "acts on", *(velocity.text(s) for s in worth[0].speeds)]
    rows = []
    for one in worth:
        cells = [f"−{n / force.factor:.1f} {force.unit} ({p:.1f} %)" if one.known else "not tested"
                 for n, p in zip(one.newtons, one.percent, strict=True)]  # fmt: skip
        rows.append([one.adjuster, one.direction + ("" if one.intended else " (cross-talk)"), *cells])
    call.say()
    table(columns, [[cell.replace("−-", "+") for cell in row] for row in rows])


def _json(map: ClickMap, counting: Shock, worth: tuple[Authority, ...], dead: tuple[DeadClicks, ...]) -> dict[str, Any]:
    return {
        "view": map.view, "loo_error_pct": map.loo_error_pct, "spread_pct": map.spread_pct, "shocks": map.shocks,
        "tested": [counting.to_counted(t) for t in map.tested],
        "counted": {a.name: a.counted for a in counting.adjusters}, "authority": authority_json(worth),
        "dead_clicks": [{"adjuster": d.adjuster, "from_closed": [d.first, d.last]} for d in dead],
    }  # fmt: skip


def authority_json(worth: tuple[Authority, ...]) -> list[dict[str, Any]]:
    """Return what a click is worth as JSON."""
    return [
        {"adjuster": a.adjuster, "direction": a.direction, "cross_talk": not a.intended, "tested": a.known,
         "velocity_m_s": a.speeds, "force_n_per_click": a.newtons, "force_pct_per_click": a.percent}
        for a in worth
    ]  # fmt: skip
