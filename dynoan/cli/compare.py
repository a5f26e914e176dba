"""``dynoan compare``: packs, clicks, shocks or dates over one another, and stand-in settings."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import Call, cluster_option, command

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.authority import Coverage
    from dynoan.analysis.matching.compare import Crossing
    from dynoan.workbench import Resolved

EPILOG = """\b
Examples:
  dynoan compare gravel@lsc=8,hsc=8 mixed@lsc=8,hsc=8 --plot packs.png
  dynoan compare shock=RL-03,pack=gravel shock=RR-04,pack=gravel
  dynoan compare shock=RR-04,date=2025 shock=RR-04,date=2026      (over time)
  dynoan compare --equal-to gravel@lsc=6,lsr=8 mixed tarmac       (which clicks of these stand in for it)
"""
#: the first against this many others fits a table
MOST = 7


@command(epilog=EPILOG, short_help="Lay packs, clicks or shocks over one another.")
@click.argument("what", metavar="WHAT...", nargs=-1)
@click.option("--equal-to", metavar="WHAT", help="Find the clicks of the packs or shocks named that stand in for this.")
@click.option("--at", metavar="SPEEDS", help="Speeds of the table, both directions: m/s, or with a unit ('2 in/s').")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
@click.option("--csv", is_flag=True, help="Print the table as CSV (SI) and nothing else.")
@cluster_option
def compare(
    call: Call, what: tuple[str, ...], equal_to: str | None, at: str | None, plot: Path | None, csv: bool
) -> int:
    """Lay packs, clicks or shocks over one another: force and difference by velocity, where they cross, who has a say.

    WHAT is a rig's file, a sweep's id, or a setting (pack=gravel,lsc=6 or gravel@lsc=6,lsr=8 or shock=RL-02,date=2026).
    With --equal-to, WHAT names packs, or shocks as shock=NAME; without any, all other packs are searched.
    """
    if equal_to is not None:
        from dynoan.cli.compare_equal import equal

        return equal(call, equal_to, what, plot)
    return _compare(call, _resolved(call, what), at, plot, csv)


def _resolved(call: Call, what: tuple[str, ...]) -> list[Resolved]:
    from dynoan.errors import CallError

    found: list[Resolved] = []
    if len([w for w in what if not Path(w).is_file()]) > 1:
        call.workbench().prepare(what)
    for one in what:
        found += resolve(call, one)
    if len(found) < 2:
        raise CallError("name two or more to compare, such as: dynoan compare gravel@lsc=6 mixed@lsc=6")
    if len(found) > MOST + 1:
        labels = ", ".join(r.label for r in found[: MOST + 1])
        raise CallError(f"{len(found)} curves are too many for one table; name up to {MOST + 1} (found {labels}, …)")
    return found


def resolve(call: Call, what: str) -> tuple[Resolved, ...]:
    """Return what WHAT names; a file needs no library."""
    if Path(what).is_file():
        from dynoan.workbench import resolve_file

        return resolve_file(Path(what))
    return from_library(call, what)


def from_library(call: Call, what: str) -> tuple[Resolved, ...]:
    """Return what WHAT names in the library; without one, a name that looks like a file's is a missing file."""
    from dynoan.errors import CallError, LookupFault

    try:
        bench = call.workbench()
    except LookupFault:
        if call.library is None and Path(what).suffix and "=" not in what:
            raise CallError(f"{what}: no such file, and no library here to look it up in; check the name") from None
        raise
    return bench.resolve(what)


def _compare(call: Call, found: list[Resolved], at: str | None, plot: Path | None, csv: bool) -> int:
    from dynoan.analysis.matching.compare import crossings
    from dynoan.cli.compare_tables import comparison_rows, print_csv, show
    from dynoan.cli.curve_json import curve_json, parse_speeds

    speeds = parse_speeds(at)
    curves, labels = [r.curve for r in found], distinct(found)
    for text in temperature_words(found):
        call.warn(text)
    rows = comparison_rows(curves, speeds)
    crossed, covered = crossings(curves), _coverage(call, found)
    if csv and not call.json:
        print_csv(labels, rows)
    elif not call.json:
        show(call, labels, rows, crossed, covered)
    if plot is not None:
        from dynoan.show.plots.compare import comparison_figure
        from dynoan.show.plots.style import save

        call.note(f"picture: {save(comparison_figure(labels, curves, crossed, call.shown_units), plot)}")
    named = [{**curve_json(c, speeds), "what": label} for c, label in zip(curves, labels, strict=True)]
    return call.result({"curves": named, **_json(labels, rows, crossed, covered)})


def distinct(found: list[Resolved]) -> list[str]:
    """Return labels, with the date where two are the same, and a number where that does not tell them apart."""
    labels = [r.label for r in found]
    dates = [r.sweeps[0].date if r.sweeps else None for r in found]
    labels = [f"{x} ({d})" if labels.count(x) > 1 and d else x for x, d in zip(labels, dates, strict=True)]
    return [f"{x} ({labels[: i + 1].count(x)})" if labels.count(x) > 1 else x for i, x in enumerate(labels)]


def temperature_words(found: list[Resolved]) -> list[str]:
    """Warn where what is compared was tested more than 10 °C apart, or at temperatures nobody knows."""
    known = {r.label: r.curve.temperature for r in found if r.curve.temperature is not None}
    if not known:
        return []
    low, high = min(known, key=lambda k: known[k]), max(known, key=lambda k: known[k])
    apart = known[high] - known[low]
    if apart <= 10.0:
        return []
    cool, warm = f"{low} was tested at {known[low]:.0f} °C", f"{high} at {known[high]:.0f} °C"
    return [f"{cool} and {warm}: over 10 °C apart, part of the difference is the oil"]


def _coverage(call: Call, found: list[Resolved]) -> dict[str, tuple[Coverage, ...]]:
    """Return, for each pack with a click map, which adjuster has the say at which speeds."""
    from dynoan.analysis.clickmap.authority import authority, coverage
    from dynoan.errors import DynoanError

    out = {}
    for one in found:
        if one.pack is None or one.pack in out or Path(one.label).is_file():
            continue
        try:
            map = call.workbench().click_map(one.pack)
            out[one.pack] = coverage(authority(map, one.from_closed))
        except DynoanError:
            continue  # a file alone, or a pack the library does not hold: nothing to say about its adjusters
    return out


def _json(
    labels: list[str], rows: list[dict[str, Any]], crossed: tuple[Crossing, ...],
    covered: dict[str, tuple[Coverage, ...]],
) -> dict[str, Any]:  # fmt: skip
    return {
        "table": rows,
        "crossings": [{"stiffer_below": labels[c.first], "stiffer_above": labels[c.second], "direction": c.direction,
                       "velocity_m_s": c.speed, "force_n": c.force} for c in crossed],
        "coverage": [{"pack": pack, "adjuster": c.adjuster, "direction": c.direction, "from_m_s": c.low,
                      "to_m_s": c.high, "most_pct_per_click": c.percent} for pack, cs in covered.items() for c in cs],
    }  # fmt: skip
