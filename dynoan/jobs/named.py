"""Several things held against one another: labels that tell them apart, and what differs beside the valve."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from dynoan.jobs.assumptions import GAS_APART, WARM_APART
from dynoan.model.shock import ADJUSTERS, clicks_text
from dynoan.workbench.resolving import Resolved, parse_wanted


def distinct(found: Sequence[Resolved]) -> list[str]:
    """Return labels, with the date where two are the same, and a number where that does not tell them apart."""
    labels = [r.label for r in found]
    dates = [r.sweeps[0].date if r.sweeps else None for r in found]
    labels = [f"{x} ({d})" if labels.count(x) > 1 and d else x for x, d in zip(labels, dates, strict=True)]
    return [f"{x} ({labels[: i + 1].count(x)})" if labels.count(x) > 1 else x for i, x in enumerate(labels)]


def click_remarks(what: Sequence[str], found: Sequence[Resolved]) -> list[str]:
    """Return a remark where adjusters that no setting names do not stand alike in all that was found."""
    if any(Path(one).is_file() or not {"=", "@"} & set(one) for one in what):
        return []
    asked = [parse_wanted(one).clicks for one in what]
    given = {name for clicks in asked for name in clicks}
    left = [n for n in ADJUSTERS if n not in given and len({r.from_closed[n] for r in found if n in r.from_closed}) > 1]
    if not all(asked) or not left:
        return []
    stand = "; ".join(f"{clicks_text({n: r.clicks[n] for n in left if n in r.clicks})} in {r.label}" for r in found)
    were = "was" if len(left) == 1 else "were"
    return [f"{', '.join(left)} {were} not given and not taken alike: {stand}; give them to compare like with like"]


def temperature_remarks(found: Sequence[Resolved]) -> list[str]:
    """Return a remark where what is compared was tested more than `WARM_APART` apart, as far as that is known."""
    known = {r.label: r.curve.temperature for r in found if r.curve.temperature is not None}
    if not known:
        return []
    low, high = min(known, key=lambda k: known[k]), max(known, key=lambda k: known[k])
    if known[high] - known[low] <= WARM_APART:
        return []
    cool, warm = f"{low} was tested at {known[low]:.0f} °C", f"{high} at {known[high]:.0f} °C"
    return [f"{cool} and {warm}: over {WARM_APART:.0f} °C apart, part of the difference is the oil"]


def gas_remarks(a: Resolved, b: Resolved) -> list[str]:
    """Return a remark where the gas forces of two differ by more than `GAS_APART`: damping is compared without them."""
    off = a.curve.gas_force - b.curve.gas_force
    if not abs(off) > GAS_APART:
        return []
    strong, weak = (a, b) if off > 0 else (b, a)
    more = f"{strong.label} has {abs(off):.0f} N more gas force than {weak.label}"
    if _table(a) != _table(b):
        return [f"{more}; of a peak table it is mostly taken out at the rig: damping is compared without it"]
    return [f"{more}; damping is compared without it, but a pair needs the same gas pressure"]


def _table(one: Resolved) -> bool:
    return bool(one.sweeps) and all(sweep.layout == "peaks" for sweep in one.sweeps)
