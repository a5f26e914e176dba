"""Oil of unlike warmth: what a pack's tests tell of how its damping thins, and how it is said."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from dynoan.analysis.clickmap.every_click.oil_temperature import is_told, rate_of, thinning_of
from dynoan.analysis.clickmap.tested.loss_per_kelvin import OilTold
from dynoan.errors import DynoanError
from dynoan.jobs.assumptions import WARM_APART
from dynoan.jobs.named import temperature_remarks
from dynoan.workbench.resolving import Resolved

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


def oil_told(bench: Workbench, held: Sequence[Resolved]) -> OilTold | None:
    """Return what the pack of tests that are held against each other loses in warmer oil, as its tests tell.

    None where nothing need be known of it, or where no test tells: all were as warm, or of unlike packs.
    """
    packs = {one.pack for one in held}
    pack = next(iter(packs), None)
    known = [one.curve.temperature for one in held if one.curve.temperature is not None]
    if len(packs) > 1 or pack is None or len(known) < 2 or max(known) - min(known) <= WARM_APART:
        return None
    return told_by(bench, pack)


def told_by(bench: Workbench, pack: str) -> OilTold | None:
    """Return what a pack loses in warmer oil where one of its shocks was run warm and cool on one day, else None.

    From tests of unlike shocks or dates nobody could tell what the oil does from what the shocks differ by.
    """
    days: dict[tuple[str, str | None], list[float]] = {}
    try:
        for test in bench.tested(pack=pack):
            if test.curve.temperature is not None:
                days.setdefault((test.shock, test.date), []).append(test.curve.temperature)
        if not any(max(known) - min(known) > WARM_APART for known in days.values()):
            return None
        told = thinning_of(bench.click_map(pack))
    except DynoanError:
        return None  # whatever keeps the pack from having a map is no reason not to compare two of its tests
    return told if is_told(told) else None


def oil_remarks(found: Sequence[Resolved], told: OilTold | None = None) -> list[str]:
    """Return a remark where what was tested at unlike temperatures is brought to one."""
    whose = ", as tests of this pack at unlike temperatures tell" if told else ""
    way = (f"damping is brought to one temperature by {1000 * rate_of(told)[0]:.1f} % per 10 °C, more below 0.1 m/s"
           f"{whose}, and the intervals allow for it")  # fmt: skip
    return [f"{remark.rpartition(': ')[0]}: {way}" for remark in temperature_remarks(found)]
