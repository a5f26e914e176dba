"""What the trackside page shows, as records and then as the JSON that the page carries."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from dynoan.jobs.choose import Chosen
from dynoan.jobs.trackside import TracksideAnswer
from dynoan.model.car import Car
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.setup import Setup
from dynoan.model.shock import Shock
from dynoan.model.trial import Trial
from dynoan.show.pages.launch_table import LaunchFigures, launch_figures
from dynoan.show.pages.worn import Worn, worn_of
from dynoan.show.text.places import placed
from dynoan.show.text.restated import restated
from dynoan.units import Shown


@dataclass(frozen=True)
class RankedChoice:
    """One setting that `choose` found for an axle or a corner; `ratio` is the mean of its corners."""

    where: str  #: "front", "rear" or a corner
    pack: str
    clicks: Mapping[str, Mapping[str, int]]  #: by corner, as its shock's file counts
    ratio: Mapping[str, Mapping[str, float | None]]
    miss: float
    standing: str


@dataclass(frozen=True)
class TracksideView:
    """Everything the page holds. `counting` tells by corner and pack whose clicks people count there."""

    car: Car
    maps: Mapping[str, ClickMap]
    counting: Mapping[str, Mapping[str, Shock]]
    made: str  #: date and time, in words
    units: Shown = "metric"
    choices: tuple[RankedChoice, ...] = ()
    setups: tuple[Setup, ...] = ()  #: newest first
    trials: tuple[Trial, ...] = field(default=(), kw_only=True)  #: oldest first
    #: what a setup file says of the car, without what one turns on the page: the car, then each corner's table
    car_text: str = ""
    corner_text: Mapping[str, str] = field(default_factory=dict)
    warnings: tuple[str, ...] = field(default=())
    worn: tuple[Worn, ...] = ()  #: shocks of the car that changed since their first tests
    launch: LaunchFigures | None = None
    no_launch: str = ""  #: why there are no launch figures
    example: bool = False  #: whether the car's numbers are an example's
    #: by corner and pack: the shock's own curves where it was tested, clicks from closed
    tested: Mapping[str, Mapping[str, Sequence[Curve]]] = field(default_factory=dict)


def view_of(answer: TracksideAnswer, units: Shown, made: str) -> TracksideView:
    """Return the page's view of an answer, made at a moment in words."""
    car_text, corner_text = answer.car_texts
    warnings = dict.fromkeys((*answer.warnings, *answer.beside, *answer.notes))
    launch = None if answer.launch is None else launch_figures(answer.launch, units)
    return TracksideView(
        car=answer.car, maps=answer.maps, counting=answer.counting, made=made, units=units,
        choices=tuple(_ranked(chosen) for chosen in answer.choices), setups=answer.setups, trials=answer.trials,
        car_text=car_text, corner_text=corner_text, warnings=tuple(placed(restated(text, units)) for text in warnings),
        worn=worn_of(answer.worn, answer.car, units),
        launch=launch, no_launch=restated(answer.no_launch, units), tested=answer.tested,
        example=answer.example,
    )  # fmt: skip


def _ranked(chosen: Chosen) -> RankedChoice:
    choice = chosen.choice
    ratio: dict[str, dict[str, float | None]] = {d: {} for d in DIRECTIONS}
    for (direction, level), banded in choice.ratio.items():
        ratio[direction][level] = banded.value
    return RankedChoice(choice.where, choice.pack, chosen.clicks, ratio, choice.miss, choice.standing)
