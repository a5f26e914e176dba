"""Several things held against one another: labels that tell them apart, and what differs beside the valve."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.workbench.resolving import Resolved

#: tests further apart than this differ by their oil too (common practice, no source) [°C]
WARM_APART = 10.0
#: gas forces further apart than this are worth a word (common practice, no source) [N]
GAS_APART = 20.0


def distinct(found: Sequence[Resolved]) -> list[str]:
    """Return labels, with the date where two are the same, and a number where that does not tell them apart."""
    labels = [r.label for r in found]
    dates = [r.sweeps[0].date if r.sweeps else None for r in found]
    labels = [f"{x} ({d})" if labels.count(x) > 1 and d else x for x, d in zip(labels, dates, strict=True)]
    return [f"{x} ({labels[: i + 1].count(x)})" if labels.count(x) > 1 else x for i, x in enumerate(labels)]


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
    return [f"{more}; damping is compared without it, but a pair needs the same gas pressure"]
