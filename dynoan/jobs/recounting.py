"""Clicks as a rig's file counts and calls them, turned to how the shock's file does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from dynoan.errors import CallError
from dynoan.library import Library
from dynoan.model.shock import Adjuster
from dynoan.model.sweep import Sweep
from dynoan.model.warned import CountedFromSoft, TakenForBoth

_BOTH = {"c", "r"}


def as_its_shock_counts(library: Library, sweep: Sweep) -> Sweep:
    """Return a sweep with its clicks as the shock's file counts them, and a warning of each that was turned.

    Where a file says that it counts from the other end, the clicks are turned round by how many the shock has; clicks
    of one knob for both, "cr", are those of both where the shock has one a direction.

    Raises
    ------
    CallError
        If a click lies beyond the last one of the shock, so that it cannot be turned.
    """
    if not sweep.shock or not sweep.clicks or not library.has_shock_file(sweep.shock):
        return replace(sweep, counted={})
    known = {a.name: a for a in library.shock(sweep.shock).adjusters}
    sweep = _with_both_knobs(sweep, known)
    clicks, said = dict(sweep.clicks), []
    for name, click in sweep.clicks.items():
        adjuster, counted = known.get(name), sweep.counted.get(name)
        if adjuster is None or counted in (None, adjuster.counted):
            continue
        if not 0 <= click <= adjuster.clicks:
            raise CallError(
                f"{name}={click} {counted} is outside the clicks of shock {sweep.shock}: 0 to {adjuster.clicks}",
                where=sweep.source.name,
            )
        clicks[name] = adjuster.clicks - click
        said.append(
            f"{name}={click} {counted} was kept as {name}={clicks[name]} {adjuster.counted}, as its shock counts"
        )
    settled = {*sweep.clicks} <= {*known} & {*sweep.counted}
    open_ones = [w for w in sweep.warnings if not (settled and isinstance(w, CountedFromSoft))]
    return replace(sweep, clicks=clicks, counted={}, warnings=(*open_ones, *said))


def _with_both_knobs(sweep: Sweep, known: Mapping[str, Adjuster]) -> Sweep:
    """Return a sweep of one knob for both with the clicks of both knobs, where its shock has one a direction."""
    if "cr" not in sweep.clicks or "cr" in known or not {*known} >= _BOTH or _BOTH & {*sweep.clicks}:
        return sweep
    rest = {k: n for k, n in sweep.clicks.items() if k != "cr"}
    number, counted = sweep.clicks["cr"], sweep.counted.get("cr")
    said = f"cr={number} was kept as c={number},r={number}: its shock has a knob a direction"
    return replace(
        sweep,
        clicks={"c": number, "r": number, **rest},
        counted={**sweep.counted, **(dict.fromkeys(_BOTH, counted) if counted else {})},
        warnings=(*(w for w in sweep.warnings if not isinstance(w, TakenForBoth)), said),
    )
