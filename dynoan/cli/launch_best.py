"""``dynoan launch --best``: all clicks of an axle searched, the best shown beside what is on the car."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dynoan.cli.call import DONE, Call
from dynoan.cli.launch import THIN, Case, make_case
from dynoan.cli.launch_tables import assumptions, figure_text, run_json, show_runs
from dynoan.errors import QuantityError
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.analysis.launch.drive import Scene
    from dynoan.analysis.launch.search import Clicked, Search
    from dynoan.model.car import Car, Corner
    from dynoan.model.shock import Shock
    from dynoan.workbench import Workbench

LINE = 8  #: settings of the trade-off line shown to people


@dataclass(frozen=True)
class Aim:
    """What `--best` is asked."""

    objective: str
    axle: str | None  #: None for the driven one
    inside: bool  #: keep between the tested clicks
    plot: Path | None


def search(call: Call, bench: Workbench, case: Case, scene: Scene, aim: Aim) -> int:
    """Search all clicks of an axle for an objective and show the best, the trade-off, and what is on the car."""
    from dynoan.analysis.launch.compare import launch
    from dynoan.analysis.launch.search import OBJECTIVES, best_clicks

    objective, axle = aim.objective, aim.axle or ("front" if case.half.driven == "front" else "rear")
    corners = case.car.axle(axle)
    clicked, shock = (
        replace(_clicked(bench, corners), inside=aim.inside),
        bench.corner_shock(corners[0], _pack(case.car, corners[0])),
    )
    others = case.damping[1 if axle == "front" else 0]
    call.note(f"searching all clicks of the {axle} axle for {OBJECTIVES[objective][2]}, left and right alike …")
    found = best_clicks(case.half, scene, others, clicked, axle=axle, objective=objective, watch=_watcher(call))
    best = make_case(bench, _turned(case.car, axle, found, found.best, shock), "best")
    runs = [launch(c.half, scene, c.damping, c.label) for c in (case, best)]
    for text in dict.fromkeys(w for run in runs for w in run.warnings):
        call.warn(text)
    rows = [_row(found, row, clicked, shock) for row in _rows(found)]
    _show(call, found, rows, (axle, objective))
    show_runs(call, runs)
    taken = assumptions(call, [case.half])
    if aim.plot is not None:
        from dynoan.show.plots.launch import search_picture

        call.note(f"picture: {search_picture(aim.plot, found, (runs[0], runs[1]), case.half, call.shown_units)}")
    return call.result({
        "runs": [run_json(run, THIN) for run in runs], "objective": objective, "axle": axle,
        "searched": len(found.clicks), "best": _row(found, found.best, clicked, shock), "trade_off": rows, **taken,
    }, DONE)  # fmt: skip


def _pack(car: Car, corner: Corner) -> str:
    if not corner.pack:
        raise QuantityError(f'{car.file or car.name}, [{corner.name}] pack: missing; write it like pack = "gravel"')
    return corner.pack


def _clicked(bench: Workbench, corners: tuple[Corner, ...]) -> Clicked:
    """Return what both shocks of an axle can be set to, and what they are set to where both are alike."""
    from dynoan.analysis.launch.search import Clicked

    maps = tuple(bench.click_map(corner.pack or "") for corner in corners)
    now = [
        m.complete(bench.corner_shock(c, c.pack or "").to_closed(c.clicks)) for m, c in zip(maps, corners, strict=True)
    ]
    return Clicked(maps, tuple(c.shock_ratio for c in corners), now[0] if now[0] == now[1] else {})


def _turned(car: Car, axle: str, found: Search, row: int, shock: Shock) -> Car:
    clicks = shock.to_counted(found.setting(row))
    corners = {n: replace(c, clicks=clicks) if c in car.axle(axle) else c for n, c in car.corners.items()}
    return replace(car, corners=corners)


def _rows(found: Search) -> list[int]:
    from dynoan.analysis.launch.search import spread

    return list(dict.fromkeys([found.best, *spread(found.front, LINE)]))


def _row(found: Search, row: int, clicked: Clicked, shock: Shock) -> dict[str, Any]:
    from dynoan.analysis.launch.search import standing

    setting = found.setting(row)
    figures = {name: float(values[row]) for name, values in found.figures.items()}
    return {"clicks": shock.to_counted(setting), "standing": standing(clicked, setting), "metrics": figures,
            "best": row == found.best, "now": row == found.now}  # fmt: skip


def _show(call: Call, found: Search, rows: list[dict[str, Any]], asked: tuple[str, str]) -> None:
    if call.json:
        return
    from dynoan.analysis.launch.metrics import MEANING
    from dynoan.show.text.tables import table

    meaning = MEANING | {"level_body_lift_m": "body: highest rise over either axle, drive alone"}
    aim, against = found.axes
    units = call.shown_units
    columns = ["", f"clicks, {asked[0]}", meaning[aim], meaning[against], "stands"]
    if found.now is not None:
        now = [figure_text(n, float(found.figures[n][found.now]), units) for n in found.axes]
        lines = [["now", "as on the car", *now, ""]]
    else:
        lines = []
    for row in rows:
        figures = [figure_text(name, row["metrics"][name], units) for name in found.axes]
        lines.append(["best" if row["best"] else "", clicks_text(row["clicks"]), *figures, row["standing"]])
    title = f"{len(found.clicks)} settings searched; the best and the trade-off line (nothing beats these in both)"
    table(columns, lines, title=title)


def _watcher(call: Call) -> Any:
    import sys

    if call.json or not sys.stderr.isatty():
        return lambda _share: None
    return lambda share: print(f"\r{share:4.0%}", end="" if share < 1 else "\r", file=sys.stderr, flush=True)
