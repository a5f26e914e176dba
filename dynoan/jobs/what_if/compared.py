"""Figures of several answers of one job laid side by side, and which of them differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from dynoan.analysis.choosing.choice import PlaceChoice
from dynoan.analysis.corner.ratio_measures import SECANTS
from dynoan.analysis.launch.compare import NO_DIFFERENCE, LaunchRun, apart
from dynoan.jobs.answering import Answer
from dynoan.jobs.carry.answering import CarryAnswer
from dynoan.jobs.carry.found import CarriedPlace
from dynoan.jobs.choose.answering import CHOICE, ChooseAnswer
from dynoan.jobs.choose.ranking import Chosen
from dynoan.jobs.compared_figures import ComparedBlock, ComparedFigure, ComparedVerdict, Value, differing, figure_of
from dynoan.jobs.launch.answering import LaunchAnswer, spun_through
from dynoan.jobs.launch.differences import differences
from dynoan.jobs.launch.figures import ASKED_FOR, FIGURES, deciding
from dynoan.jobs.measures import Measure
from dynoan.jobs.ratio.answering import RatioAnswer
from dynoan.jobs.ratio.figures import CORNER, DIRECTION, SideFound
from dynoan.model.banded import Banded
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import DIRECTIONS
from dynoan.model.shock import clicks_text

#: the figures of a corner that a change can move and a person would look for
_OF_CORNER = ("wheel_rate_n_m", "sprung_mass_kg", "ride_frequency_hz", "hop_frequency_hz",
              "critical_damping_shock_n_s_m")  # fmt: skip
#: their words where a table names no neighbour
_CORNER_WORDS = {"sprung_mass_kg": "sprung mass", "ride_frequency_hz": "ride frequency",
                 "hop_frequency_hz": "hop frequency",
                 "critical_damping_shock_n_s_m": "critical damping at the shock"}  # fmt: skip
_OF_SIDE = ("low", "high", "body", "hop", "random")


def compared(answers: Sequence[Answer]) -> tuple[ComparedBlock, ...]:
    """Return the figures of answers of one job side by side, all held against the first.

    Answers of `carry` are each a change already: they are held against the car before it, which stands first.
    """
    first = answers[0]
    if isinstance(first, LaunchAnswer):
        return _launches([a for a in answers if isinstance(a, LaunchAnswer)])
    if isinstance(first, RatioAnswer):
        return _ratios([a for a in answers if isinstance(a, RatioAnswer)])
    if isinstance(first, ChooseAnswer):
        return _choices([a for a in answers if isinstance(a, ChooseAnswer)])
    return _carried([a for a in answers if isinstance(a, CarryAnswer)])


def _ratios(answers: Sequence[RatioAnswer]) -> tuple[ComparedBlock, ...]:
    out = []
    for name in answers[0].corners:
        here = [a.corners.get(name) for a in answers]
        figures = [figure_of(m, here, words=_CORNER_WORDS.get(m.key, "")) for m in CORNER if m.key in _OF_CORNER]
        for d in DIRECTIONS:
            sides = [None if c is None or c.ratios is None else SideFound(c.ratios, c.ratios.side(d)) for c in here]
            figures += [
                figure_of(m, sides, f"{d}.{m.key}", f"damping ratio, {d}, {m.words}")
                for m in DIRECTION if m.key in _OF_SIDE
            ]  # fmt: skip
        out.append(ComparedBlock(CORNER_NAMES[name], tuple(figures)))
    return tuple(out)


def _choices(answers: Sequence[ChooseAnswer]) -> tuple[ComparedBlock, ...]:
    found = [{c.choice.where: c for c in a.best} for a in answers]
    where = dict.fromkeys(name for one in found for name in one)
    measures = [_sure(m) for m in CHOICE]
    return tuple(
        ComparedBlock(name, tuple(figure_of(m, [one.get(name) for one in found]) for m in measures)) for name in where
    )


def _sure(measure: Measure[Chosen]) -> Measure[Chosen]:
    """Return a figure of a choice with its band, where it has one."""
    if measure.key == "miss_pct":
        return replace(measure, value=lambda c: _miss_of(c.choice))
    found = next((key for key in SECANTS if measure.key == f"ratio_{key[0]}_{key[1]}"), None)
    return measure if found is None else replace(measure, value=lambda c: c.choice.ratio[found])


def _miss_of(choice: PlaceChoice) -> Banded:
    return Banded(100 * choice.miss, 100 * choice.miss_low, 100 * choice.miss_high)


def _carried(answers: Sequence[CarryAnswer]) -> tuple[ComparedBlock, ...]:
    """Return what goes on each place in every case, held against what is on the car before any change."""
    found = [{p.chosen.choice.where: p for p in a.places} for a in answers]
    where = dict.fromkeys(name for one in found for name in one)
    return tuple(ComparedBlock(name, _carried_figures([one.get(name) for one in found])) for name in where)


def _carried_figures(places: Sequence[CarriedPlace | None]) -> tuple[ComparedFigure, ...]:
    """Return the figures of one place; the first value is the car's as it is."""
    now = next(place for place in places if place is not None).corners[0].before
    rows: tuple[tuple[Value, bool, Measure[Any]], ...] = (
        (now.pack, True, Measure("pack", "pack", lambda p: p.chosen.choice.pack)),
        (clicks_text(now.clicks), True, Measure("clicks", "clicks", lambda p: p.chosen.clicks_text)),
        (1.0, False, Measure("force_factor", "force at the shock, times", lambda p: p.corners[0].carried.force_factor,
                             digits=3)),
        (0.0, False, Measure("untouched_lost", "ratio off at worst, clicks kept", _worst_untouched, percent=True)),
        (0.0, False, Measure("worst_lost", "ratio off at worst, with these clicks", _worst, percent=True)),
    )  # fmt: skip
    return tuple(_held_against(first, always, measure, places) for first, always, measure in rows)


def _held_against(first: Value, always: bool, measure: Measure[Any], places: Sequence[Any]) -> ComparedFigure:
    """Return a figure of places with the car's own value before them."""
    of = figure_of(measure, places)
    certain = None if isinstance(first, str) or first is None else (first, first)
    differs = [
        differing(first, band and certain, value, band) for value, band in zip(of.values, of.bands, strict=True)
    ]  # fmt: skip
    return replace(of, values=(first, *of.values), bands=(None, *of.bands), always=always, differs=("", *differs))


def _worst(place: CarriedPlace) -> Banded:
    pairs = [(now, c.carried.before[key]) for c in place.corners for key, now in c.carried.carried.items()]
    lost = [Banded(now.value / was - 1.0, now.low / was - 1.0, now.high / was - 1.0) for now, was in pairs]
    return max(lost, key=lambda off: abs(off.value))


def _worst_untouched(place: CarriedPlace) -> float | None:
    """Return what becomes of the ratio that changes most where pack and clicks are left as they are. [1]"""
    lost = [
        now / c.carried.before[key] - 1.0
        for c in place.corners if c.carried.untouched is not None for key, now in c.carried.untouched.items()
    ]  # fmt: skip
    return max(lost, key=abs, default=None)


def _launches(answers: Sequence[LaunchAnswer]) -> tuple[ComparedBlock, ...]:
    runs = [{(r.surface, r.setting): r for r in a.runs} for a in answers]
    keys = [key for key in runs[0] if all(key in one for one in runs)]
    several = len({setting for _, setting in keys}) > 1
    alike = [a.curves_from for a in answers]
    paired = [one == alike[0] for one in alike]
    return tuple(
        launch_block(f"{surface}, {setting}" if several else surface, [one[surface, setting] for one in runs], paired)
        for surface, setting in keys
    )


def launch_block(title: str, runs: Sequence[LaunchRun], paired: Sequence[bool]) -> ComparedBlock:
    """Return the figures of runs side by side; `paired` says which have the same curves as the first."""
    figures = tuple(_run_figure(m, runs, paired) for m in FIGURES if m.key in runs[0].metrics)
    decides = deciding([run.metrics for run in runs]) if len(runs) > 1 else ()
    verdicts = tuple(_verdict(key, words, runs, paired) for key, words in decides)
    return ComparedBlock(title, figures, verdicts, differences(runs, paired))


def _run_figure(measure: Measure[Any], runs: Sequence[LaunchRun], paired: Sequence[bool]) -> ComparedFigure:
    key = measure.key
    values = tuple(run.metrics[key] for run in runs)
    bands = tuple((run.low[key], run.high[key]) for run in runs)
    differs = tuple(
        ""
        if not differing(values[0], None, value, None, NO_DIFFERENCE)
        else "sure"
        if apart(runs[0], run, key, paired=one)
        else "differs"
        for value, run, one in zip(values, runs, paired, strict=True)
    )
    return ComparedFigure(key, measure.words, values, bands, differs, measure, always=key in ASKED_FOR)


def _verdict(key: str, words: str, runs: Sequence[LaunchRun], paired: Sequence[bool]) -> ComparedVerdict:
    order = sorted(range(len(runs)), key=lambda i: runs[i].metrics[key])
    best, second = order[0], order[1]
    low, high = runs[best].metrics[key], runs[order[-1]].metrics[key]
    if not high - low > NO_DIFFERENCE * abs(high):
        return ComparedVerdict(key, words, 0, "no difference", key == "wheelspin_s" and spun_through(runs))
    ahead = runs[second].metrics[key] - runs[best].metrics[key] > NO_DIFFERENCE * abs(runs[second].metrics[key])
    sure = ahead and apart(runs[best], runs[second], key, paired=paired[best] and paired[second])
    return ComparedVerdict(key, words, best, "best" if sure else "cannot tell")
