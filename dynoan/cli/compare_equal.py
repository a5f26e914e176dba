"""``dynoan compare --equal-to``: which clicks of another pack or shock stand in for a setting."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from dynoan.cli.call import DONE, NO, Call
from dynoan.errors import CallError

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.equivalent import Equivalent
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.shock import Shock
    from dynoan.workbench import Resolved, Workbench

#: a stand-in that is off by more than this at some speed is none (common practice, no source) [%]
CLOSE_PCT = 10.0


def equal(call: Call, equal_to: str, what: tuple[str, ...], plot: Path | None) -> int:
    """Find the settings that stand in for one; exit 1 where none comes within `CLOSE_PCT`."""
    from dynoan.analysis.clickmap.equivalent import equivalents
    from dynoan.cli.compare import resolve

    wanted = resolve(call, equal_to)
    if len(wanted) != 1:
        raise CallError(f"--equal-to '{equal_to}' names {len(wanted)} settings; name one with its clicks")
    bench = call.workbench()
    maps = _maps(bench, what, wanted[0])
    found: list[tuple[Equivalent, ClickMap, Shock]] = []
    for map, counting in maps:
        found += [(e, map, counting) for e in equivalents(wanted[0].curve, [map], count=3)]
        for note in map.notes:
            call.warn(f"pack {map.pack}: {note}")
    found.sort(key=lambda one: one[0].worst + 0.1 * one[0].mean)
    rows = [_json(*one) for one in found]
    _show(call, wanted[0], rows)
    if plot is not None:
        _draw(call, wanted[0], found, plot)
    best = found[0][0].worst
    return call.result({"equal_to": wanted[0].label, "equivalents": rows}, DONE if best <= CLOSE_PCT else NO)


def _maps(bench: Workbench, what: tuple[str, ...], wanted: Resolved) -> list[tuple[ClickMap, Shock]]:
    from dynoan.analysis.clickmap.mapping import named_shock
    from dynoan.workbench.resolving import parse_wanted

    names: list[tuple[str, str | None]] = []
    for one in what or tuple(p for p in bench.library.packs() if p != wanted.pack):
        if "=" not in one:
            names.append((one, None))
            continue
        asked = parse_wanted(one)
        packs = [asked.pack] if asked.pack else _packs_of(bench, asked.shock)
        names += [(str(pack), asked.shock) for pack in packs]
    if not names:
        raise CallError("no other pack to search; add sweeps of one, or name a shock as shock=NAME")
    out = []
    for pack, shock in names:
        map = bench.click_map(pack)
        out.append((named_shock(map, shock) if shock else map, bench.counting_of(map, shock)))
    return out


def _packs_of(bench: Workbench, shock: str | None) -> list[str]:
    packs = sorted({r.pack for r in bench.records if r.shock == shock and r.pack})
    if not packs:
        raise CallError(f"the library holds no sweep of shock '{shock}' with a pack")
    return packs


def _json(one: Equivalent, map: ClickMap, counting: Shock) -> dict[str, Any]:
    return {
        "pack": one.pack, "shock": counting.name or None, "clicks": counting.to_counted(one.from_closed),
        "counted": counting.counted_words(), "worst_difference_pct": one.worst, "mean_difference_pct": one.mean,
        "worst_direction": one.worst_direction, "worst_velocity_m_s": one.worst_speed, "band_pct": one.band,
        "standing": one.standing, "view": map.view,
    }  # fmt: skip


def _show(call: Call, wanted: Resolved, rows: list[dict[str, Any]]) -> None:
    from dynoan.cautions import CAUTIONS
    from dynoan.model.shock import clicks_text
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    velocity = shown("velocity", call.shown_units)
    if call.json:
        return
    call.say(f"closest to {wanted.label}; {rows[0]['counted']}")
    table(
        ["pack", "clicks", "worst difference", "where", "± (95 %)", "mean", "standing"],
        [[r["pack"], clicks_text(r["clicks"]), f"{r['worst_difference_pct']:.1f} %",
          f"{r['worst_direction']} {velocity.text(r['worst_velocity_m_s'])}", f"{r['band_pct']:.1f} %",
          f"{r['mean_difference_pct']:.1f} %", r["standing"]] for r in rows],
    )  # fmt: skip
    if rows[0]["worst_difference_pct"] > CLOSE_PCT:
        call.say(f"none comes within {CLOSE_PCT:.0f} % at every speed: no setting stands in for it")
    call.say(f"\n{CAUTIONS}")


def _draw(call: Call, wanted: Resolved, found: list[tuple[Equivalent, ClickMap, Shock]], plot: Path) -> None:
    from dynoan.analysis.clickmap.mapping import curve_at
    from dynoan.analysis.matching.compare import crossings
    from dynoan.show.plots.compare import comparison_figure
    from dynoan.show.plots.style import save

    best = {one.pack: (one, map, counting) for one, map, counting in reversed(found)}
    curves, labels = [wanted.curve], [wanted.label]
    for one, map, counting in best.values():
        curve = curve_at(map, one.from_closed, clicks=counting.to_counted(one.from_closed))
        curves.append(curve)
        labels.append(curve.what)
    call.note(f"picture: {save(comparison_figure(labels, curves, crossings(curves), call.shown_units), plot)}")
