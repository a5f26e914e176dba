"""What the workbench makes of names, counting and dates, before anything is fitted."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.library.car_file import car_from_text
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.shock import Adjuster, Shock
from dynoan.workbench.bench import Workbench
from dynoan.workbench.holding import NAMELESS
from dynoan.workbench.resolving import Wanted
from tests.library.made import CAR


@dataclass(frozen=True)
class Record:
    """As much of a library's record as is asked for here."""

    id: str
    shock: str | None = "FL-01"
    pack: str | None = "gravel"
    clicks: dict[str, int] = field(default_factory=lambda: {"lsc": 6})
    date: str | None = "2026-03-01"


@dataclass(frozen=True)
class Fault:
    """A file that cannot be listed."""

    file: str
    fault: str


SHOCKS = {
    "FL-01": Shock("FL-01", (Adjuster("lsc", 20), Adjuster("lsr", 12))),
    "FR-01": Shock("FR-01", (Adjuster("lsr", 12), Adjuster("lsc", 24))),
    "RL-01": Shock("RL-01", (Adjuster("lsc", 20, "from soft"), Adjuster("lsr", 12))),
    "XX-01": Shock("XX-01", (Adjuster("lsc", 6),), stated=False),
}


class Shelf:
    """A library that holds records and shocks and nothing to fit."""

    def __init__(self, *records: Record, faults: tuple[Fault, ...] = ()) -> None:
        self.held, self.broken, self.asked = records, faults, 0

    def listed(self) -> Any:
        self.asked += 1
        return SimpleNamespace(records=self.held, faults=self.broken)

    def faults(self) -> tuple[Fault, ...]:
        return self.broken

    def shock(self, name: str) -> Shock:
        if name not in SHOCKS:
            raise LookupFault(f"the library knows no shock '{name}'")
        return SHOCKS[name]

    def has_shock_file(self, name: str) -> bool:
        return name in SHOCKS

    def text_names(self, folder: str) -> tuple[str, ...]:
        return tuple(SHOCKS) if folder == "shocks" else ()


def bench(*records: Record, **more: Any) -> Workbench:
    said: list[str] = more.pop("said", [])
    return Workbench(Shelf(*records, **more), said.append)  # type: ignore[arg-type]


def test_a_file_that_cannot_be_listed_is_a_warning_once_and_the_rest_is_there():
    said: list[str] = []
    at = bench(Record("a1"), faults=(Fault("sweeps/b2.h5", "damaged"),), said=said)
    assert [r.id for r in at.records] == [r.id for r in at.records] == ["a1"]
    assert said == ["sweeps/b2.h5: damaged; left out (see 'dynoan check')"]


def test_what_was_read_is_read_again_once_it_has_changed():
    at = bench(Record("a1"))
    for _ in range(3):
        assert at.records
    assert at.library.asked == 1
    at.forget()
    assert at.records
    assert at.library.asked == 2


def test_sweeps_without_a_shock_count_from_closed_with_the_adjusters_they_name():
    at = bench(
        Record("a", None, clicks={"lsc": 3, "r": 9}),
        Record("b", None, clicks={"lsc": 7}),
        Record("c", clicks={"hsr": 30}),
    )
    for name in (None, "", NAMELESS):
        assert at.shock(name) == Shock(NAMELESS, (Adjuster("lsc", 7), Adjuster("r", 9)), stated=False)


def test_shocks_that_count_alike_lend_the_counting_with_the_most_clicks():
    at = bench(Record("a", "FL-01"), Record("b", "FR-01"), Record("c", "XX-01"), Record("d", None))
    assert at.counting("gravel") is SHOCKS["FR-01"]
    assert at.counting("gravel", "FL-01") is SHOCKS["FL-01"]


def test_shocks_that_count_differently_must_be_named():
    at = bench(Record("a", "FL-01"), Record("b", "RL-01"))
    with pytest.raises(CallError, match=r"the shocks with pack gravel count clicks differently; name one: shock=FL-01"):
        at.counting("gravel")
    assert at.counting("gravel", "RL-01") is SHOCKS["RL-01"]
    side = DirectionMap(("lsc",), np.array([0.0, 0.5]), np.zeros((21, 2)), np.zeros((21, 2)), 0.5)
    found = ClickMap("gravel", (Adjuster("lsc", 20),), side, side, ())
    assert at.counting_of(found) == Shock("", (Adjuster("lsc", 20),), stated=False)
    assert at.counting_of(found, "RL-01") is SHOCKS["RL-01"]


@pytest.mark.parametrize(
    "ask", [lambda b: b.counting("mixed"), lambda b: b.click_map("mixed"), lambda b: b.click_map("mixed", "FL-01")]
)
def test_a_pack_that_is_not_held_is_named_with_those_that_are(ask):
    with pytest.raises(LookupFault, match="holds no sweep of pack 'mixed'; it holds gravel, tarmac"):
        ask(bench(Record("a"), Record("b", pack="tarmac"), Record("c", pack=None)))
    with pytest.raises(LookupFault, match="it holds none yet: add sweeps with 'dynoan add'"):
        ask(bench())


@pytest.mark.parametrize(
    ("what", "words"),
    [
        ("ab", "'ab' names several sweeps of the library"),
        ("zz", "'zz' names no file, sweep, pack or shock known here"),
        ("", "'' names several sweeps"), ("pack=mixed", "holds no sweep of 'pack=mixed'; see 'dynoan sweeps'"),
        ("pack=gravl", r"'pack=gravl' \(did you mean 'gravel'\?\); see"),
        ("gravel@lsc=6,date=2020", "holds no sweep of"), ("shock=RR-09", "holds no sweep of"),
    ],
)  # fmt: skip
def test_what_names_nothing_or_too_much_is_refused(what, words):
    with pytest.raises(LookupFault, match=words):
        bench(Record("ab1"), Record("ab2")).resolve(what)


def test_clicks_without_a_pack_are_of_the_only_one_or_refused_with_those_there_are():
    assert bench(Record("a"), Record("b", "FR-01", "tarmac"))._only_pack("FR-01") == "tarmac"
    with pytest.raises(CallError, match=r"which pack\? name one as pack=NAME \(tested here: gravel, tarmac\)"):
        bench(Record("a"), Record("b", pack="tarmac")).resolve("lsc=9")
    with pytest.raises(CallError, match="tested here: none"):
        bench(Record("a", pack=None)).resolve("lsc=9")


def test_a_click_outside_its_shock_is_refused_before_anything_is_fitted():
    with pytest.raises(QuantityError, match="lsc=21 is outside the clicks of shock FL-01: 0 to 20"):
        bench(Record("a")).predicted(Wanted(pack="gravel", clicks={"lsc": 21}))
    with pytest.raises(CallError, match="shock FL-01 has no adjuster 'hsc'; it has lsc, lsr"):
        bench(Record("a")).predicted(Wanted(pack="gravel", clicks={"hsc": 1}))


def test_without_a_library_a_name_that_looks_like_a_file_is_a_file_that_is_not_there():
    def none():
        raise LookupFault("no library here", need="library")

    alone = Workbench(none)  # type: ignore[arg-type]
    assert alone.layouts() == ()
    with pytest.raises(CallError, match=r"^run\.csv: no such file, and no library here"):
        alone.resolve("run.csv")
    for what in ("gravel", "pack=gravel.csv"):
        with pytest.raises(LookupFault, match="no library here"):
            alone.resolve(what)


def test_a_library_that_was_named_and_is_none_is_said_and_not_passed_over():
    def none():
        raise LookupFault("lib: no such folder")

    with pytest.raises(LookupFault, match="no such folder"):
        Workbench(none).layouts()  # type: ignore[arg-type]


def test_a_corner_is_refused_with_the_cars_file_and_key():
    car = car_from_text(CAR, "cars/kestrel.toml")
    at = bench(Record("a"))
    with pytest.raises(
        QuantityError, match=r'^cars/kestrel\.toml, \[fr\] pack: missing; write it like pack = "gravel"$'
    ):
        at.corner_curve(car, car.corners["fr"])
    far = replace(car.corners["fl"], clicks={"lsc": 21})
    with pytest.raises(QuantityError, match="lsc=21 is outside the clicks of shock FL-01: 0 to 20"):
        at.corner_curve(car, far)


def test_a_corner_counts_as_its_own_shock_where_the_library_knows_it():
    car = car_from_text(CAR, "cars/kestrel.toml")
    at = bench(Record("a", "FR-01"))
    assert at.corner_shock(car.corners["fl"], "gravel") is SHOCKS["FL-01"]
    assert at.corner_shock(replace(car.corners["fl"], shock="borrowed"), "gravel") is SHOCKS["FR-01"]
