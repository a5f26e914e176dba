"""The question and the answer: settings ranked, what they give, and what would fit where nothing does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar, Unpack

from dynoan.analysis.choosing.aims import Group
from dynoan.analysis.choosing.choice import PlaceChoice, Reached
from dynoan.analysis.corner.ratio_measures import LEVELS, SECANTS, SecantKey
from dynoan.cautions import CAUTIONS
from dynoan.jobs.answering import Answer
from dynoan.jobs.cars import doubted
from dynoan.jobs.choose.advice import Advice
from dynoan.jobs.choose.advising import Searched, advise
from dynoan.jobs.choose.aims import RatioWish, RatioWishGiven, groups
from dynoan.jobs.choose.curves import PlaceCurves, curves_of
from dynoan.jobs.choose.limits import Limits, packs_at_hand
from dynoan.jobs.choose.proposals import begun, proposed, with_proposals
from dynoan.jobs.choose.ranking import Chosen, ChosenPlan, counted_plan, rank
from dynoan.jobs.measures import Measure, as_dict
from dynoan.library.car_edit import CornerSetting
from dynoan.model.banded import Banded
from dynoan.model.car import AXLES, Car, Corner, axle_of
from dynoan.model.curve import DIRECTIONS

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class ChooseQuestion:
    """Which car, what is wanted of it, and what may be used."""

    car: str  #: a name in the library, or a car file's path
    wish: RatioWish = field(default_factory=RatioWish)
    limits: Limits = field(default_factory=Limits)

    @classmethod
    def asked(cls, car: str, limits: Limits | None = None, **wish: Unpack[RatioWishGiven]) -> ChooseQuestion:
        """Return the question from values as people give them; parts as of `RatioWish.asked`.

        Raises
        ------
        CallError, QuantityError
            As `RatioWish.asked`.
        """
        return cls(car, RatioWish.asked(**wish), limits or Limits())


@dataclass(frozen=True)
class ChooseAnswer(Answer):
    """Settings ranked for each place, best first, and what they make of the wanted ratios."""

    job: ClassVar[str] = "choose"
    question: ChooseQuestion
    car: Car
    ranked: tuple[tuple[ChosenPlan, ...], ...]  #: one list a group; one for all where each pack is there only once
    advice: tuple[Advice, ...]
    #: gives the curves of each place; asked for by pictures alone, as it may have to fit
    curves: Callable[[], tuple[PlaceCurves, ...]] = field(repr=False, compare=False)

    @property
    def best(self) -> tuple[Chosen, ...]:
        """The setting ranked first for each place."""
        return tuple(chosen for plans in self.ranked for chosen in plans[0].choices)

    @property
    def settings(self) -> dict[str, CornerSetting]:
        """What the best of every place puts on each corner, as its shock counts."""
        return {
            name: CornerSetting(chosen.choice.pack, clicks)
            for chosen in self.best
            for name, clicks in chosen.clicks.items()
        }

    @property
    def outside(self) -> tuple[str, ...]:
        """Corners on which the best puts clicks outside what was tested, and others than stand there."""
        far = [c for chosen in self.best if chosen.choice.standing == "outside" for c in chosen.clicks]
        return tuple(c for c in far if not _stands(self.car.corners[c], self.settings[c]))

    @property
    def fits(self) -> bool:
        """Whether the best of every place keeps every wanted ratio within the tolerance."""
        return all(plans[0].fits for plans in self.ranked)

    @property
    def no(self) -> bool:
        """Whether nothing fits."""
        return not self.fits

    def by_rank(self) -> Iterator[tuple[int, Chosen]]:
        """Yield rank and setting, the best of all places first."""
        for rank_ in range(max(len(plans) for plans in self.ranked)):
            for plans in self.ranked:
                yield from ((rank_ + 1, chosen) for plan in plans[rank_ : rank_ + 1] for chosen in plan.choices)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan choose --json`` prints it; the advice as sentences.

        Raises
        ------
        NotImplementedError
            If no door with words was opened.
        """
        return {
            "choices": [_choice_dict(chosen, rank_) for rank_, chosen in self.by_rank()],
            "tolerance": self.question.limits.tolerance,
            "fits": self.fits,
            "advice": self.sentences(),
            "cautions": CAUTIONS,
        }

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a setting, the best of all places first."""
        return [
            {"where": chosen.choice.where, "rank": rank_} | as_dict(CHOICE, chosen) | _bands(chosen.choice)
            for rank_, chosen in self.by_rank()
        ]


def _ratio(key: SecantKey) -> Callable[[Chosen], float]:
    return lambda chosen: chosen.choice.ratio[key].value


#: the figures of a ranked setting; a new one is a line here
CHOICE: tuple[Measure[Chosen], ...] = (
    Measure("pack", "pack", lambda c: c.choice.pack),
    Measure("clicks", "clicks", lambda c: c.clicks_text),
    Measure("ratio_compression_low", "comp low", _ratio(("compression", "low"))),
    Measure("ratio_compression_high", "comp high", _ratio(("compression", "high"))),
    Measure("ratio_rebound_low", "reb low", _ratio(("rebound", "low"))),
    Measure("ratio_rebound_high", "reb high", _ratio(("rebound", "high"))),
    Measure("miss_pct", "misses by %", lambda c: 100 * c.choice.miss, digits=0),
    Measure("fits", "fits", lambda c: "yes" if c.choice.sure else "likely" if c.choice.fits else "no"),
    Measure("standing", "tested?", lambda c: c.choice.standing),
)


def answer(bench: Workbench, question: ChooseQuestion) -> ChooseAnswer:
    """Return settings ranked for what is wanted of a car, and advice.

    Raises
    ------
    LookupFault
        If the library knows no such car, pack, or setup to be like.
    CallError
        If no target is set, or no pack may be used.
    QuantityError
        If the car's file lacks a mass, a spring or a motion ratio.
    """
    return answer_for(bench, bench.library.car(question.car), question)


def answer_for(bench: Workbench, car: Car, question: ChooseQuestion) -> ChooseAnswer:
    """Return the same of a car that may stand in no file. Errors as of `answer`."""
    proposals = () if question.wish.wished else proposed(car, question.wish)
    car = with_proposals(car, proposals)
    places = groups(bench, car, question.wish)
    limits = question.limits
    maps = list(bench.click_maps(packs_at_hand(bench, limits.packs)).values())
    ranked = rank(places, maps, limits.rules, once=limits.once)
    counted = partial(counted_plan, bench, car)
    own = question.wish.wished or not (proposals or begun(car))
    advice = (*proposals, *advise(Searched(car, places, maps, limits.rules, counted), ranked, own=own))
    best = {c.choice.where: c for plans in ranked for c in counted(plans[0]).choices}
    return ChooseAnswer(
        question, car, tuple(tuple(counted(plan) for plan in plans) for plans in ranked), advice,
        partial(curves_of, bench, car, places, best), warnings=(*doubted(car), *_left_out(car, question.wish, places)),
    )  # fmt: skip


def _left_out(car: Car, wish: RatioWish, places: Sequence[Group]) -> tuple[str, ...]:
    """Return in words which axle is not chosen for though the whole car was asked for."""
    if wish.axle or wish.corner:
        return ()
    chosen = {axle_of(aim.corner.name) for group in places for place in group.places for aim in place.aims}
    where = car.file or car.name
    words = "no target is set, so nothing is chosen for it; write"
    return tuple(f"{axle}: {words} [targets.{axle}] in {where}" for axle in AXLES if axle not in chosen)


def _stands(corner: Corner, setting: CornerSetting) -> bool:
    """Return whether a corner has a setting already."""
    return corner.pack == setting.pack and dict(corner.clicks) == dict(setting.clicks)


def nested(flat: Mapping[SecantKey, float]) -> dict[str, dict[str, float]]:
    """Return values by direction and "low" or "high" as plain values by the first, then the second. [as given]"""
    return {d: {at: float(flat[d, at]) for at in LEVELS} for d in DIRECTIONS}


def _choice_dict(chosen: Chosen, rank_: int) -> dict[str, Any]:
    choice = chosen.choice
    return {
        "where": choice.where,
        "rank": rank_,
        "pack": choice.pack,
        "clicks": next(iter(chosen.clicks.values())),
        "clicks_by_corner": chosen.clicks,
        "clicks_from_closed": dict(choice.clicks),
        "ratio": _ratios_dict({k: b.value for k, b in choice.ratio.items()}),
        "low": _ratios_dict({k: b.low for k, b in choice.ratio.items()}),
        "high": _ratios_dict({k: b.high for k, b in choice.ratio.items()}),
        **verdict_dict(choice),
        "per_click": {n: nested(per) for n, per in chosen.per_click.items()},
        "wanted": [_reached_dict(r) for r in choice.reached],
    }


def verdict_dict(choice: PlaceChoice) -> dict[str, Any]:
    """Return how good a setting is, as plain values."""
    return {
        "miss": choice.miss,
        "miss_low": choice.miss_low,
        "miss_high": choice.miss_high,
        "fits": choice.fits,
        "fits_for_sure": choice.sure,
        "standing": choice.standing,
        "limits": dict(choice.ends),
    }


def _ratios_dict(values: Mapping[SecantKey, float]) -> dict[str, Any]:
    return nested(values) | {"mean": sum(values[k] for k in SECANTS) / len(SECANTS)}


def _reached_dict(reached: Reached) -> dict[str, Any]:
    w, r = reached.wanted, reached.ratio
    return {"corner": reached.corner, "direction": w.direction, "velocity_m_s": w.velocity, "wanted": w.ratio,
            "ratio": r.value, "low": r.low, "high": r.high, "extrapolated": bool(r.extrapolated)}  # fmt: skip


def _bands(choice: PlaceChoice) -> dict[str, float]:
    def ends(key: SecantKey, b: Banded) -> Iterator[tuple[str, float]]:
        yield f"ratio_{key[0]}_{key[1]}_lower", b.low
        yield f"ratio_{key[0]}_{key[1]}_upper", b.high

    return {name: value for key in SECANTS for name, value in ends(key, choice.ratio[key])}
