"""A report's parts, gathered from the library by the other jobs; what fails becomes a warning, and the rest goes on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import combinations
from typing import TYPE_CHECKING, TypeVar

from dynoan.analysis.clickmap.asked.authority import authority, dead_clicks
from dynoan.analysis.matching.assumptions import SPEEDS, TOLERANCE_PCT
from dynoan.errors import CallError, DynoanError
from dynoan.jobs.beside import histories, launched
from dynoan.jobs.health import HealthAnswer
from dynoan.jobs.match.held import matched
from dynoan.jobs.oil import oil_told
from dynoan.jobs.ranked import ranked
from dynoan.jobs.ratio.answering import answer_with
from dynoan.jobs.ratio.asked import RatioQuestion
from dynoan.jobs.report.parts import CarPart, Gathered, PackPart, PairPart, RunPart, ShockPart, TestedPart
from dynoan.jobs.report.scope import Scope
from dynoan.jobs.travel import TravelAnswer, TravelQuestion
from dynoan.jobs.travel import answer as travel_answer
from dynoan.model.adjusters import in_order
from dynoan.model.example_numbers import TOLD, has_example_numbers
from dynoan.workbench.resolving import Resolved

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.tested.data import Tested
    from dynoan.library import SweepRecord
    from dynoan.model.setup import Setup
    from dynoan.workbench import Workbench

S = TypeVar("S")
T = TypeVar("T")
Couple = tuple["Tested", "Tested"]


@dataclass
class Gatherer:
    """Gathers one report and keeps what is to be said of it."""

    bench: Workbench
    launch: bool = True  #: whether with how the cars leave the line
    said: list[str] = field(default_factory=list)
    failed: list[DynoanError] = field(default_factory=list)  #: why parts are left out
    beside: list[str] = field(default_factory=list)

    def gather(self, scope: Scope, logs: Sequence[TravelQuestion] = ()) -> Gathered:
        """Return the parts of a report; the packs of its cars belong to it, and so does what was logged on its car."""
        library = self.bench.library
        travel = self._travel(scope, logs)
        cars = self._tried(library.cars() if scope.everything else scope.cars, "car", self.car)
        on_cars = {c.pack for part in cars for c in part.ratio.car.corners.values() if c.pack}
        packs = library.packs() if scope.everything else (*scope.packs, *sorted(on_cars - set(scope.packs)))
        known = [p for p in packs if p in library.packs()]
        records = [r for r in self.bench.records if scope.everything or r.pack in packs or r.shock in scope.shocks]
        return Gathered(
            tuple(_run(r) for r in records),
            tuple(self._tried(known, "pack", self.pack)),
            tuple(self._tried(scope.shocks, "shock", self.shock)),
            tuple(self.pairs(packs, () if scope.everything or scope.packs else scope.shocks)),
            tuple(cars),
            self._health(scope, records),
            self._setups({part.ratio.car.name for part in cars}),
            travel,
            beside=tuple(dict.fromkeys(self.beside)),
        )  # fmt: skip

    def _travel(self, scope: Scope, logs: Sequence[TravelQuestion]) -> tuple[TravelAnswer, ...]:
        if not logs:
            return ()
        cars = self.bench.library.cars() if scope.everything else scope.cars
        if len(cars) != 1:
            have = ", ".join(self.bench.library.cars()) or "none"
            raise CallError("travel is logged on one car, and it is not told which", part="travel",
                            hint=f"name the car the report is about (the library has {have})")  # fmt: skip
        found = tuple(travel_answer(self.bench, replace(log, car=cars[0])) for log in logs)
        self.beside += [f"{a.question.log.path}: {text}" for a in found for text in a.warnings]
        return found

    def _health(self, scope: Scope, records: Sequence[SweepRecord]) -> tuple[HealthAnswer, ...]:
        return histories(self.bench, scope.shocks or sorted({r.shock for r in records if r.shock}), self.beside)

    def _setups(self, cars: set[str]) -> tuple[Setup, ...]:
        setups, faults = self.bench.library.readable_setups()
        self.beside += [f"{fault.file}: left out: {fault.fault}" for fault in faults]
        return tuple(sorted((s for s in setups if s.car.name in cars), key=lambda s: s.date, reverse=True))

    def _tried(self, things: Iterable[S], kind: str, make: Callable[[S], T], name: Callable[[S], str] = str) -> list[T]:
        out, all_ = [], list(things)
        for done, thing in enumerate(all_, start=1):
            try:
                out.append(make(thing))
            except DynoanError as error:
                self.failed.append(error)
                self.said.append(f"{kind} {name(thing)} is left out: {error}")
            self.bench.progress(f"{kind}s", done, len(all_))
        return out

    def pack(self, name: str) -> PackPart:
        """Return one pack with its map, its tests and what a click does."""
        click_map, counting = self.bench.click_map(name), self.bench.counting(name)
        tested = tuple(sorted(map(self._test, self.bench.tested(pack=name)), key=_by_setting))
        return PackPart(click_map, counting, tested, authority(click_map), dead_clicks(click_map))

    def _test(self, tested: Tested) -> TestedPart:
        clicks = self.bench.shock(tested.shock).to_counted(tested.from_closed)
        return TestedPart(tested.shock, clicks, tested.curve, _day(tested))

    def shock(self, name: str) -> ShockPart:
        """Return one shock with all its tests."""
        tests = [(t.curve.pack or "–", self._test(t)) for t in self.bench.tested(shock=name)]
        return ShockPart(self.bench.shock(name), tuple(sorted(tests, key=lambda one: (one[0], *_by_setting(one[1])))))

    def car(self, name: str) -> CarPart:
        """Return one car with its rates, ratios and ranked settings."""
        car, curves = self.bench.library.car(name), {}
        for corner in car.corners.values():
            try:
                curves[corner.name] = self.bench.corner_curve(car, corner)
            except DynoanError as error:
                self.said.append(f"car {name}, {corner.name}: no damping ratios: {error}")
        maps = self._tried(self.bench.library.packs(), "pack", self.bench.click_map)
        ratio = answer_with(car, curves, RatioQuestion(name))
        self.beside += [f"car {name}: {text}" for text in ratio.warnings]
        launch, no_launch = launched(self.bench, name, self.beside, wanted=self.launch)
        example = has_example_numbers(self.bench.library.car_text(name))
        self.said += [f"car {name}: {TOLD}"] if example else []
        return CarPart(ratio, ranked(self.bench, car, maps, self.said), launch, no_launch, example)

    def pairs(self, packs: Sequence[str], shocks: Sequence[str]) -> list[PairPart]:
        """Return every two shocks tested in one pack at the same clicks, each as it was last; of `shocks` alone where
        some are named.
        """
        out: list[PairPart] = []
        for pack in packs:
            couples = _couples(self._tested_in(pack), shocks)
            found = self._tried(couples, f"{pack} pair", partial(self._pair, pack), _couple_words)
            out += sorted(found, key=lambda one: (one.first, one.second, tuple(in_order(one.clicks).values())))
        return out

    def _tested_in(self, pack: str) -> tuple[Tested, ...]:
        try:
            return self.bench.tested(pack=pack)
        except DynoanError:
            return ()  # said where the pack itself was left out

    def _pair(self, pack: str, couple: Couple) -> PairPart:
        a, b = (self._resolved(pack, test) for test in couple)
        held = matched(a, b, TOLERANCE_PCT, SPEEDS[self.bench.units], oil_told(self.bench, (a, b)))
        return PairPart(couple[0].shock, couple[1].shock, pack, a.clicks, held, (_day(couple[0]), _day(couple[1])))

    def _resolved(self, pack: str, test: Tested) -> Resolved:
        clicks = self.bench.shock(test.shock).to_counted(test.from_closed)
        sweeps = tuple(self.bench.library.load(sweep) for sweep in test.curve.sweeps)
        return Resolved(test.shock, test.curve, sweeps, test.shock, pack, clicks, test.from_closed)


def _couples(tests: Sequence[Tested], shocks: Sequence[str]) -> list[Couple]:
    latest: dict[tuple[tuple[str, int], ...], dict[str, Tested]] = {}
    for test in sorted(tests, key=_day):
        latest.setdefault(tuple(sorted(test.from_closed.items())), {})[test.shock] = test
    return [
        (a, b) for group in latest.values() for a, b in combinations(sorted(group.values(), key=lambda t: t.shock), 2)
        if not shocks or a.shock in shocks or b.shock in shocks
    ]  # fmt: skip


def _by_setting(test: TestedPart) -> tuple[str, tuple[int, ...], str]:
    """Return what the tests of a pack are listed by: shock, clicks, low ones first, and day."""
    return test.shock, tuple(in_order(test.clicks).values()), test.date


def _day(test: Tested) -> str:
    return (test.date or "")[:10]


def _couple_words(couple: Couple) -> str:
    return f"{couple[0].shock} and {couple[1].shock}"


def _run(record: SweepRecord) -> RunPart:
    return RunPart(record.id, (record.date or "")[:10], record.shock or "", record.pack or "", dict(record.clicks),
                   record.layout, record.temperature, record.source)  # fmt: skip
