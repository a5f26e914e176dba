"""The advice of `choose` in sentences: what would fit where nothing does, what is proposed where nothing is wanted."""

from __future__ import annotations

from dynoan.analysis.choosing.assumptions import HARDLY_SPRINGS
from dynoan.jobs.choose.advice import (
    Advice,
    EachSideItsOwn,
    LimitInTheWay,
    NeverTested,
    NoSpringFits,
    NothingFits,
    NotSure,
    NotTogether,
    OutOfReach,
    OutsideTested,
    PackThatFits,
    ProposedTargets,
    SpringThatFits,
)
from dynoan.jobs.choose.answering import ChooseAnswer
from dynoan.jobs.choose.assumptions import JUDGED_AT, LIFTS, MOST_PROPOSED, PRACTISED, PUBLISHED_MOST, PUBLISHED_RACING
from dynoan.jobs.choose.ranking import Chosen
from dynoan.show.text.signs import signed
from dynoan.units import Shown, enumerated, shown


def sentences(answer: ChooseAnswer, units: Shown = "metric") -> list[str]:
    """Return the advice of an answer, a sentence each."""
    said = [sentence(advice, units) for advice in answer.advice]
    proposals = sum(isinstance(advice, ProposedTargets) for advice in answer.advice)
    return [*said[:proposals], _published(), *said[proposals:]] if proposals else said


def _published() -> str:
    """Return what is published of damping ratios, to hold a proposal against."""
    comfort, sport, racing = (f"{low:g} to {high:g}" for low, high in PRACTISED)
    return (
        f"To hold them against: up to {PUBLISHED_MOST:g} on vehicles (Barton and Fieldhouse, Automotive Chassis "
        f"Engineering, 2018, p. 322), {PUBLISHED_RACING[0]:g} to {PUBLISHED_RACING[1]:g} called best for racing cars "
        f"(Chassis Newsletter, January 2009); {comfort} for comfort, {sport} for sport on roads and {racing} to hold "
        "the body of a racing car at low speed are common practice, no source; --aim asks for a launch instead. Where "
        "no clicks reach a start, the nearest will do to begin with; new springs or valves are worth a thought for "
        "targets of your own."
    )


def sentence(advice: Advice, units: Shown) -> str:
    """Return one advice in words."""
    match advice:
        case ProposedTargets():
            return _proposed(advice, units)
        case NeverTested(where, shocks, pack, through):
            names = tuple(dict.fromkeys(shocks))
            were, differ = ("was", "it differs") if len(names) == 1 else ("were", "they differ")
            how = "taken for the mean shock" if through is None else f"how {differ} with pack {through} is taken over"
            return (f"{where}: {enumerated(names)} {were} never tested with pack {pack}: {how}; test before you "
                    "trust a pair.")  # fmt: skip
        case OutsideTested(where):
            return (f"{where}: these clicks lie outside what was tested, so the limits are wide; "
                    "--inside stays on tested ground.")  # fmt: skip
        case NotSure(where):
            return f"{where}: fits, but within the 95 % limits a ratio may still be out of tolerance."
        case NotTogether(where):
            return f"{where}: each ratio can be had alone, but not all together."
        case EachSideItsOwn(where, plan):
            each = "; ".join(_setting(c) for c in plan.choices)
            return (f"{where}: what would fit: each side its own clicks: {each} (--per-corner); where one shock is "
                    "worn, see to it first.")  # fmt: skip
        case NoSpringFits(where):
            return (f"{enumerated(where)}: no springs of any rate bring a fit by themselves: the shape of the curves "
                    "is in the way.")  # fmt: skip
    return _what_would_fit(advice, units)


def proposed_numbers(advice: ProposedTargets) -> str:
    """Return what is proposed for an axle, such as "compression 0.30 low and 0.20 high, rebound 0.45 and 0.30"."""
    t = advice.targets
    return (
        f"compression {t.compression.low:.2f} low and {t.compression.high:.2f} high, rebound {t.rebound.low:.2f} and "
        f"{t.rebound.high:.2f}"
    )


def proposed_why(advice: ProposedTargets, units: Shown) -> str:
    """Return why that is proposed."""
    if advice.smoothest is None or advice.steadiest is None:
        return "ratios of 0.2 to 0.4 are usual (common practice, no source); with a tyre rate the car itself says more"
    if advice.swing is not None:
        return _why_on(advice, units)
    return (
        f"on a random road this axle rides smoothest at {advice.smoothest:.2f} and keeps its tyres steadiest at "
        f"{advice.steadiest:.2f} (quarter car), the middle is taken; more in rebound than in compression and less at "
        "high speed is common practice, no source"
    )


def _proposed(advice: ProposedTargets, units: Shown) -> str:
    lack = "targets for this surface in the place of the file's" if advice.replaces else "the car's file has no targets"
    start = f"a start for {advice.surface} was proposed" if advice.surface else "a start was proposed"
    why = proposed_why(advice, units)
    return (
        f"{advice.axle}: {lack}; {start}: {proposed_numbers(advice)}. Why: {why}. Put them under "
        f"[targets.{advice.axle}] to keep or change them."
    )


def _why_on(advice: ProposedTargets, units: Shown) -> str:
    """Return why a surface has these targets."""
    assert advice.swing is not None
    speed = shown("speed", units)
    swing = f"{100 * advice.swing:.0f} % of what it bears at rest (quarter car, {speed.text(JUDGED_AT)})"
    axle = (
        f"this axle rides smoothest at {advice.smoothest:.2f} and keeps its tyres steadiest at {advice.steadiest:.2f}"
    )
    if advice.swing == 0.0:
        body = "no roughness is stated, so nothing but the body is to be held"
    elif advice.swing * LIFTS >= 1.0:
        body = f"the road alone swings a tyre's load by {swing}, so that it leaves the ground: nearer to the smoothest"
    else:
        body = f"the road swings a tyre's load by {swing} at the least, which leaves room to hold the body firmer"
    return (
        f"{axle}; {body}: {advice.middle:.2f} between compression and rebound. How much firmer is judged (at most "
        f"{MOST_PROPOSED:g}, the middle of 0.5 to 0.8 for body control), more in rebound than in compression and less "
        "at high speed is common practice, no source"
    )


def _what_would_fit(
    advice: NothingFits | OutOfReach | PackThatFits | LimitInTheWay | SpringThatFits, units: Shown
) -> str:
    velocity = shown("velocity", units)
    match advice:
        case NothingFits(where, tolerance, miss, worst):
            at = f"{worst.wanted.direction} at {velocity.text(worst.wanted.velocity)}"
            return (f"{where}: nothing at hand keeps every ratio within {100 * tolerance:.0f} %; the best misses by "
                    f"{100 * miss:.0f} %, most in {at} ({signed(100 * worst.off)} %).")  # fmt: skip
        case OutOfReach(where, r, end):
            bound, pack = (r.most, r.most_pack) if end == "most" else (r.least, r.least_pack)
            return (f"{where}: {r.direction} at {velocity.text(r.velocity)}: {r.wanted:.2f} wanted, {bound:.2f} is the "
                    f"{end} there is ({pack}).")  # fmt: skip
        case PackThatFits(where, pack, needs):
            words = ", ".join(
                f"{abs(100 * n.more):.0f} % {'more' if n.more > 0 else 'less'} {n.direction} force at "
                f"{velocity.text(n.velocity)}" for n in needs
            )  # fmt: skip
            return f"{where}: what would fit: a pack like {pack} with {words}."
        case LimitInTheWay(limits, plan):
            options = " and ".join(f"--{limit}" for limit in limits)
            words = "; ".join(f"{_setting(c)} ({c.choice.standing})" for c in plan.choices)
            return f"Without {options} there is a fit: {words}."
    return _spring(advice, units)


def _spring(advice: SpringThatFits, units: Shown) -> str:
    stiff, factor = shown("stiffness", units), advice.factor
    words = " and ".join(f"{stiff.text(rate * factor)} instead of {stiff.text(rate)}" for rate in advice.rates)
    ride = f"{abs(100 * (factor**0.5 - 1)):.0f} % {'higher' if factor > 1 else 'lower'} ride frequency"
    far = "" if 1 / HARDLY_SPRINGS <= factor <= HARDLY_SPRINGS else (
        f" So far apart (over {HARDLY_SPRINGS:g} times) is hardly a change of springs: look for another pack first."
    )  # fmt: skip
    with_clicks = "; ".join(map(_setting, advice.plan.choices))
    where = " and ".join(dict.fromkeys(chosen.choice.where for chosen in advice.plan.choices))
    return f"{where}: what would fit: springs of about {words} ({ride}), with {with_clicks}.{far}"


def _setting(chosen: Chosen) -> str:
    return f"{chosen.choice.where} {chosen.choice.pack} {chosen.clicks_text}"
