"""All clicks of an axle searched for the launch that is best in what a person names."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.large.best import best_clicks_large
from dynoan.analysis.launch.large.search import ClickLab
from dynoan.analysis.launch.objectives import OBJECTIVES
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.search import ClickSearch, spread
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.launch.answering import LaunchAnswer, Watch, unwatched, warned
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.granted import assumed
from dynoan.jobs.launch.measure_first import unsure_run
from dynoan.jobs.launch.settings import LaunchCase, launch_case, surfaces_of
from dynoan.model.car import AXLES, Car, Corner, Surface
from dynoan.model.shock import Shock

if TYPE_CHECKING:
    from dynoan.workbench.bench import Workbench

LINE = 8  #: settings of the trade-off line that are given


@dataclass(frozen=True)
class BestClicksQuestion:
    """Which axle's clicks to search for what, and on which launch: one surface, one setting at most."""

    launch: LaunchQuestion
    objective: str  #: a key of `analysis.launch.search.OBJECTIVES`
    axle: str | None = None  #: None for the driven one, the rear where all drive
    inside: bool = False  #: keep every adjuster between its tested clicks

    @classmethod
    def asked(
        cls, car: str, best: str, *, axle: str | None = None, inside: bool = False, **launched: Any
    ) -> BestClicksQuestion:
        """Return the question from values as people give them; `launched` as in `LaunchQuestion.asked`.

        Raises
        ------
        QuantityError
            If a value is no such quantity.
        CallError
            If the objective or the axle is unknown, or more than one setting is given.
        """
        if best not in OBJECTIVES:
            raise CallError(f"'{best}' is not one of {', '.join(OBJECTIVES)}", part="best")
        if axle not in (None, *AXLES):
            raise CallError(f"'{axle}' is not one of {', '.join(AXLES)}", part="axle")
        asked = LaunchQuestion.asked(car, **launched)
        if len(asked.settings) > 2:
            raise CallError("the search takes one setting", need="one setting")
        return cls(asked, best, axle, inside)


@dataclass(frozen=True)
class TradeOff:
    """One setting of the searched axle."""

    clicks: Mapping[str, int]  #: as the shock's file counts them
    standing: str  #: "tested", "between" or "outside"
    figures: Mapping[str, float]  #: SI, the unit in each key
    best: bool
    now: bool  #: whether it is what is on the car

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {"clicks": self.clicks, "standing": self.standing, "metrics": self.figures, "best": self.best,
                "now": self.now}  # fmt: skip


@dataclass(frozen=True)
class BestClicksAnswer(LaunchAnswer):
    """What a search found: the runs as on the car and with the best clicks, and what the best costs."""

    job: ClassVar[str] = "launch_best"
    asked: BestClicksQuestion
    axle: str
    search: ClickSearch
    trade_off: tuple[TradeOff, ...]  #: the best, then settings that nothing beats in both figures

    @property
    def best(self) -> TradeOff:
        """The best setting."""
        return self.trade_off[0]

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan launch --best --json`` prints it."""
        return super().to_dict() | {
            "objective": self.asked.objective, "axle": self.axle, "searched": len(self.search.clicks),
            "settings": self.search.possible,
            "best": self.best.to_dict(), "trade_off": [t.to_dict() for t in self.trade_off],
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a setting of the trade-off line: clicks, where they stand, figures."""
        return [{**t.clicks, "standing": t.standing, "best": t.best, "now": t.now, **t.figures} for t in self.trade_off]


def answer(bench: Workbench, question: BestClicksQuestion, watch: Watch = unwatched) -> BestClicksAnswer:
    """Return the best clicks of an axle for a launch, left and right alike, beside what is on the car.

    Raises
    ------
    LookupFault
        If the library knows no such car or pack.
    QuantityError
        If the car's file lacks a key that a launch needs, or a pack.
    CallError
        If the car has several surfaces and none is named, the shocks of the axle have different adjusters, or there are
        too many settings.
    """
    asked = question.launch
    car = bench.library.car(asked.car)
    surface = _one(surfaces_of(car, asked.surfaces))
    setting = asked.settings[-1]
    case = launch_case(bench, setting.on(car), setting.label)
    scene = asked.run.scene(case, surface)
    axle = question.axle or ("front" if case.half.driven == "front" else "rear")
    corners = case.car.axle(axle)
    shock = bench.corner_shock(corners[0], pack_of(case.car, corners[0]))
    clicked = replace(clicked_of(bench, corners), inside=question.inside)
    found = _searched(case, scene, clicked, (axle, question.objective), watch)
    best = launch_case(bench, turned(case.car, axle, found.setting(found.best), shock), "best")
    said: list[str] = []
    runs = tuple(unsure_run(c, asked.run, surface, said) for c in (case, best))
    rows = dict.fromkeys([found.best, *spread(found.front, LINE)])
    return BestClicksAnswer(
        question=asked, runs=runs, half=case.half, assumptions=assumed([case, best]),
        warnings=(*bench.untested(case.car), *dict.fromkeys(said), *warned(runs)),
        asked=question,
        axle=axle, search=found, trade_off=tuple(_setting(found, row, clicked, shock) for row in rows),
    )  # fmt: skip


def _one(surfaces: Sequence[Surface]) -> Surface:
    if len(surfaces) > 1:
        raise CallError("the search takes one surface", need="one surface")
    return surfaces[0]


def _searched(case: LaunchCase, scene: Scene, clicked: Clicked, wanted: tuple[str, str], watch: Watch) -> ClickSearch:
    axle, objective = wanted
    what = f"searching all clicks of the {axle} axle for {OBJECTIVES[objective].words}, left and right alike"
    watch(what, 0.0)
    others = case.damping[1 if axle == "front" else 0]
    lab = ClickLab.of(case.large, scene, others, clicked, axle)
    return best_clicks_large(lab, objective, lambda share: watch(what, share))


def pack_of(car: Car, corner: Corner) -> str:
    """Return the pack on a corner.

    Raises
    ------
    QuantityError
        If the car's file names none.
    """
    if not corner.pack:
        raise QuantityError(
            "missing", where=f"{car.file or car.name}, [{corner.name}] pack", hint='write it like pack = "gravel"'
        )
    return corner.pack


def clicked_of(bench: Workbench, corners: tuple[Corner, ...]) -> Clicked:
    """Return what both shocks of an axle can be set to, and what they are set to where both are alike."""
    maps = tuple(bench.click_map(corner.pack or "") for corner in corners)
    now = [
        m.complete(bench.corner_shock(c, c.pack or "").to_closed(c.clicks)) for m, c in zip(maps, corners, strict=True)
    ]
    return Clicked(maps, tuple(c.shock_ratio for c in corners), now[0] if now[0] == now[1] else {})


def turned(car: Car, axle: str, setting: Mapping[str, int], shock: Shock) -> Car:
    """Return a car with other clicks on both sides of an axle: from closed, turned into the counting of a shock."""
    clicks = shock.to_counted(setting)
    corners = {
        n: replace(c, clicks={**c.clicks, **clicks}) if c in car.axle(axle) else c for n, c in car.corners.items()
    }
    return replace(car, corners=corners)


def _setting(found: ClickSearch, row: int, clicked: Clicked, shock: Shock) -> TradeOff:
    setting = found.setting(row)
    figures = {name: float(values[row]) for name, values in found.figures.items()}
    stands = clicked.standing(setting)
    return TradeOff(shock.to_counted(setting), stands, figures, row == found.best, row == found.now)
