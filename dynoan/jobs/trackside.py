"""What goes on a phone in the pits: a car, its packs at every click, the ranked choices, the last setups."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

import tomli_w

from dynoan.errors import CallError, DynoanError
from dynoan.jobs.answering import PageAnswer
from dynoan.jobs.beside import launched, worn_shocks
from dynoan.jobs.choose import Chosen
from dynoan.jobs.health import HealthAnswer
from dynoan.jobs.launch.answering import LaunchAnswer
from dynoan.jobs.ranked import ranked
from dynoan.library.car_written import car_to_text
from dynoan.library.setup_file import COLDEST, HOTTEST
from dynoan.model.car import AXLES, Car
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.example_numbers import has_example_numbers
from dynoan.model.setup import Setup
from dynoan.model.shock import Shock
from dynoan.model.trial import Trial

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

WEATHER = (COLDEST, HOTTEST)  #: what a setup's temperature may be [°C]
SETUPS = 12  #: the last ones, as many as anybody scrolls through; common practice, no source
#: what is turned on the page, and so has no place in the text that a setup noted there starts from
TURNED = frozenset({"mass", "spring", "pack", "clicks"})


@dataclass(frozen=True)
class TracksideQuestion:
    """Which car, with which packs."""

    car: str  #: a name in the library, or a car file's path
    packs: tuple[str, ...] = ()  #: none: every tested pack
    launch: bool = True  #: with how it leaves the line

    @classmethod
    def asked(cls, car: str, *, packs: str | Sequence[str] = (), launch: bool = True) -> TracksideQuestion:
        """Return the question from values as people give them: packs one by one, or as "a,b"."""
        named = packs.split(",") if isinstance(packs, str) else packs
        return cls(car, tuple(p.strip() for p in named if p.strip()), launch)


@dataclass(frozen=True)
class TracksideAnswer(PageAnswer):
    """A car with its packs, choices and setups. It is saved as one HTML file that needs no network."""

    job: ClassVar[str] = "trackside"
    question: TracksideQuestion
    car: Car
    maps: Mapping[str, ClickMap]
    counting: Mapping[str, Mapping[str, Shock]]  #: by corner and pack, whose counting its clicks use
    choices: tuple[Chosen, ...] = ()
    setups: tuple[Setup, ...] = ()  #: newest first
    trials: tuple[Trial, ...] = field(default=(), kw_only=True)  #: of this car, or of none, oldest first
    worn: tuple[HealthAnswer, ...] = ()  #: of the car's shocks that are not as in their first tests
    launch: LaunchAnswer | None = None  #: of the car as its file has it, on each surface
    no_launch: str = ""  #: why there is none
    example: bool = field(default=False, kw_only=True)  #: its numbers are an example's, as its file says
    #: by corner and pack: the shock's own curves at the settings it was tested at, clicks from closed
    tested: Mapping[str, Mapping[str, tuple[Curve, ...]]] = field(default_factory=dict, kw_only=True)
    beside: tuple[str, ...] = ()  #: what `health` and `launch` would warn of; the page says it

    @property
    def notes(self) -> tuple[str, ...]:
        """What the click maps say of themselves."""
        return tuple(f"{m.pack}: {note}" for m in self.maps.values() for note in m.notes)

    @property
    def car_texts(self) -> tuple[str, dict[str, str]]:
        """The car's file without what is turned on the page: the car, and the rest of each corner's table."""
        return car_parts(self.car)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan trackside --json`` prints it, without the file that command writes."""
        return {"car": self.car.name, "packs": list(self.maps)}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a ranked setting, the best of each place first."""
        return [
            {"where": c.choice.where, "pack": c.choice.pack, "clicks": c.clicks_text, "miss": c.choice.miss,
             "standing": c.choice.standing}
            | {f"ratio_{d}_{at}": b.value for (d, at), b in c.choice.ratio.items()}
            for c in self.choices
        ]  # fmt: skip


def answer(bench: Workbench, question: TracksideQuestion) -> TracksideAnswer:
    """Return what the phone page holds of a car.

    Raises
    ------
    LookupFault
        If the library knows no such car, or no pack of a name.
    CallError
        If no pack can be shown.
    """
    said: list[str] = []
    car = bench.library.car(question.car)
    maps = _maps(bench, question.packs, said)
    counting = {name: {p: bench.corner_shock(corner, p) for p in maps} for name, corner in car.corners.items()}
    tested = {n: {p: bench.tested_curves(m, c.shock) for p, m in maps.items()} for n, c in car.corners.items()}
    setups, faults = bench.library.readable_setups()
    said += bench.untested(car, tuple(maps))
    trials, broken = bench.library.trials.readable()
    said += [f"{fault.file}: left out: {fault.fault}" for fault in (*faults, *broken)]
    own = sorted((s for s in setups if s.car.name == car.name), key=lambda s: s.date, reverse=True)
    choices = ranked(bench, car, tuple(maps.values()), said)
    beside: list[str] = []
    worn = worn_shocks(bench, [c.shock for c in car.corners.values() if c.shock], beside)
    launch, no_launch = launched(bench, question.car, beside, wanted=question.launch)
    return TracksideAnswer(
        question, car, maps, counting, choices, tuple(own[:SETUPS]), worn, launch, no_launch,
        tuple(beside), warnings=tuple(said), trials=tuple(t for t in trials if t.car in (None, "", car.name)),
        tested=tested, example=has_example_numbers(bench.library.car_text(question.car)),
    )  # fmt: skip


def _maps(bench: Workbench, packs: Sequence[str], said: list[str]) -> dict[str, ClickMap]:
    maps: dict[str, ClickMap] = {}
    names = packs or bench.library.packs()
    for done, pack in enumerate(names, start=1):
        try:
            maps[pack] = bench.click_map(pack)
        except DynoanError as error:
            if packs:
                raise
            said.append(f"pack {pack} is left out: {error}")
        bench.progress("packs", done, len(names))
    if not maps:
        raise CallError("the library holds no pack to show", hint="keep sweeps of one with dynoan add")
    return maps


def car_parts(car: Car) -> tuple[str, dict[str, str]]:
    """Return a car's file without what is turned on the page: the car, and the rest of each corner's table."""
    data = tomllib.loads(car_to_text(car))
    corners = {name: data.pop(name, {}) for name in car.corners}
    for axle in AXLES:
        data[axle] = {k: v for k, v in data.get(axle, {}).items() if k not in TURNED}
    rest = {name: {k: v for k, v in table.items() if k not in TURNED} for name, table in corners.items()}
    return tomli_w.dumps(data), {name: f"[{name}]\n" + tomli_w.dumps(table) for name, table in rest.items()}
