"""A report's sections on runs, shocks, packs and pairs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from dynoan.analysis.clickmap.asked.authority import authority_shown
from dynoan.analysis.statistics import Z95
from dynoan.jobs.report.parts import PackPart, PairPart, RunPart, ShockPart, TestedPart
from dynoan.model.adjusters import in_order
from dynoan.model.car import SPEEDS
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.setting import order_of
from dynoan.model.shock import Shock
from dynoan.model.side import Side
from dynoan.show.pages.report import plots as report_plots
from dynoan.show.pages.report.blocks import Block, Facts, Grid, Section, Words, grid, picture
from dynoan.show.pages.report.view import ReportView
from dynoan.show.text.match import places
from dynoan.show.text.sentences import capital
from dynoan.show.text.signs import signed as signed_text
from dynoan.units import Display, Shown, degree_unit, degrees, shown

#: curves that one picture can hold and still be read
CURVES = 8


def clicks_words(clicks: Mapping[str, int]) -> str:
    """Return clicks as a table shows them."""
    return ", ".join(f"{name}\N{NO-BREAK SPACE}{click}" for name, click in in_order(clicks).items()) or "–"


def signed(value: float, digits: int) -> str:
    """Return a number with its sign, the minus as wide as the plus; what rounds to nothing without one."""
    return signed_text(value, digits).replace("-", "−")


def number(value: float | None, digits: int) -> str:
    """Return a number, or a dash where there is none."""
    return "–" if value is None or not np.isfinite(value) else f"{value:.{digits}f}"


def runs_section(runs: Sequence[RunPart], units: Shown) -> Section:
    """Return the list of dyno runs."""
    columns = ("Run", "Date", "Shock", "Pack", "Clicks", "Kind", degree_unit(units), "From the file")
    rows = [
        (s.id, s.date or "–", s.shock or "–", s.pack or "–", clicks_words(s.clicks), s.layout,
         "–" if s.temperature is None else degrees(s.temperature, units, unit=False), s.source)
        for s in sorted(runs, key=lambda s: (s.date or "9", *order_of(s), s.source))
    ]  # fmt: skip
    return Section("runs", "Dyno runs", (grid(f"{len(runs)} runs, clicks as each shock's file counts them",
                                              columns, rows),))  # fmt: skip


def pack_section(pack: PackPart, units: Shown) -> Section:
    """Return one pack: how well it is known, its fan of clicks, its tests, and what a click does."""
    name = pack.click_map.pack
    blocks: list[Block] = [_pack_facts(pack, units)]
    blocks += [Words(capital(note) + ".") for note in pack.click_map.notes]
    if pack.click_map.adjusters:
        turned = f"Pack {name}: force against velocity from closed to open, the other adjusters where most tests sat"
        blocks.append(picture(report_plots.fan(pack.click_map, pack.counting, units), turned))
    elif pack.tested:
        curves = [(clicks_words(t.clicks), t.curve) for t in pack.tested]
        blocks.append(picture(report_plots.tested(curves, units), f"Pack {name}: force against velocity as tested"))
    if pack.tested:
        blocks.append(tested_grid(f"Tested settings of pack {name}", [("", t) for t in pack.tested], units))
    if pack.authority:
        caption = f"Pack {name}: what opening an adjuster by one click takes off the force, rebound to the left"
        blocks.append(picture(report_plots.authority(pack.authority, units), caption))
        blocks.append(_authority_grid(pack, units))
    return Section(anchor("pack", name), f"Pack {name}", tuple(blocks))


def anchor(kind: str, name: str) -> str:
    """Return an id of a section, safe in a link whatever the name holds."""
    return f"{kind}-{name.encode().hex()[:40]}"


def _pack_facts(pack: PackPart, units: Shown) -> Facts:
    m, force = pack.click_map, shown("force", units)
    spread = "one shock only" if not np.isfinite(m.spread_pct) else f"{m.spread_pct:.1f} % (standard deviation)"
    off = "–" if not np.isfinite(m.loo_error_pct) else f"{m.loo_error_pct:.1f} % (median)"
    views = {"hydraulic": "hydraulic model", "interpolated": "interpolated over clicks", "single": "one test only"}
    return Facts((
        ("Tested on", ", ".join(m.shocks) or "–"),
        ("Tested settings", str(len(m.tested))),
        ("Click map", views[m.view]),
        ("A test guessed from the others is off by", off),
        ("Spread between shocks", spread),
        ("Gas force", _gas_force(pack, force)),
        ("Friction", _friction(m, force)),
        ("Clicks counted", counted_words(pack.counting)),
    ))  # fmt: skip


def _friction(m: ClickMap, force: Display) -> str:
    half = Z95 * m.friction_sd
    return force.text(m.friction) + (f" {force.band(half, half)}" if half > 0 else "")


def _gas_force(pack: PackPart, force: Display) -> str:
    """Return the mean gas force of a pack's tests and, of several, the least and the most: what it varies by."""
    known = [g for t in pack.tested if np.isfinite(g := t.curve.gas_force)]
    spread = f", {force.text(min(known))} to {force.text(max(known))} in the tests" if len(known) > 1 else ""
    return force.text(pack.click_map.gas_force) + spread


def counted_words(shock: Shock) -> str:
    """Return how a shock counts its clicks."""
    kinds = {a.counted for a in shock.adjusters}
    if len(kinds) <= 1:
        return f"{next(iter(kinds), 'from closed')} (stiffest)" if kinds != {"from soft"} else "from soft (softest)"
    return ", ".join(f"{a.name} {a.counted}" for a in shock.adjusters)


def tested_grid(caption: str, tests: Sequence[tuple[str, TestedPart]], units: Shown) -> Grid:
    """Return tested settings with forces, knees and fit."""
    force, velocity = shown("force", units), shown("velocity", units)
    packs = any(pack for pack, _ in tests)
    settings = [(test.shock, pack, clicks_words(test.clicks)) for pack, test in tests]
    again = len(set(settings)) < len(settings)  # then only their dates tell them apart
    at = [f"{name} at {velocity.text(v)}" for name in ("Compr.", "Reb.") for v in SPEEDS[units]]
    columns = ("Shock", *(("Pack",) if packs else ()), "Clicks", *(("Tested",) if again else ()),
               *(f"{a} [{force.unit}]" for a in at),
               f"Knees c [{velocity.unit}]", f"Knees r [{velocity.unit}]", f"RMS [{force.unit}]")  # fmt: skip
    rows = []
    for pack, test in tests:
        forces = [force_text(test.curve.side(d), v, units) for d in DIRECTIONS for v in SPEEDS[units]]
        knees = [_knees(test.curve.side(d), units) for d in DIRECTIONS]
        day = (test.date or "–",) if again else ()
        head = (test.shock, *((pack,) if packs else ()), clicks_words(test.clicks), *day)
        rows.append((*head, *forces, *knees, force.text(test.curve.rms, unit=False)))
    note = "± is half of the 95 % band, + and − how far it reaches where it leans; * lies beyond the tested speeds."
    return grid(caption, columns, rows, note)


def force_text(side: Side, speed: float, units: Shown) -> str:
    """Return force and how far its band reaches at a speed."""
    force = shown("force", units)
    low, high = side.band(speed)
    mark = "*" if speed > side.top_speed * 1.001 else ""
    value = float(side.force(speed))
    return f"{force.text(value, unit=False)} {force.band(float(high) - value, value - float(low))}{mark}"


def _knees(side: Side, units: Shown) -> str:
    velocity = shown("velocity", units)
    return ", ".join(velocity.text(k.velocity, unit=False) for k in side.knees) or "none"


def _authority_grid(pack: PackPart, units: Shown) -> Grid:
    force, velocity = shown("force", units), shown("velocity", units)
    rows, worth = [], authority_shown(pack.click_map, None, units)
    for one in worth:
        cells = [f"{force.text(n, unit=False)} ({p:.1f} %)" for n, p in zip(one.newtons, one.percent, strict=True)]
        remark = "" if one.known else "no test moved it"
        remark = remark or ("" if one.intended else "cross-talk")
        rows.append((one.adjuster, one.direction, *cells, remark or "–"))
    speeds = [velocity.text(float(v)) for v in worth[0].speeds]
    return grid(f"Force per click of pack {pack.click_map.pack} [{force.unit}]",
                ("Adjuster", "Direction", *speeds, "Remark"), rows, _dead(pack))  # fmt: skip


def _dead(pack: PackPart) -> str:
    runs = "; ".join(f"{d.adjuster} {d.first} to {d.last}" for d in pack.dead)
    return f"Clicks that change nothing, counted from closed: {runs}." if runs else "No dead clicks were found."


def overlay_section(packs: Sequence[PackPart], units: Shown) -> Section:
    """Return the packs over one another."""
    maps = []
    for pack in packs:
        clicks = pack.counting.to_counted(pack.click_map.complete({}))
        maps.append((f"{pack.click_map.pack} ({clicks_words(clicks)})", pack.click_map))
    drawn = [picture(report_plots.overlay(maps[:CURVES], units),
                     "The packs over one another with their 95 % bands, each where most of its tests sat")]  # fmt: skip
    return Section("packs", "The packs over one another", tuple(drawn))


def shock_section(view: ShockPart, units: Shown) -> Section:
    """Return one shock: its adjusters, its tested curves and their numbers."""
    name = view.shock.name
    adjusters = "; ".join(f"{a.name} 0 to {a.clicks} {a.counted}" for a in view.shock.adjusters) or "none known"
    stated = adjusters if view.shock.stated else f"{adjusters} (taken from the tests: no shock file states them)"
    curves: list[tuple[str, Curve]] = [(f"{pack} {clicks_words(t.clicks)}", t.curve) for pack, t in view.tested]
    blocks: list[Block] = [Facts((("Adjusters", stated), ("Tested settings", str(len(curves)))))]
    if curves:
        more = f" (the first {CURVES} of {len(curves)})" if len(curves) > CURVES else ""
        blocks.append(picture(report_plots.tested(curves[:CURVES], units),
                              f"Shock {name}: tested curves with their 95 % bands{more}"))  # fmt: skip
        blocks.append(tested_grid(f"Tested settings of shock {name}", view.tested, units))
    return Section(anchor("shock", name), f"Shock {name}", tuple(blocks))


def pairs_section(pairs: Sequence[PairPart], units: Shown) -> Section:
    """Return which shocks are pairs."""
    velocity = shown("velocity", units)
    rows = []
    for pair in pairs:
        worst = pair.match.worst
        at = f"{worst.direction} at {velocity.text(worst.speed)}"
        digits = places(worst)
        interval = f"{signed(worst.low, digits)} to {signed(worst.high, digits)}"
        days = " and ".join(dict.fromkeys(day or "no date" for day in pair.dates))
        rows.append((f"{pair.first}, {pair.second}", pair.pack, clicks_words(pair.clicks), days, pair.match.verdict,
                     signed(worst.difference, digits), interval, at))  # fmt: skip
    tolerance = f"{pairs[0].match.tolerance:g} %" if pairs else ""
    columns = ("Shocks", "Pack", "Clicks", "Tested", "Verdict", "Worst [%]", "95 % limits [%]", "Where")
    table = grid(f"Shocks in the same pack and clicks, each as tested last, tolerance {tolerance}", columns, rows)
    return Section("pairs", "Pairs", (table,))


def glance(view: ReportView) -> Section:
    """Return what the report rests on, in a few numbers."""
    parts = view.parts
    shocks = {s.shock for s in parts.runs if s.shock}
    matched = sum(p.match.verdict == "matched" for p in parts.pairs)
    pairs: list[tuple[str, str]] = [
        ("Dyno runs", str(len(parts.runs))),
        ("Shocks", ", ".join(sorted(shocks)) or "–"),
    ]
    if parts.packs:
        pairs.append(("Packs", ", ".join(p.click_map.pack for p in parts.packs)))
    if parts.cars:
        pairs.append(("Cars", ", ".join(c.words for c in parts.cars)))
    if parts.pairs:
        pairs.append(("Pairs", f"{matched} of {len(parts.pairs)} matched"))
    pairs.append(("Warnings", str(len(view.warnings)) if view.warnings else "none"))
    blocks: list[Block] = [Facts(tuple(pairs))]
    if parts.cars and not parts.travel:
        blocks.append(
            Words(
                "Nothing logged on the car is in this report: add a log of travel in the log book, or name it when the "
                "report is made anew."
            )
        )
    return Section("glance", "At a glance", tuple(blocks))
