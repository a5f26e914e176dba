"""Frequency and damping ratio measured on the car from a free decay, held against the prediction."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from dynoan.analysis.bounce.assumptions import (
    CUT_CYCLES,
    DAMPED_WELL,
    FEW_CYCLES,
    LEAST_FRICTION,
    LEFT_MUCH,
    MADE_RATE,
    MOST_FRICTION,
)
from dynoan.analysis.bounce.decrement import Decrement, decrement
from dynoan.analysis.bounce.fitting import fit_swings
from dynoan.analysis.bounce.judging import SwingHeld, bounce_verdict, held
from dynoan.analysis.bounce.limits import SwingFit
from dynoan.analysis.bounce.predicting import predicted_within, pushes_like
from dynoan.analysis.bounce.problem import KnownCorner, Logged
from dynoan.cautions import PUSHING
from dynoan.errors import CallError, FitError
from dynoan.jobs.answering import Answer
from dynoan.jobs.bounce.asked import BounceChannel, BounceQuestion, bounce_channel
from dynoan.jobs.bounce.car import PushedCorners, allowed, pushed_corners
from dynoan.jobs.bounce.explained import Explanation, explanations
from dynoan.model.arrays import FloatArray
from dynoan.model.banded import Banded

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

__all__ = ["BounceAnswer", "BounceQuestion", "answer"]


@dataclass(frozen=True)
class BouncePrediction:
    """The simulated corner read by the same estimator, and how the measured one compares."""

    fit: SwingFit
    frequency: SwingHeld  #: without the shock, which has a say in how fast a corner swings
    ratio: SwingHeld
    explained_by: tuple[Explanation, ...]


@dataclass(frozen=True)
class BounceAnswer(Answer):
    """What the swing of a pushed car tells."""

    job: ClassVar[str] = "bounce"
    question: BounceQuestion
    channel: BounceChannel
    logged: Logged  #: what was fitted: travel at the wheel, where a car tells the ratio
    measured: SwingFit
    predicted: BouncePrediction | None
    friction: Banded | None  #: at the wheel; None without a car's mass [N]
    dyno_friction: float | None  #: what the dyno knows of it, at the wheel [N]
    peaks: Decrement | None  #: of the first swing, without any model

    @property
    def verdict(self) -> str:
        """Whether the car swings as predicted."""
        if self.predicted is None:
            return "cannot tell"
        stated = self.measured.frequency_stated
        return bounce_verdict(self.predicted.frequency, self.predicted.ratio, stated=stated)

    @property
    def no(self) -> bool:
        """Whether it differs."""
        return self.verdict == "differs"

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan bounce --json`` prints it."""
        predicted = None if self.predicted is None else self.predicted.fit
        return {
            "corner": self.question.place, "car": self.question.car, "file": self.question.log.path,
            "understood": self.channel.how, "rate_hz": self.channel.rate, "pushes": len(self.measured.swings),
            "amplitude_m": self.measured.amplitude, "measured": _figures(self.measured),
            "frequency_stated": self.measured.frequency_stated, "frequency_shown": self.measured.frequency_shown,
            "ratio_stated": self.measured.ratio_stated,
            "predicted": None if predicted is None else _figures(predicted), "verdict": self.verdict,
            "friction_n": None if self.friction is None else _banded_dict(self.friction),
            "friction_told": self.measured.told,
            "friction_dyno_n": self.dyno_friction,
            "decrement_ratio": None if self.peaks is None else self.peaks.ratio,
            "evidence": [] if self.predicted is None else _evidence(self.predicted),
            "caution": PUSHING,
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return measured and predicted as two rows."""
        pairs = [("measured", self.measured)] + ([("predicted", self.predicted.fit)] if self.predicted else [])
        return [
            {"what": what, "corner": self.question.place, "frequency_hz": f.frequency.value,
             "frequency_low_hz": f.frequency.low, "frequency_high_hz": f.frequency.high, "ratio": f.ratio.value,
             "ratio_low": f.ratio.low, "ratio_high": f.ratio.high}
            for what, f in pairs
        ]  # fmt: skip


def _banded_dict(value: Banded) -> dict[str, float]:
    return {"value": value.value, "low": value.low, "high": value.high}


def _figures(fit: SwingFit) -> dict[str, Any]:
    return {
        "frequency_hz": _banded_dict(fit.frequency), "ratio": _banded_dict(fit.ratio), "damped_hz": fit.damped,
        "without_shock_hz": _banded_dict(fit.free), "rebound_over_compression": _banded_dict(fit.rebound_over),
    }  # fmt: skip


def _evidence(found: BouncePrediction) -> list[dict[str, Any]]:
    factors = {"frequency without the shock": found.frequency, "ratio": found.ratio}
    return [
        {"what": f"{what}, measured over predicted", "value": h.factor.value, "low": h.factor.low,
         "high": h.factor.high, "differs": h.differs}
        for what, h in factors.items()
    ] + [{"what": f"{e.what} alone would explain it", "value": e.value, "now": e.now, "kind": e.kind}
         for e in found.explained_by]  # fmt: skip


def answer(bench: Workbench | None, question: BounceQuestion) -> BounceAnswer:
    """Return what the swing of a pushed car tells; with a car, held against the prediction.

    Raises
    ------
    CallError
        If the log holds neither travel of what was pushed nor a phone's three axes, or a car is asked for without a
        library.
    FitError
        If no push is found in it, or the simulated corner does not swing.
    QuantityError, LookupFault
        If a unit, the car's file or the library lacks something.
    """
    channel = bounce_channel(question)
    if question.car is not None and bench is None:
        raise CallError("the curves of a car are in a library, and none is open", need="library")
    pushed = None if question.car is None or bench is None else pushed_corners(bench, question.car, question.where)
    over = 1.0 if channel.acceleration or pushed is None else pushed.shock_ratio
    logged = Logged(channel.time, channel.values / over, channel.acceleration, channel.ends)
    try:
        fit = fit_swings(logged, KnownCorner() if pushed is None else pushed.made().known)
    except FitError as error:
        raise error.again(where=question.log.file) from None
    predicted = None if pushed is None or bench is None else _predicted(bench, pushed, fit, (logged, channel.rate))
    sprung = None if pushed is None else pushed.made().sprung
    friction = None if sprung is None else _times(fit.friction, sprung)
    return BounceAnswer(
        question=question, channel=channel, logged=logged, measured=fit, predicted=predicted, friction=friction,
        dyno_friction=None if pushed is None else pushed.friction, peaks=_peaks(fit),
        warnings=_warnings(channel, fit, pushed),
    )  # fmt: skip


def _times(value: Banded, factor: float) -> Banded:
    return Banded(factor * value.value, factor * value.low, factor * value.high)


def _predicted(bench: Workbench, pushed: PushedCorners, fit: SwingFit, log: tuple[Logged, float]) -> BouncePrediction:
    corners = [pushed.made(friction) for friction in pushed.frictions]
    logged, rate = log
    made = predicted_within(corners, pushes_like(logged, corners[0], min(rate, MADE_RATE)))
    made = allowed(made, pushed, len(corners))
    frequency, ratio = held(fit.free, made.free), held(fit.ratio, made.ratio)
    differs = frequency.factor if fit.frequency_stated else Banded(1.0, 1.0, 1.0)
    return BouncePrediction(made, frequency, ratio, explanations(bench, pushed, differs, ratio.factor))


def _peaks(fit: SwingFit) -> Decrement | None:
    """Return the logarithmic decrement of the first swing's extremes; None with fewer than three."""
    values = fit.fitted[0]
    turns = [n for n in range(1, len(values) - 1) if (values[n] - values[n - 1]) * (values[n + 1] - values[n]) < 0]
    sizes = [abs(float(values[n])) for n in turns]
    falling: list[float] = []
    for size in sizes:
        if falling and size >= falling[-1]:
            break
        falling.append(size)
    return decrement(_array(falling), 0.5) if len(falling) >= 3 and falling[-1] > 0 else None


def _array(values: list[float]) -> FloatArray:
    return np.array(values)


def _why_open(fit: SwingFit) -> str:
    """Return why a frequency cannot be told."""
    if fit.left_share > LEFT_MUCH:
        return ("the swings are not those of one corner that was let go: was another one pushed, a hand on the car, or "
                "the sensor loose?")  # fmt: skip
    if fit.cycles < CUT_CYCLES:
        return "the swings are cut short; let go, and wait three seconds before the next push and before the log ends"
    if fit.ratio.value > DAMPED_WELL:
        return (f"at a ratio of {fit.ratio.value:.2f} the swing is over within a cycle; to tell it, turn the clicks "
                "softer, push again, and turn them back: the frequency without the shock stays as it is")  # fmt: skip
    if fit.cycles < FEW_CYCLES:
        return "the swing stops after few half cycles; push further down"
    return "friction and damping leave it open; push further down, and more often"


def _warnings(channel: BounceChannel, fit: SwingFit, pushed: PushedCorners | None) -> tuple[str, ...]:
    said = []
    if len(fit.swings) == 1:
        said.append("one push alone; three or more, three seconds apart, make the limits narrower")
    if pushed is not None and not pushed.made().tyre_stated:
        said.append("the car's file states no tyre rate; 5.5 times the wheel rate is taken")
    if pushed is not None and pushed.friction is None:
        stated = pushed.stated_friction
        taken = (f"{LEAST_FRICTION:.0f} to {MOST_FRICTION:.0f} N a shock" if stated is None
                 else f"the {stated:.0f} N of the car's file")  # fmt: skip
        said.append(
            f"the shocks' friction is not known from their tests, as of a table of peaks: the prediction is for {taken}"
        )
    if not channel.acceleration and pushed is None:
        said.append("no car: travel is taken as travel at the wheel")
    if not fit.frequency_stated:
        said.append(f"the frequency cannot be told within 2 %: {_why_open(fit)}")
    if channel.lost:
        said.append(f"{channel.lost} samples of drop-outs, to zero or to one level and back, were left out")
    if channel.ends.any():
        share = f"flat for {100 * float(np.mean(channel.ends)):.1f} % of the log"
        said.append(f"the sensor ran out of its range ({share}): each swing is taken from where it is whole again; "
                    "push less far, or set a wider range")  # fmt: skip
    if not channel.acceleration and max(s.peak for s in fit.swings) < fit.amplitude:
        said.append(f"the pushes were below the {fit.amplitude * 1e3:.0f} mm for which the ratio is given; push harder")
    return tuple(said)
