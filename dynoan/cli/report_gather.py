"""What a report is made of, gathered from the library: everything, or what belongs to one shock, pack or car."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import combinations
from typing import TYPE_CHECKING, TypeVar

from dynoan.cli.call import progress
from dynoan.cli.trackside_gather import best
from dynoan.errors import CallError, DynoanError, LookupFault
from dynoan.show.pages.report.view import (
    CarView,
    ChoiceView,
    PackView,
    PairView,
    ReportView,
    ShockView,
    SweepView,
    TestedView,
)

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.mapping import Tested
    from dynoan.cli.call import Call
    from dynoan.library import SweepRecord
    from dynoan.model.car import Car
    from dynoan.workbench import Resolved, Workbench

S = TypeVar("S")
T = TypeVar("T")


@dataclass
class Scope:
    """Which names a report is about; empty everywhere is the whole library."""

    cars: list[str] = field(default_factory=list)
    packs: list[str] = field(default_factory=list)
    shocks: list[str] = field(default_factory=list)

    def words(self) -> str:
        """Return the scope in words."""
        parts = [f"{kind} {', '.join(names)}" for kind, names in
                 (("car", self.cars), ("pack", self.packs), ("shock", self.shocks)) if names]  # fmt: skip
        return "; ".join(parts) or "the whole library"


class Gatherer:
    """Gathers one report; what fails on the way becomes a warning, as the rest is still worth reading."""

    def __init__(self, call: Call, bench: Workbench) -> None:
        self.call, self.bench = call, bench
        self.library = bench.library

    def scope(self, what: Sequence[str]) -> Scope:
        """Return what names given on the command line mean: cars, packs or shocks.

        Raises
        ------
        LookupFault
            If the library knows no car, pack or shock of a name.
        CallError
            If a name could mean two of them.
        """
        scope = Scope()
        known = {"car": self.library.cars(), "pack": self.library.packs(), "shock": self._shocks()}
        lists = {"car": scope.cars, "pack": scope.packs, "shock": scope.shocks}
        for word in what:
            kind, equals, name = word.partition("=")
            kinds = [k for k in known if name in known[k]] if equals else [k for k in known if word in known[k]]
            if equals and kind in known:
                kinds = [k for k in kinds if k == kind]
            if not kinds:
                have = "; ".join(f"{k} {', '.join(names) or 'none'}" for k, names in known.items())
                raise LookupFault(f"'{word}': the library knows no such car, pack or shock; it has {have}")
            if len(kinds) > 1:
                raise CallError(f"'{word}' is a {' and a '.join(kinds)}; write {kinds[0]}={word}")
            lists[kinds[0]].append(name if equals else word)
        return scope

    def _shocks(self) -> tuple[str, ...]:
        return tuple(sorted({r.shock for r in self.bench.records if r.shock} | set(self.library.shocks())))

    def view(self, scope: Scope, title: str, made: str) -> ReportView:
        """Return the report's view."""
        everything = not (scope.cars or scope.packs or scope.shocks)
        cars = self._tried(self.library.cars() if everything else scope.cars, "car", self.car)
        on_cars = {c.pack for view in cars for c in view.car.corners.values() if c.pack}
        wanted = self.library.packs() if everything else [*scope.packs, *sorted(on_cars - set(scope.packs))]
        packs = self._tried([p for p in wanted if p in self.library.packs()], "pack", self.pack)
        shocks = self._tried(scope.shocks, "shock", self.shock)
        records = [r for r in self.bench.records if everything or self._belongs(r, wanted, scope.shocks)]
        return ReportView(
            title=title, scope=scope.words()[:1].upper() + scope.words()[1:], made=made, units=self.call.shown_units,
            sweeps=tuple(_sweep(r) for r in records), packs=tuple(packs), shocks=tuple(shocks),
            pairs=self.pairs(wanted, None if everything or scope.packs else [*scope.shocks]), cars=tuple(cars),
            warnings=tuple(self.call.warnings),
        )  # fmt: skip

    @staticmethod
    def _belongs(record: SweepRecord, packs: Sequence[str], shocks: Sequence[str]) -> bool:
        return record.pack in packs or record.shock in shocks

    def _tried(self, things: Iterable[S], kind: str, make: Callable[[S], T], name: Callable[[S], str] = str) -> list[T]:
        out = []
        with progress(list(things), f"{kind}s", self.call) as shown:
            for thing in shown:
                try:
                    out.append(make(thing))
                except DynoanError as error:
                    self.call.warn(f"{kind} {name(thing)} is left out: {error}")
        return out

    def pack(self, name: str) -> PackView:
        """Return one pack with its map, its tests and what a click does."""
        from dynoan.analysis.clickmap.authority import authority, dead_clicks

        click_map, counting = self.bench.click_map(name), self.bench.counting(name)
        tested = tuple(self._test(t) for t in self.bench.tested(pack=name))
        return PackView(click_map, counting, tested, authority(click_map), dead_clicks(click_map))

    def _test(self, tested: Tested) -> TestedView:
        shock = self.bench.shock(tested.shock)
        return TestedView(tested.shock, shock.to_counted(tested.from_closed), tested.curve)

    def shock(self, name: str) -> ShockView:
        """Return one shock with all its tests."""
        tests = tuple((t.curve.pack or "–", self._test(t)) for t in self.bench.tested(shock=name))
        return ShockView(self.bench.shock(name), tests)

    def car(self, name: str) -> CarView:
        """Return one car with its curves, ratios and ranked settings."""
        from dynoan.analysis.corner.ratios import corner_ratios
        from dynoan.model.car import Targets, axle_of

        car = self.library.car(name)
        curves = {}
        for corner in car.corners.values():
            try:
                curves[corner.name] = self.bench.corner_curve(car, corner)
            except DynoanError as error:
                self.call.warn(f"car {name}, {corner.name}: no damping ratios: {error}")
        ratios = {}
        for corner_name, curve in curves.items():
            targets = car.targets.get(axle_of(corner_name), Targets())
            corner = car.corners[corner_name]
            ratios[corner_name] = corner_ratios(corner, curve, targets.low_velocity, targets.high_velocity)
        return CarView(car, curves, ratios, self._choices(car))

    def _choices(self, car: Car) -> tuple[ChoiceView, ...]:
        maps = self._tried(self.library.packs(), "pack", self.bench.click_map)
        out = []
        for corners, choice in best(self.call, self.bench, car, maps) if maps else ():
            shock = self.bench.corner_shock(car.corners[corners[0]], choice.pack)
            out.append(ChoiceView(choice, shock.to_counted(choice.clicks)))
        return tuple(out)

    def pairs(self, packs: Sequence[str], shocks: Sequence[str] | None) -> tuple[PairView, ...]:
        """Return every two shocks tested in one pack at the same clicks, held against each other."""
        out: list[PairView] = []
        for pack in packs:
            alike: dict[tuple[object, ...], list[Tested]] = {}
            for test in self._tested_in(pack):
                alike.setdefault(tuple(sorted(test.from_closed.items())), []).append(test)
            couples = [
                (a, b) for group in alike.values() for a, b in combinations(group, 2)
                if a.shock != b.shock and (not shocks or a.shock in shocks or b.shock in shocks)
            ]  # fmt: skip
            out += self._tried(couples, f"{pack} pair", partial(self._pair, pack),
                               lambda couple: f"{couple[0].shock} and {couple[1].shock}")  # fmt: skip
        return tuple(out)

    def _pair(self, pack: str, couple: tuple[Tested, Tested]) -> PairView:
        from dynoan.analysis.matching.match import TOLERANCE_PCT
        from dynoan.jobs.match import matched

        a, b = (self._resolved(pack, test) for test in couple)
        return PairView(couple[0].shock, couple[1].shock, pack, a.clicks, matched(a, b, TOLERANCE_PCT))

    def _resolved(self, pack: str, test: Tested) -> Resolved:
        from dynoan.workbench import Resolved

        clicks = self.bench.shock(test.shock).to_counted(test.from_closed)
        sweeps = tuple(self.library.load(sweep) for sweep in test.curve.sweeps)
        return Resolved(test.shock, test.curve, sweeps, test.shock, pack, clicks, test.from_closed)

    def _tested_in(self, pack: str) -> tuple[Tested, ...]:
        try:
            return self.bench.tested(pack=pack)
        except DynoanError:
            return ()  # said where the pack itself was left out


def _sweep(record: SweepRecord) -> SweepView:
    return SweepView(record.id, (record.date or "")[:10], record.shock or "", record.pack or "", dict(record.clicks),
                     record.layout, record.temperature, record.source)  # fmt: skip
