"""``dynoan carry``: the clicks that keep the damping ratios after a change to the car."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, NO, Call, command
from dynoan.model.car import AXLES, CORNER_NAMES
from dynoan.model.curve import DIRECTIONS
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.analysis.choosing.carry import Carried, Moved
    from dynoan.analysis.choosing.choose import Rules
    from dynoan.model.car import Car, Corner
    from dynoan.workbench import Workbench

EPILOG = """\b
Examples:
  dynoan carry kestrel kestrel-winter
  dynoan carry kestrel stiffer.toml --packs gravel,mixed --within 4
"""
KEYS = tuple((d, at) for d in DIRECTIONS for at in ("low", "high"))


@dataclass(frozen=True)
class Job:
    """The two cars and how to search."""

    call: Call
    bench: Workbench
    car: Car
    other: Car
    rules: Rules
    packs: str | None
    low: str | None
    high: str | None


@command(epilog=EPILOG)
@click.argument("car")
@click.argument("other")
@click.option(
    "--low", help="The low velocity at the shock, in m/s or with a unit. Default: the targets' own, else 0.05 m/s."
)
@click.option("--high", help="The high velocity at the shock. Default: the targets' own, else 0.25 m/s.")
@click.option(
    "--per-corner", is_flag=True, help="Each corner its own clicks, even where left and right are set alike now."
)
@click.option(
    "--packs", metavar="A,B", help="Packs that may be used. Default: the one OTHER's file says is on the car."
)
@click.option("--inside", is_flag=True, help="Stay between the tested clicks of every adjuster.")
@click.option("--within", type=click.IntRange(0, 200), help="Stay within so many clicks of what OTHER's file says.")
@click.option("--tolerance", default="10 %", show_default=True, help="From how far off on a ratio counts as lost.")
def carry(call: Call, car: str, other: str, per_corner: bool, **asked: Any) -> int:
    """Give the clicks on OTHER that keep the damping ratios CAR has now.

    OTHER is the car after the change: another spring, weight, motion ratio or shock, as a second car in the library or
    a car file. Both sides of an axle get the same clicks where they are set alike on CAR. Exit code 1 where a ratio
    cannot be kept.
    """  # fmt: skip
    from dynoan.cautions import CAUTIONS
    from dynoan.cli.choose_inputs import Limits, rules

    bench = call.workbench()
    limits = Limits(asked["packs"], False, asked["inside"], asked["within"], asked["tolerance"], 1)
    cars = bench.library.car(car), bench.library.car(other)
    job = Job(call, bench, *cars, rules(limits), asked["packs"], asked["low"], asked["high"])
    found = [c for axle in AXLES for c in _axle(job, axle, per_corner=per_corner)]
    _show(job, found)
    call.say()
    call.say(CAUTIONS)
    kept = all(c.choice.fits for c in found)
    result = {
        "carried": [_json(job, c) for c in found],
        "kept": kept,
        "tolerance": job.rules.tolerance,
        "cautions": CAUTIONS,
    }
    return call.result(result, DONE if kept else NO)


def _axle(job: Job, axle: str, *, per_corner: bool) -> list[Carried]:
    from dynoan.analysis.choosing.carry import carry as carry_place
    from dynoan.cli.choose_inputs import Limits, packs
    from dynoan.jobs.ratio import velocities

    pairs = [(corner, job.other.corners[corner.name]) for corner in job.car.axle(axle)]
    alike = len({(c.pack, clicks_text(c.clicks)) for pair in pairs for c in pair[:1]}) == 1
    one_pack = len({after.pack for _, after in pairs}) == 1
    moved = [_moved(job, before, after) for before, after in pairs]
    places = [(axle, moved)] if alike and one_pack and not per_corner else [(m.after.name, [m]) for m in moved]
    out = []
    for name, part in places:
        at_hand = job.packs or part[0].after.pack or ""
        maps = list(job.bench.click_maps(packs(job.bench, Limits(packs=at_hand))).values())
        out.append(
            carry_place(
                name,
                part,
                maps,
                job.rules,
                velocities(
                    job.car,
                    axle,
                    *_asked(job),
                ),
            )
        )
    return out


def _moved(job: Job, before: Corner, after: Corner) -> Moved:
    from dynoan.analysis.choosing.carry import Moved

    curve = job.bench.corner_curve(job.car, before)
    if after.pack is None:
        return Moved(before, curve, after, None)
    shock = job.bench.corner_shock(after, after.pack)
    last = {a.name: a.clicks for a in shock.adjusters} if shock.stated else None
    now = shock.to_closed(after.clicks) if after.clicks else None
    return Moved(before, curve, after, job.bench.corner_curve(job.other, after), now, last)


def _settings(job: Job, carried: Carried, name: str) -> tuple[str, str]:
    """Return what was on a corner and what goes on it, as text."""
    before = job.car.corners[name]
    clicks = _clicks(job, carried, name)
    return f"{before.pack} {clicks_text(before.clicks)}", f"{carried.choice.pack} {clicks_text(clicks)}"


def _clicks(job: Job, carried: Carried, name: str) -> dict[str, int]:

    shock = job.bench.corner_shock(job.other.corners[name], carried.choice.pack)
    return shock.to_counted(carried.choice.clicks)


def _show(job: Job, found: list[Carried]) -> None:
    from dynoan.cli.choose_inputs import counted
    from dynoan.show.text.tables import table

    if job.call.json:
        return
    names = [(c, corner) for c in found for corner in c.corners]
    shocks = [job.bench.corner_shock(job.other.corners[corner.name], c.choice.pack) for c, corner in names]
    rows = []
    for c, corner in names:
        was, now = _settings(job, c, corner.name)
        for n, key in enumerate(KEYS):
            # The settings stand beside the first ratios of a corner only: they are the same for all four.
            cells = [CORNER_NAMES[corner.name], was, now] if n == 0 else ["", "", ""]
            b = corner.carried[key]
            untouched = "–" if corner.untouched is None else f"{corner.untouched[key]:.2f}"
            rows.append([*cells, " ".join(key), f"{corner.before[key]:.2f}", untouched, f"{b.value:.2f}",
                         f"{b.low:.2f}–{b.high:.2f}", f"{100 * corner.lost(key):+.0f}"])  # fmt: skip
    columns = ["corner", "before", "carried", "ratio", "was", "untouched", "is", "95 % limits", "lost %"]
    table(columns, rows, title=f"{job.car.name} to {job.other.name} ({counted(shocks)})")
    job.call.say()
    for line in dict.fromkeys(line for c in found for line in _words(job, c)):
        job.call.say(line)


def _words(job: Job, carried: Carried) -> list[str]:
    choice, lines = carried.choice, []
    factors = {f"{100 * (corner.force_factor - 1):+.0f} %" for corner in carried.corners}
    more = " and ".join(sorted(factors))
    lines.append(f"{choice.where}: keeping the ratios takes {more} force at every speed of the shock.")
    for name, end in choice.ends.items():
        lines.append(f"{choice.where}: {name} stands at {end}.")
    if choice.standing == "outside":
        lines.append(f"{choice.where}: these clicks lie outside what was tested; --inside stays on tested ground.")
    if not choice.fits:
        lines.append(
            f"{choice.where}: not every ratio is kept within {100 * job.rules.tolerance:.0f} %; "
            "another pack may do it (--packs)."
        )
    elif not choice.sure:
        lines.append(f"{choice.where}: kept, but within the 95 % limits a ratio may still be out of tolerance.")
    return lines


def _json(job: Job, carried: Carried) -> dict[str, Any]:
    choice = carried.choice
    clicks = {corner.name: _clicks(job, carried, corner.name) for corner in carried.corners}
    return {
        "where": choice.where,
        "pack": choice.pack,
        "clicks": next(iter(clicks.values())),
        "clicks_by_corner": clicks,
        "miss": choice.miss,
        "miss_low": choice.miss_low,
        "miss_high": choice.miss_high,
        "fits": choice.fits,
        "fits_for_sure": choice.sure,
        "standing": choice.standing,
        "limits": dict(choice.ends),
        "corners": {
            corner.name: {
                "pack_before": job.car.corners[corner.name].pack,
                "clicks_before": dict(job.car.corners[corner.name].clicks),
                "before": _nested(corner.before),
                "untouched": None if corner.untouched is None else _nested(corner.untouched),
                "ratio": _nested({key: b.value for key, b in corner.carried.items()}),
                "low": _nested({key: b.low for key, b in corner.carried.items()}),
                "high": _nested({key: b.high for key, b in corner.carried.items()}),
                "lost_pct": _nested({key: 100 * corner.lost(key) for key in KEYS}),
                "force_factor": corner.force_factor,
            }
            for corner in carried.corners
        },
    }


def _nested(flat: Any) -> dict[str, dict[str, float]]:
    return {d: {at: float(flat[d, at]) for at in ("low", "high")} for d in DIRECTIONS}


def _asked(job: Job) -> tuple[float | None, float | None]:
    from dynoan.jobs.ratio import shock_velocity

    low, high = (None if v is None else shock_velocity(v, p) for v, p in ((job.low, "low"), (job.high, "high")))
    return low, high
