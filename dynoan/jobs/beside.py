"""What other jobs know of a car and its shocks, for what shows it beside other things; what fails is said, no more."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from dynoan.errors import DynoanError, typed
from dynoan.jobs.health import HealthAnswer, HealthQuestion
from dynoan.jobs.health import answer as health_of
from dynoan.jobs.launch.answering import LaunchAnswer
from dynoan.jobs.launch.answering import answer as launch_of
from dynoan.jobs.launch.asked import LaunchQuestion

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


def histories(bench: Workbench, shocks: Iterable[str], said: list[str]) -> tuple[HealthAnswer, ...]:
    """Return what became of each shock that was tested on two dates or more, its warnings in `said`."""
    found = []
    for shock in dict.fromkeys(shocks):
        if len({(r.date or "")[:10] for r in bench.records if r.shock == shock and r.date}) < 2:
            continue
        try:
            one = health_of(bench, HealthQuestion(shock))
        except DynoanError as error:
            said.append(f"shock {shock}: no history: {error}")
            continue
        said += [f"shock {shock}: {text}" for text in one.warnings]
        found.append(one)
    return tuple(found)


def worn_shocks(bench: Workbench, shocks: Iterable[str], said: list[str]) -> tuple[HealthAnswer, ...]:
    """Return the histories of those shocks that changed."""
    return tuple(one for one in histories(bench, shocks, said) if one.health.verdict == "changed")


def launched(bench: Workbench, car: str, said: list[str], *, wanted: bool) -> tuple[LaunchAnswer | None, str]:
    """Return how a car leaves the line as its file has it, on each surface, or None and why not."""
    if not wanted:
        return None, f"left out as asked; see: dynoan launch {typed(car)}"
    try:
        found = launch_of(bench, LaunchQuestion.asked(car))
    except DynoanError as error:
        return None, str(error)
    said += [f"launch of {car}: {text}" for text in found.warnings]
    return found, ""
