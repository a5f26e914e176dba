"""In words: what holds a choice back, and what would fit where nothing does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from dynoan.errors import CallError
from dynoan.units import shown as shown_unit

if TYPE_CHECKING:
    from dynoan.analysis.choosing.advice import Reach
    from dynoan.analysis.choosing.aims import Group, Place
    from dynoan.analysis.choosing.choice import Choice
    from dynoan.analysis.choosing.choose import Plan, Rules
    from dynoan.cli.choose_tables import Ranked, Shown
    from dynoan.model.clickmap import ClickMap


def advise(shown: Shown, groups: Sequence[Group], maps: Sequence[ClickMap], ranked: Ranked) -> list[str]:
    """Return lines of advice: for places without a fit what would fit, for the others what to be careful of."""
    lines = []
    joint = len(ranked) < len(groups)
    for number, plans in enumerate(ranked):
        here = list(groups) if joint else [groups[number]]
        for choice in plans[0].choices:
            lines += _careful(shown, choice, maps)
        if not plans[0].fits:
            lines += _nothing_fits(shown, here, maps, plans[0])
    return lines


def _careful(shown: Shown, choice: Choice, maps: Sequence[ClickMap]) -> list[str]:
    lines = []
    known = next(m.shocks for m in maps if m.pack == choice.pack)
    named = [shown.car.corners[name].shock for name in dict.fromkeys(r.corner for r in choice.reached)]
    untested = [shock for shock in named if shock is not None and shock not in known]
    if untested:
        were = "was" if len(untested) == 1 else "were"
        lines.append(
            f"{choice.where}: {' and '.join(untested)} {were} never tested with pack {choice.pack} and taken for the "
            "mean shock; test before you trust a pair."
        )
    if choice.standing == "outside":
        lines.append(
            f"{choice.where}: these clicks lie outside what was tested, so the limits are wide; "
            "--inside stays on tested ground."
        )
    if choice.fits and not choice.sure:
        lines.append(f"{choice.where}: fits, but within the 95 % limits a ratio may still be out of tolerance.")
    return lines


def _nothing_fits(shown: Shown, groups: Sequence[Group], maps: Sequence[ClickMap], best: Plan) -> list[str]:
    from dynoan.analysis.choosing.advice import reach

    lines = []
    places = {place.name: place for group in groups for place in group.places}
    for choice in best.choices:
        if choice.fits:
            continue
        place, slack = places[choice.where], shown.rules.tolerance
        off = max(choice.reached, key=lambda r: abs(r.off))
        velocity = shown_unit("velocity", shown.call.shown_units).text(off.wanted.velocity)
        lines.append(
            f"{choice.where}: nothing at hand keeps every ratio within {100 * slack:.0f} %; the best misses by "
            f"{100 * choice.miss:.0f} %, most in {off.wanted.direction} at {velocity} ({100 * off.off:+.0f} %)."
        )
        lines += _reaches(shown, place, reach(place, maps, shown.rules))
        lines += _pack(shown, choice)
    return [*lines, *_loosened(shown, groups, maps), *_spring(shown, groups, maps)]


def _reaches(shown: Shown, place: Place, found: Sequence[Reach]) -> list[str]:
    """Tell which wanted ratio no click of any pack reaches, or that they cannot be had together."""
    lines, slack = [], shown.rules.tolerance
    velocity = shown_unit("velocity", shown.call.shown_units)
    for r in found:
        at = f"{r.direction} at {velocity.text(r.velocity)}"
        if r.most < r.wanted * (1 - slack):
            lines.append(
                f"{place.name}: {at}: {r.wanted:.2f} wanted, {r.most:.2f} is the most there is ({r.most_pack})."
            )
        elif r.least > r.wanted * (1 + slack):
            lines.append(
                f"{place.name}: {at}: {r.wanted:.2f} wanted, {r.least:.2f} is the least there is ({r.least_pack})."
            )
    return lines or [f"{place.name}: each ratio can be had alone, but not all together."]


def _pack(shown: Shown, choice: Choice) -> list[str]:
    """Tell how the force of a pack that fits would differ from the best one's at its clicks."""
    velocity = shown_unit("velocity", shown.call.shown_units)
    needs: dict[tuple[str, float], list[float]] = {}
    for r in choice.reached:
        if abs(r.off) > shown.rules.tolerance + 1e-6:
            needs.setdefault((r.wanted.direction, r.wanted.velocity), []).append(1 / (1 + r.off) - 1)
    words = [
        f"{abs(100 * sum(c) / len(c)):.0f} % {'more' if sum(c) > 0 else 'less'} {d} force at {velocity.text(v)}"
        for (d, v), c in needs.items()
    ]
    return [f"{choice.where}: what would fit: a pack like {choice.pack} with {', '.join(words)}."]


def _loosened(shown: Shown, groups: Sequence[Group], maps: Sequence[ClickMap]) -> list[str]:
    """Tell which limit of the search alone stands in the way."""
    rules = shown.rules
    looser = {
        "--inside": replace(rules, inside=False),
        "--within": replace(rules, within=None),
        "--inside and --within": replace(rules, inside=False, within=None),
    }
    for name, changed in looser.items():
        # Dropping one of two limits says nothing new where only one was set.
        if changed != rules and (name in ("--inside", "--within") or changed not in list(looser.values())[:2]):
            found = _first(groups, maps, changed)
            if found is not None:
                words = "; ".join(f"{c.where} {c.pack} {shown.clicks_text(c)} ({c.standing})" for c in found.choices)
                return [f"Without {name} there is a fit: {words}."]
    return []


def _first(groups: Sequence[Group], maps: Sequence[ClickMap], rules: Rules) -> Plan | None:
    from dynoan.analysis.choosing.choose import plans

    try:
        best = plans(groups, maps, rules)[0]
    except CallError:
        return None
    return best if best.fits else None


def _spring(shown: Shown, groups: Sequence[Group], maps: Sequence[ClickMap]) -> list[str]:
    from dynoan.analysis.choosing.advice import spring_that_fits

    found = spring_that_fits(groups, maps, shown.rules)
    if found is None:
        return ["No change of springs alone brings a fit: the shape of the curves is in the way, not their height."]
    factor, plan = found
    if abs(factor - 1) < 1e-9:
        return []
    stiff = shown_unit("stiffness", shown.call.shown_units)
    rates = {aim.corner.spring for group in groups for place in group.places for aim in place.aims}
    words = " and ".join(f"{stiff.text(rate * factor)} instead of {stiff.text(rate)}" for rate in sorted(rates))
    clicks = "; ".join(f"{c.where} {c.pack} {shown.clicks_text(c)}" for c in plan.choices)
    ride = f"{abs(100 * (factor**0.5 - 1)):.0f} % {'higher' if factor > 1 else 'lower'} ride frequency"
    return [f"What would fit: springs of about {words} ({ride}), with {clicks}."]
