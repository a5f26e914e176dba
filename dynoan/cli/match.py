"""``dynoan match``: are two shocks or settings a pair, what to turn, and the best pairs of a batch."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, NO, Call, command

if TYPE_CHECKING:
    from dynoan.analysis.matching.advice import Advice
    from dynoan.analysis.matching.match import Match
    from dynoan.model.shock import Shock
    from dynoan.workbench import Resolved

EPILOG = """\b
Examples:
  dynoan match shock=RL-03,pack=gravel shock=RR-04,pack=gravel
  dynoan match left.csv right.csv --tolerance 8
  dynoan match --pairs pack=gravel              (all shocks with this pack, sorted into the best pairs)
"""


@command(epilog=EPILOG, short_help="Tell whether two shocks or settings are a pair, and what to turn.")
@click.argument("what", metavar="WHAT...", nargs=-1, required=True)
@click.option("--tolerance", type=float, default=5.0, show_default=True, help="What a pair may differ by, in percent.")
@click.option("--pairs", is_flag=True, help="Sort everything named into the best pairs.")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def match(call: Call, what: tuple[str, ...], tolerance: float, pairs: bool, plot: Path | None) -> int:
    """Tell whether two shocks or settings are a pair within a tolerance, and what to turn so that they are.

    Each difference has its interval: matched where all lie inside the tolerance, not matched where one lies outside,
    else it cannot be told, and how many more runs would settle it. Where both were tested at several settings, those in
    common are compared. Exit 0 where matched, 1 where not or where it cannot be told.
    """
    from dynoan.cli.compare import resolve, temperature_words
    from dynoan.errors import CallError

    if pairs:
        from dynoan.cli.match_pairs import sort_pairs

        return sort_pairs(call, [r for one in what for r in resolve(call, one)], tolerance)
    if len(what) != 2:
        raise CallError(f"name two to match, not {len(what)}; or several with --pairs")
    common = in_common(resolve(call, what[0]), resolve(call, what[1]), what)
    for text in dict.fromkeys(t for a, b in common for t in (*temperature_words([a, b]), *gas_words(a, b))):
        call.warn(text)
    from dynoan.jobs.match import matched

    found = [matched(a, b, tolerance) for a, b in common]
    worst = max(range(len(found)), key=lambda i: _badness(found[i]))
    advice = _advice(call, *common[worst]) if found[worst].verdict != "matched" else []
    verdict = overall([m.verdict for m in found])
    _show(call, common, found, verdict, advice)
    if plot is not None:
        _draw(call, common[worst], found[worst], plot)
    return call.result(_json(common, found, verdict, advice), DONE if verdict == "matched" else NO)


def in_common(
    a: tuple[Resolved, ...], b: tuple[Resolved, ...], what: tuple[str, ...]
) -> list[tuple[Resolved, Resolved]]:
    """Return what is to be held against what: one each, else the settings both were tested at.

    Raises
    ------
    CallError
        If several were named and none has its like.
    """
    from dynoan.errors import CallError

    if len(a) == len(b) == 1:
        return [(a[0], b[0])]
    common = [
        (x, y)
        for x in a
        for y in b
        if x.pack == y.pack and dict(x.from_closed) == dict(y.from_closed) and x.from_closed
    ]
    if not common:
        way = f"name one setting of each, such as {_example(a[0])}"
        raise CallError(f"'{what[0]}' and '{what[1]}' have no tested setting in common; {way}")
    return common


def _example(one: Resolved) -> str:
    from dynoan.model.shock import clicks_text

    return ",".join(filter(None, (f"shock={one.shock}" if one.shock else "", f"pack={one.pack}" if one.pack else "",
                                  clicks_text(one.clicks))))  # fmt: skip


def overall(verdicts: list[Any]) -> str:
    """Return the verdict over several settings: one that is not matched decides, then one that cannot tell."""
    for verdict in ("not matched", "cannot tell"):
        if verdict in verdicts:
            return verdict
    return "matched"


def _badness(found: Match) -> tuple[int, float]:
    return ("matched", "cannot tell", "not matched").index(found.verdict), abs(found.worst.difference)


def gas_words(a: Resolved, b: Resolved) -> list[str]:
    """Return a remark where the gas forces of two differ by more than 20 N: damping is compared without them."""
    off = a.curve.gas_force - b.curve.gas_force
    if not abs(off) > 20.0:
        return []
    strong, weak = (a, b) if off > 0 else (b, a)
    more = f"{strong.label} has {abs(off):.0f} N more gas force than {weak.label}"
    return [f"{more}; damping is compared without it, but a pair needs the same gas pressure"]


def _advice(call: Call, a: Resolved, b: Resolved) -> list[tuple[Resolved, Shock, Advice]]:
    """Return what to turn on either, where its pack has a click map."""
    from dynoan.analysis.matching.advice import advise
    from dynoan.errors import DynoanError

    out = []
    for here, other in ((a, b), (b, a)):
        if here.pack is None or not here.from_closed:
            continue
        try:
            map = call.workbench().click_map(here.pack)
            found = advise(here.curve, other.curve, map, here.from_closed)
        except DynoanError as error:
            call.warn(f"no advice for {here.label}: {error}")
            continue
        if found is not None:
            out.append((here, call.workbench().counting_of(map, here.shock), found))
    return out


def _show(
    call: Call, common: list[tuple[Resolved, Resolved]], found: list[Match], verdict: str,
    advice: list[tuple[Resolved, Shock, Advice]],
) -> None:  # fmt: skip
    if call.json:
        return
    for (a, b), one in zip(common, found, strict=True):
        call.say(f"{a.label}  against  {b.label}: {one.verdict}")
        _show_bands(call, one)
    call.say(f"{verdict} at ±{found[0].tolerance:g} %")
    if verdict == "cannot tell":
        _say_repeats(call, found)
    for here, counting, way in advice:
        call.say(_advice_words(here, counting, way))
    if advice:
        from dynoan.cautions import CAUTIONS

        call.say(f"\n{CAUTIONS}")


def _show_bands(call: Call, found: Match) -> None:
    from dynoan.show.text.tables import table
    from dynoan.units import shown

    force, velocity = shown("force", call.shown_units), shown("velocity", call.shown_units)
    table(
        ["direction", f"velocity {velocity.unit}", "difference", "interval", f"in {force.unit}", ""],
        [[b.direction, velocity.text(b.speed, unit=False), f"{b.difference:+.1f} %", f"{b.low:+.1f} to {b.high:+.1f} %",
          force.text(b.newtons, unit=False), _place(b.low, b.high, found.tolerance)] for b in found.bands],
    )  # fmt: skip
    call.say()


def _place(low: float, high: float, tolerance: float) -> str:
    if low > tolerance or high < -tolerance:
        return "outside"
    return "inside" if low >= -tolerance and high <= tolerance else "open"


def _say_repeats(call: Call, found: list[Match]) -> None:
    needs = [m.repeats for m in found if m.verdict == "cannot tell"]
    known = [n for n in needs if n is not None]
    if len(known) == len(needs) and known:
        more = max(known)
        call.say(f"about {more} more run{'s' if more > 1 else ''} of each would settle it")
    else:
        call.say("the difference lies so near the tolerance that no reasonable number of runs would settle it")


def _advice_words(here: Resolved, counting: Shock, one: Advice) -> str:
    from dynoan.model.shock import clicks_text, turn_words

    goal = clicks_text(counting.to_counted(one.clicks))
    turn = f"turn {here.shock or here.label}: {turn_words(one.change)}"
    return f"{turn}, to {goal} ({counting.counted_words()}); the worst band is then {one.worst:.1f} %"


def _json(
    common: list[tuple[Resolved, Resolved]], found: list[Match], verdict: str,
    advice: list[tuple[Resolved, Shock, Advice]],
) -> dict[str, Any]:  # fmt: skip
    bands = [
        {"direction": b.direction, "velocity_m_s": b.speed, "difference_pct": b.difference, "low_pct": b.low,
         "high_pct": b.high, "difference_n": b.newtons, "clicks": dict(a.clicks)}
        for (a, _), one in zip(common, found, strict=True) for b in one.bands
    ]  # fmt: skip
    return {
        "verdict": verdict, "tolerance_pct": found[0].tolerance, "bands": bands,
        "advice": [{"what": here.shock or here.label, "clicks": counting.to_counted(one.clicks),
                    "change": counting.change_to_counted(one.change), "worst_difference_pct": one.worst}
                   for here, counting, one in advice],
        "settings": [{"what": [a.label, b.label], "clicks": dict(a.clicks), "verdict": m.verdict,
                      "worst_difference_pct": m.worst.difference, "more_runs_each": m.repeats}
                     for (a, b), m in zip(common, found, strict=True)],
    }  # fmt: skip


def _draw(call: Call, pair: tuple[Resolved, Resolved], found: Match, plot: Path) -> None:
    from dynoan.cli.compare import distinct
    from dynoan.show.plots.compare import match_figure
    from dynoan.show.plots.style import save

    first, second = distinct(list(pair))
    figure = match_figure((first, second), (pair[0].curve, pair[1].curve), found, call.shown_units)
    call.note(f"picture: {save(figure, plot)}")
