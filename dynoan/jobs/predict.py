"""The curve of a pack at any click, with its band and where it stands, and what a click is worth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.clickmap.asked.authority import (
    Authority,
    DeadClicks,
    authority,
    authority_shown,
    dead_clicks,
    told,
)
from dynoan.analysis.clickmap.assumptions.data import REFERENCE_C
from dynoan.analysis.clickmap.every_click.oil_temperature import in_oil, is_told, rate_of, thinning_of
from dynoan.analysis.clickmap.tested.loss_per_kelvin import OilTold
from dynoan.errors import CallError
from dynoan.jobs.answering import Answer, temperature_of
from dynoan.jobs.curve_table import TABLE, Speeds, SpeedsAsked, asked_speeds, beyond, curve_dict, table
from dynoan.jobs.read.options import asked_clicks
from dynoan.library.sweep_shelf import shock_temperature
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.shock import Shock, clicks_text, parse_clicks
from dynoan.units import Shown, brief

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

Clicks = Mapping[str, int]
#: clicks as people give them: "lsc=6,lsr=8", a mapping, or several of either
ClicksAsked = str | Clicks | Iterable[str | Clicks]


@dataclass(frozen=True)
class PredictQuestion:
    """Which pack, at which clicks as the shock counts them; an adjuster left out sits where most tests sat."""

    pack: str
    clicks: tuple[Clicks, ...] = ({},)
    shock: str | None = None  #: one that carries the pack: its own force and its counting
    at: Speeds | None = None  #: in both directions [m/s]; None: the usual ones inside the data
    temperature: float | None = None  #: of the oil [°C]; None: as tested

    @classmethod
    def asked(
        cls, pack: str, clicks: ClicksAsked = (), *, shock: str | None = None, at: SpeedsAsked = None,
        temperature: float | str | None = None,
    ) -> PredictQuestion:  # fmt: skip
        """Return the question from values as people give them; the pack may hold its clicks: "gravel@lsc=6,lsr=8".

        Raises
        ------
        CallError
            If clicks are not understood, or are given in both places.
        QuantityError
            If a speed is none, or not above zero; if the temperature is none, or no shock's.
        """
        speeds = asked_speeds(at)
        warm = None if temperature is None else shock_temperature(temperature_of(temperature))
        name, marked, rest = pack.partition("@")
        given = [clicks] if isinstance(clicks, str | Mapping) else list(clicks)
        if marked and given:
            raise CallError(
                f"'{brief(pack)}' has clicks already", hint="give them there or apart, not both", need="clicks"
            )
        if marked:
            return cls(name, (parse_clicks(rest, where=f"'{brief(pack)}'"),), shock, speeds, warm)
        return cls(name, tuple(asked_clicks(one) or {} for one in given) or ({},), shock, speeds, warm)


@dataclass(frozen=True)
class PredictAnswer(Answer):
    """The curves asked for, what they rest on, and what a click of each adjuster is worth."""

    job: ClassVar[str] = "predict"
    columns: ClassVar[tuple[str, ...] | None] = ("what", "standing", *TABLE)
    question: PredictQuestion
    map: ClickMap
    counting: Shock  #: the shock that clicks are counted as
    curves: tuple[Curve, ...]
    tested: tuple[Curve, ...]  #: of the same pack
    worth: tuple[Authority, ...]  #: around the first of the clicks asked for
    dead: tuple[DeadClicks, ...]

    def filled(self, clicks: Clicks) -> dict[str, int]:
        """Return the clicks, as the shock counts, of adjusters that were left out: where most tests sat."""
        every = self.counting.to_counted(self.map.from_counted(self.counting, clicks))
        return {name: click for name, click in every.items() if name not in clicks}

    def worth_in(self, units: Shown) -> tuple[Authority, ...]:
        """Return what a click is worth at speeds that are round in the units people are shown. [m/s, N, %]"""
        return authority_shown(self.map, self.map.from_counted(self.counting, self.question.clicks[0]), units)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan predict --json`` prints it."""
        map, counting = self.map, self.counting
        return {
            "curves": [curve_dict(curve, self.question.at) for curve in self.curves],
            "clicks_not_given": [self.filled(clicks) for clicks in self.question.clicks],
            "oil_c": [curve.temperature for curve in self.curves],
            "view": map.view, "loo_error_pct": map.loo_error_pct, "spread_pct": map.spread_pct,
            "shocks": list(map.shocks),
            "tested": [counting.to_counted(t) for t in map.tested],
            "counted": {a.name: a.counted for a in counting.adjusters},
            "authority": [_worth_dict(a) for a in self.worth],
            "dead_clicks": [{"adjuster": d.adjuster, "from_closed": [d.first, d.last]} for d in self.dead],
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a curve and signed velocity: damping force with its 95 % band."""
        at = self.question.at
        return [{"what": c.what, "standing": c.standing} | row for c in self.curves for row in table(c, at)]


def _worth_dict(one: Authority) -> dict[str, Any]:
    return {
        "adjuster": one.adjuster, "direction": one.direction, "cross_talk": not one.intended, "tested": one.known,
        "velocity_m_s": one.speeds.tolist(), "force_n_per_click": one.newtons.tolist(),
        "force_pct_per_click": one.percent.tolist(),
    }  # fmt: skip


def answer(bench: Workbench, question: PredictQuestion) -> PredictAnswer:
    """Return the curves of a pack at clicks, tested or not, and what a click is worth around the first of them.

    Raises
    ------
    LookupFault
        If the library holds no sweep of the pack, or no such shock.
    CallError
        If the pack has no such adjuster.
    QuantityError
        If a click lies outside its adjuster.
    """
    map = bench.click_map(question.pack)
    counting = bench.counting_of(map, question.shock)
    cool = [_curve(bench, map, counting, clicks, question.shock) for clicks in question.clicks]
    curves = tuple(
        cool
        if question.temperature is None
        else [in_oil(curve, question.temperature, thinning_of(map)) for curve in cool]
    )
    worth = told(map, authority(map, map.from_counted(counting, question.clicks[0])))
    said = [
        *map.notes,
        *_oil_words(cool, question.temperature, thinning_of(map)),
        *(text for curve in curves for text in (*curve.warnings, *beyond(curve, question.at))),
    ]
    tested = tuple(test.curve for test in bench.tested(pack=question.pack))
    return PredictAnswer(
        question, map, counting, curves, tested, worth, dead_clicks(map), warnings=tuple(dict.fromkeys(said))
    )


def _oil_words(cool: Sequence[Curve], wanted: float | None, told: OilTold | None = None) -> list[str]:
    if wanted is None or all(curve.temperature == wanted for curve in cool):
        return []
    if any(curve.temperature is None for curve in cool):
        return [f"no test tells its oil temperature: {REFERENCE_C:g} °C is assumed (common practice, no source), the "
                "band is the wider for it"]  # fmt: skip
    rate, sd = rate_of(told)
    whose = "as tests of this pack at unlike temperatures tell" if is_told(told) else "common practice, no source"
    return [f"damping is brought to other oil by {1000 * rate:.1f} % per 10 °C (± {1000 * sd:.1f}, both more "
            f"below 0.1 m/s; {whose}); the band allows for it"]  # fmt: skip


def _curve(bench: Workbench, map: ClickMap, counting: Shock, clicks: Clicks, shock: str | None) -> Curve:
    from_closed = map.from_counted(counting, clicks)
    shown = counting.to_counted(from_closed)
    return replace(bench.setting_curve(map, from_closed, shock), clicks=shown, what=f"{map.pack}@{clicks_text(shown)}")
