"""The click maps, identification, match, health and plan of `dynoan` held against pack worlds made apart from it.

python -m tests.worlds.packs.tables tests.worlds.packs.with_dynoan:program --rows "map regular,match 1 %" --worlds 20
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache

import numpy as np

from dynoan.analysis.clickmap.asked.authority import click_worth
from dynoan.analysis.clickmap.asked.identify import identify as identify_curve
from dynoan.analysis.clickmap.asked.plan import plan as plan_runs
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.data import Tested
from dynoan.analysis.health.change import health as held_against
from dynoan.analysis.health.records import Measured, Test
from dynoan.analysis.matching.match import Basis, scatter
from dynoan.analysis.matching.match import match as match_curves
from dynoan.analysis.statistics import Z95
from dynoan.errors import DynoanError
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.shock import Adjuster, Shock
from dynoan.model.side import Side
from tests.worlds.packs.answers import Mapped, Named, Ordered, Program, Verdict
from tests.worlds.packs.made import Library
from tests.worlds.packs.tests_of import Run, Setting
from tests.worlds.score import Band
from tests.worlds.valves import FloatArray

ClickShare = tuple[tuple[FloatArray, FloatArray], ...]
FIRST_DAY = date(2024, 1, 1)
RUBBING_N = 50.0
"""How far down the band of a peak table reaches: friction may be in it [N]."""


def _side(run: Run, sign: float) -> Side:
    """Return one direction: damping, and its sum with friction; a peak table tells the sum alone."""
    assert run.velocity is not None
    assert run.force is not None
    assert run.covariance is not None
    mine = np.flatnonzero(sign * run.velocity > 0)
    mine = mine[np.argsort(np.abs(run.velocity[mine]))]
    speeds, force = np.abs(run.velocity[mine]), sign * run.force[mine]
    half = Z95 * np.sqrt(np.diag(run.covariance)[mine])
    grid, table = np.concatenate([[0.0], speeds]), np.concatenate([[0.0], force])
    wide = np.concatenate([[half[0]], half])
    rubbing = run.friction_n or 0.0
    split = run.friction_sd_n or 0.0
    rest = np.sqrt(np.maximum(wide**2 - (Z95 * split) ** 2, 0.0))
    total = (table + rubbing, table + rubbing - rest, table + rubbing + rest)
    low = table - np.hypot(wide, RUBBING_N) if run.form == "peaks" else table - wide
    return Side((), (), grid, low, table + wide, top_speed=float(speeds[-1]), low_speed=float(speeds[0]),
                forces=table, total=total)  # fmt: skip


def curve_of(run: Run) -> Curve:
    """Return a run as a fit of its record would give it."""
    nan = float("nan")
    return Curve(
        compression=_side(run, 1.0), rebound=_side(run, -1.0), what=run.shock, shock=run.shock, pack=run.pack,
        clicks=dict(run.clicks or {}), gas_force=nan if run.gas_n is None else run.gas_n,
        friction=nan if run.friction_n is None else run.friction_n,
        friction_sd=nan if run.friction_sd_n is None else run.friction_sd_n, temperature=run.celsius,
    )  # fmt: skip


def shock_of(library: Library) -> Shock:
    """Return the kind's adjusters as the shock's file states them."""
    return Shock("any", tuple(Adjuster(a.name, a.clicks, a.counted) for a in library.adjusters))


def as_tested(kind: Shock, runs: Sequence[Run]) -> tuple[Tested, ...]:
    """Return runs as tested settings."""
    return tuple(Tested(run.shock, kind.to_closed(run.clicks or {}), curve_of(run), _date(run.year)) for run in runs)


def _tested(library: Library, pack: str) -> tuple[Tested, ...]:
    return as_tested(shock_of(library), library.of(pack))


def _date(year: float) -> str:
    return (FIRST_DAY + timedelta(days=round(365.25 * year))).isoformat()


@lru_cache(maxsize=16)
def _fitted(library: Library, pack: str) -> ClickMap:
    """Return the click map of a pack; several questions to one library share it."""
    return fit_map(pack, shock_of(library).adjusters, _tested(library, pack))


def draw_map(library: Library, pack: str) -> Mapped:
    """Return what the click map says at any click."""
    kind = shock_of(library)
    try:
        made = _fitted(library, pack)
    except DynoanError as error:
        return Mapped(lambda *_: Band(*(np.full(1, np.nan),) * 3), refused=str(error))

    def band(setting: Setting, velocity: FloatArray, shock: str, year: float) -> Band:
        curve = curve_at(made, kind.to_closed(setting), shock=shock, date=_date(year), pieces=False)
        low, high = curve.band(velocity)
        return Band(curve(velocity), low, high)

    return Mapped(band, frozenset(one.kind for one in made.oddities))


def name(library: Library, run: Run) -> Named:
    """Return which pack an unlabelled run is said to be."""
    packs = sorted({run.pack for run in library.runs if run.pack})
    found = identify_curve(curve_of(run), [_fitted(library, pack) for pack in packs])
    if found.verdict == "none of these":
        return Named(None, found.none)
    best = found.candidates[0]
    return Named(best.pack, best.probability, told=found.verdict == "pack")


def _pooled(runs: Sequence[Run]) -> Run:
    """Return the mean of a setting's runs as one."""
    first = runs[0]
    n = len(runs)
    force = np.mean(np.array([r.force for r in runs], dtype=float), axis=0)
    covariance = np.sum(np.array([r.covariance for r in runs], dtype=float), axis=0) / n**2
    friction = None if first.friction_n is None else float(np.mean([r.friction_n for r in runs]))
    sd = None if first.friction_sd_n is None else first.friction_sd_n / np.sqrt(n)
    return replace(first, force=force, covariance=covariance, friction_n=friction, friction_sd_n=sd)


def _repeats(runs: Sequence[Run]) -> list[list[Curve]]:
    groups: dict[tuple[object, ...], list[Curve]] = {}
    for run in runs:
        key = (run.shock, run.pack, run.form, *sorted((run.clicks or {}).items()))
        groups.setdefault(key, []).append(curve_of(run))
    return [group for group in groups.values() if len(group) > 1]


def pair(library: Library, one: Sequence[Run], other: Sequence[Run], tolerance: float) -> Verdict:
    """Return whether two shocks are said to be a pair."""
    a, b = curve_of(_pooled(one)), curve_of(_pooled(other))
    both = a.friction == a.friction and b.friction == b.friction
    sds = (a.friction_sd, b.friction_sd) if both else None
    basis = Basis((len(one), len(other)), scatter(_repeats([*library.runs, *one, *other])), sds)
    return match_curves(a, b, tolerance=100 * tolerance, basis=basis).verdict


def _test(runs: Sequence[Run], day: str, clicks: ClickShare) -> Test:
    run = _pooled(runs)
    gas = Measured() if run.gas_n is None else Measured(float(np.mean([r.gas_n for r in runs])), run.gas_sd_n or 0.0)
    friction = Measured() if run.friction_n is None else Measured(run.friction_n, run.friction_sd_n or 0.0)
    return Test(day, (run.shock,), curve_of(run), len(runs), gas, friction, temperature=run.celsius,
                click_share=clicks)  # fmt: skip


def changed(library: Library, earlier: Sequence[Run], now: Sequence[Run]) -> frozenset[str]:
    """Return what is said to have changed."""
    kind = shock_of(library)
    made = _fitted(library, "gravel")
    clicks = click_worth(made, kind.to_closed(now[0].clicks or {}))
    tests = [_test([run], _date(run.year), clicks) for run in earlier]
    found = held_against([*tests, _test(now, _date(now[0].year), clicks)])
    said: set[str] = set()
    for finding in found.findings:
        said |= {finding.direction} if finding.direction else set()
        said |= {"gas"} if finding.name == "gas lost" else set()
        said |= {"friction"} if finding.name == "more friction" else set()
    return frozenset(said)


def order(library: Library, pack: str, count: int) -> Ordered:
    """Return the runs asked for, and the errors stated."""
    kind = shock_of(library)
    made = plan_runs(pack, kind.adjusters, _tested(library, pack), count=count)
    runs = tuple(kind.to_counted(run.from_closed) for run in made.runs)
    # Stated is a mean absolute error; of a Gaussian the rms is so many times that.
    rms = float(np.sqrt(np.pi / 2)) / 100
    return Ordered(runs, rms * made.error_now, rms * made.error_after)


program = Program(map=draw_map, identify=name, match=pair, health=changed, plan=order)
"""What is tried."""
