"""``dynoan match --pairs``: a batch sorted into the pairs with the smallest worst difference."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dynoan.cli.call import DONE, NO, Call
from dynoan.errors import CallError

if TYPE_CHECKING:
    from dynoan.analysis.matching.match import Match
    from dynoan.workbench import Resolved


def sort_pairs(call: Call, found: list[Resolved], tolerance: float) -> int:
    """Sort what was named into the best pairs; exit 0 where every pair is matched."""
    import numpy as np

    from dynoan.analysis.matching.advice import best_pairs
    from dynoan.cli.match import overall

    groups = _units(found)
    names = list(groups)
    matches: dict[tuple[int, int], list[Match]] = {}
    worst = np.zeros((len(names), len(names)))
    for i in range(len(names)):
        for j in range(i + 1, len(names)):
            matches[i, j] = _held(groups[names[i]], groups[names[j]], tolerance)
            worst[i, j] = worst[j, i] = max((abs(m.worst.difference) for m in matches[i, j]), default=1e6)
    pairs = best_pairs(worst)
    rows = [_row(names, pair, matches[pair], overall([m.verdict for m in matches[pair]])) for pair in pairs]
    left = [name for i, name in enumerate(names) if all(i not in pair for pair in pairs)]
    _show(call, rows, left, tolerance)
    verdict = overall([row["verdict"] for row in rows])
    bands = [band for row in rows for band in row["bands"]]
    return call.result({"verdict": verdict, "tolerance_pct": tolerance, "bands": bands, "advice": [], "pairs": rows,
                        "left_over": left}, DONE if verdict == "matched" else NO)  # fmt: skip


def _units(found: list[Resolved]) -> dict[str, dict[tuple[Any, ...], Resolved]]:
    """Return the settings of each shock; what has no shock's name stands by its own label."""
    groups: dict[str, dict[tuple[Any, ...], Resolved]] = {}
    for one in found:
        setting = (one.pack, *sorted(one.from_closed.items())) if one.shock else ()
        groups.setdefault(one.shock or one.label, {})[setting] = one
    shared = [s for s in {s for g in groups.values() for s in g} if all(s in g for g in groups.values())]
    if len(groups) < 2:
        raise CallError("two or more shocks are needed for pairs; name several, or a pack: --pairs pack=NAME")
    if shared or all(len(group) == 1 for group in groups.values()):
        return groups
    raise CallError("the shocks named share no tested setting; test them all at one setting, or name it: "
                    "--pairs pack=gravel,lsc=10")  # fmt: skip


def _held(a: dict[tuple[Any, ...], Resolved], b: dict[tuple[Any, ...], Resolved], tolerance: float) -> list[Match]:
    from dynoan.jobs.match import matched

    settings = [s for s in a if s in b]
    if settings:
        return [matched(a[s], b[s], tolerance) for s in settings]
    return [matched(next(iter(a.values())), next(iter(b.values())), tolerance)]


def _row(names: list[str], pair: tuple[int, int], found: list[Match], verdict: str) -> dict[str, Any]:
    one = max(found, key=lambda m: abs(m.worst.difference)).worst
    bands = [
        {"pair": [names[i] for i in pair], "direction": b.direction, "velocity_m_s": b.speed,
         "difference_pct": b.difference, "low_pct": b.low, "high_pct": b.high}
        for m in found for b in m.bands
    ]  # fmt: skip
    return {"a": names[pair[0]], "b": names[pair[1]], "verdict": verdict, "worst_difference_pct": one.difference,
            "worst_direction": one.direction, "worst_velocity_m_s": one.speed, "bands": bands}  # fmt: skip


def _show(call: Call, rows: list[dict[str, Any]], left: list[str], tolerance: float) -> None:
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    if call.json:
        return
    velocity = shown("velocity", call.shown_units)
    table(
        ["pair", "worst difference", "where", f"at ±{tolerance:g} %"],
        [[f"{r['a']} with {r['b']}", f"{r['worst_difference_pct']:+.1f} %",
          f"{r['worst_direction']} {velocity.text(r['worst_velocity_m_s'])}", r["verdict"]] for r in rows],
        "the pairing with the smallest worst difference",
    )  # fmt: skip
    for name in left:
        call.say(f"left over: {name}")
