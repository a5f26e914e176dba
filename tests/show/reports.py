"""A made-up report view for the tests of the report."""

from dataclasses import replace
from functools import cache

from dynoan.analysis.choosing.aims import CornerAim, Group, Place, wanted_from
from dynoan.analysis.choosing.choose import plans
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.analysis.clickmap.asked.authority import authority, dead_clicks
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.matching.match import match
from dynoan.jobs.choose import Chosen
from dynoan.jobs.ratio import answer_with
from dynoan.jobs.ratio.asked import RatioQuestion
from dynoan.jobs.report.parts import CarPart, Gathered, PackPart, PairPart, RunPart, ShockPart, TestedPart
from dynoan.show.pages.report.build import build_report
from dynoan.show.pages.report.view import ReportView
from tests.made import made_curve
from tests.show.cars import FRONT, made_view, shock_of


@cache
def usual_report():
    """A view and its page, made once for all the tests that only look."""
    view = made_report()
    return view, build_report(view)


def with_parts(view, **changes):
    """The view with other parts in the place of its own."""
    return replace(view, parts=replace(view.parts, **changes))


def made_report(packs=("gravel", "mixed", "tarmac")):
    side = made_view(packs)
    car, maps = side.car, side.maps
    runs = tuple(
        RunPart(f"a1b2c3{i}", "2026-03-14", shock, packs[0], FRONT | {"lsc": i}, "trace", 41.5, f"{shock} run {i}.csv")
        for i in range(4)
        for shock in ("FL-01", "FR-01")
    )
    tests = tuple(TestedPart("FL-01", FRONT | {"lsc": n}, made_curve(lsc=n)) for n in (0, 6, 12))
    pack_views = tuple(PackPart(m, shock_of("fl"), tests, authority(m), dead_clicks(m)) for m in maps.values())
    curves = {
        n: curve_at(maps[c.pack], shock_of(n).to_closed(c.clicks), clicks=c.clicks) for n, c in car.corners.items()
    }
    choices = []
    for axle in ("front", "rear"):
        place = Place(axle, tuple(CornerAim(c, wanted_from(car.targets[axle])) for c in car.axle(axle)))
        for plan in plans([Group(axle, (place,))], tuple(maps.values()), Rules(count=3)):
            shocks = {c.name: shock_of(axle) for c in car.axle(axle)}
            choices += [Chosen(c, shocks) for c in plan.choices]
    pairs = (
        PairPart(
            "FL-01", "FR-01", packs[0], FRONT, match(made_curve(), made_curve(lsc=7)), ("2025-09-01", "2026-03-14")
        ),
        PairPart("RL-02", "RR-02", packs[0], FRONT, match(made_curve(), made_curve(lsc=6))),
    )
    parts = Gathered(
        runs, pack_views, (ShockPart(shock_of("rl"), tuple((packs[0], t) for t in tests)),), pairs,
        (CarPart(answer_with(car, curves, RatioQuestion("kestrel")), tuple(choices)),),
    )  # fmt: skip
    return ReportView(
        "Kestrel, what the dyno says", "All of the library", "25 November 2026, 10:20", parts=parts,
        warnings=("FL-01 run 2.csv: one cycle left out",),
    )  # fmt: skip
