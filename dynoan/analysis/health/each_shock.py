"""A pack's shocks each by itself: their mean would hide one that wears beside one that does not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from dynoan.analysis.health.change import health
from dynoan.analysis.health.records import Finding, Health, Test, Verdict
from dynoan.analysis.matching.assumptions import MATCH_SPEEDS


def of_each_shock(
    tests: Sequence[Test], rods: Mapping[str, float | None], wanted: Sequence[float] = MATCH_SPEEDS
) -> dict[str, Health]:
    """Return what became of each shock that was tested on two dates, by name; none where there is only one shock.

    `rods` are the shocks' rod diameters [m], `wanted` speeds to compare force at [m/s].
    """
    by_shock: dict[str, list[Test]] = {}
    for test in tests:
        by_shock.setdefault(test.setting[0], []).append(test)
    if len(by_shock) < 2:
        return {}
    return {
        shock: health(mine, rod=rods.get(shock), wanted=wanted)
        for shock, mine in sorted(by_shock.items())
        if len({test.date for test in mine}) > 1
    }


def with_each(whole: Health, apart: Mapping[str, Health]) -> Health:
    """Return a pack's health with the findings of its shocks, each told with its shock, before those of their mean.

    What a shock shows by itself is not told of the mean again. The pack is as before only where every shock that was
    tested twice is.
    """
    own = [replace(found, evidence=f"{shock}: {found.evidence}")
           for shock, one in apart.items() for found in one.findings]  # fmt: skip
    told = {_what(found) for found in own}
    findings = (*own, *(found for found in whole.findings if _what(found) not in told))
    unsure = [shock for shock, one in apart.items() if one.verdict == "cannot tell"]
    verdict: Verdict = "changed" if findings else "cannot tell" if unsure else whole.verdict
    notes = [f"{shock} by itself: the tests are too rough to tell whether it changed" for shock in unsure]
    return replace(whole, verdict=verdict, findings=findings, notes=(*whole.notes, *notes))


def _what(found: Finding) -> tuple[str, str | None]:
    return found.name, found.direction
