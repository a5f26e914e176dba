"""``dynoan identify``: which known pack and clicks an unknown sweep is."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, NO, Call, cluster_option, command

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.identify import Candidate, Identification
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.shock import Shock
    from dynoan.workbench import Resolved

EPILOG = """\b
Examples:
  dynoan identify unlabelled.csv
  dynoan identify unlabelled.csv --packs gravel,mixed
"""


@command(epilog=EPILOG, short_help="Tell which known pack and clicks an unknown sweep is.")
@click.argument("what", metavar="FILE")
@click.option("--packs", help="Only these packs, such as gravel,mixed; else all in the library.")
@click.option("--shock", help="The shock it is in, where known: clicks are shown as it counts.")
@cluster_option
def identify(call: Call, what: str, packs: str | None, shock: str | None) -> int:
    """Tell which known pack and clicks FILE is: a rig's file, or a sweep's id.

    Every click of every pack is tried. "None of these" and "cannot tell" are answers too: exit 1.
    """
    from dynoan.analysis.clickmap.identify import identify as identify_curve
    from dynoan.cli.compare import resolve

    unknown = resolve(call, what)
    bench = call.workbench()
    names = [p.strip() for p in packs.split(",") if p.strip()] if packs else list(bench.library.packs())
    maps = bench.click_maps(names)
    counting = {name: bench.counting_of(map, shock) for name, map in maps.items()}
    found = [identify_curve(one.curve, list(maps.values())) for one in unknown]
    for one, result in zip(unknown, found, strict=True):
        _warn(call, one, result, maps)
        _show(call, one, result, counting)
    bodies = [{"what": one.label, **_json(result, counting)} for one, result in zip(unknown, found, strict=True)]
    body = bodies[0] if len(bodies) == 1 else {**bodies[0], "all": bodies}
    return call.result(body, DONE if all(r.verdict == "pack" for r in found) else NO)


def _warn(call: Call, one: Resolved, result: Identification, maps: dict[str, ClickMap]) -> None:
    for text in one.curve.warnings:
        call.warn(text)
    best = result.candidates[0]
    if maps[best.pack].view == "single":
        call.warn(f"pack {best.pack} has one tested setting: its clicks cannot be told")
    if one.pack and one.pack != best.pack and result.verdict == "pack":
        call.warn(f"the file says pack {one.pack}; the curve says {best.pack}")


def _show(call: Call, one: Resolved, result: Identification, counting: dict[str, Shock]) -> None:
    from dynoan.show.text.tables import table

    if call.json:
        return
    call.say(f"{one.label}: {verdict_words(result)}")
    likely = [c for i, c in enumerate(result.candidates) if i < 3 or c.probability > 0.01]
    table(
        ["pack", "probability", "clicks", "they lie within (95 %)", "mean difference", "how well it fits"],
        [[c.pack, f"{100 * c.probability:.0f} %", _clicks(c, counting[c.pack]), _ranges(c, counting[c.pack]),
          f"{c.difference:.1f} %", _fit_words(c)] for c in likely],
    )  # fmt: skip

    call.say(counting[result.candidates[0].pack].counted_words())


def verdict_words(result: Identification) -> str:
    """Return the verdict as a sentence."""
    best = result.candidates[0]
    if result.verdict == "pack":
        return f"pack {best.pack}"
    if result.verdict == "none of these":
        return "none of these packs; the nearest differ by more than their shocks do from one another"
    rivals = [c.pack for c in result.candidates if c.probability > 0.05]
    return f"cannot tell between {' and '.join(rivals)}; runs at other speeds or clicks would"


def _fit_words(one: Candidate) -> str:
    from dynoan.analysis.clickmap.assumptions import REFUSED

    return "well" if one.surprise > 0.2 else "fairly" if one.surprise >= REFUSED else "not"


def _clicks(one: Candidate, counting: Shock) -> str:
    from dynoan.model.shock import clicks_text

    return clicks_text(counting.to_counted(one.from_closed)) or "–"


def _ranges(one: Candidate, counting: Shock) -> str:

    low, high = counting.to_counted(one.low), counting.to_counted(one.high)
    return ", ".join(f"{n} {min(low[n], high[n])}–{max(low[n], high[n])}" for n in low) or "–"


def _json(result: Identification, counting: dict[str, Shock]) -> dict[str, Any]:

    matches = []
    for one in result.candidates:
        low, high = (counting[one.pack].to_counted(ends) for ends in (one.low, one.high))
        matches.append({
            "pack": one.pack, "clicks": counting[one.pack].to_counted(one.from_closed),
            "difference_pct": one.difference, "probability": one.probability, "fit_p": one.surprise,
            "clicks_low": {n: min(low[n], high[n]) for n in low}, "clicks_high": {n: max(low[n], high[n]) for n in low},
        })  # fmt: skip
    return {"verdict": result.verdict, "matches": matches}
