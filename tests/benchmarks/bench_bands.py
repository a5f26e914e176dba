"""How often 95 % bands hold the truth of exact broken lines, and how far the knees are off, over 200 records a kind.

Every record is fitted as any other would be. Curves count always, at 40 speeds of either direction; knees only where
the fit has as many as the truth, since else there is no telling which is which; the share that has is stated.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from dynoan.analysis.fitting.fit import fit
from dynoan.model.sweep import Sweep
from tests.analysis.band_records import LINES, Line, Tally, broken_table, broken_trace
from tests.analysis.conditioning_records import SOFT, STIFF, recorded

RECORDS = 200
#: other seeds than those the bands were settled on
FIRST_SEED = 50_000
KINDS: dict[str, Callable[[Line, int], Sweep]] = {
    "independent noise": broken_trace,
    "cycle-correlated noise": lambda line, seed: broken_trace(line, seed, noise="cycles"),
    "peak tables of 12 speeds": broken_table,
}


def tally(make: Callable[[Line, int], Sweep], records: int = RECORDS, first: int = FIRST_SEED) -> Tally:
    """Fit so many records, the lines taken in turn."""
    lines, out = list(LINES.values()), Tally()
    for i in range(records):
        line = lines[i % len(lines)]
        out.add(fit(make(line, first + i)), line)
    return out


def hydraulic(records: int = 6) -> float:
    """Share of speeds at which bands hold the truth of made-up hydraulic valves."""
    held, v = [], np.concatenate([-np.linspace(0.02, 0.58, 40), np.linspace(0.02, 0.58, 40)])
    for i in range(records):
        shock = (SOFT, STIFF)[i % 2]
        low, high = fit(recorded(shock, FIRST_SEED + i)).band(v)
        truth = shock.damping(v, {})
        held.append(np.mean((low <= truth) & (truth <= high)))
    return float(np.mean(held))


def rows() -> list[dict[str, object]]:
    """The rows of the table."""
    out: list[dict[str, object]] = []
    for kind, make in KINDS.items():
        t = tally(make, RECORDS)
        n = f"{RECORDS} records, {len(t.knees)} knees"
        share = f"{100 * t.right:.0f} % with the true number of knees"
        out += [
            {"what": f"95 % bands, {kind}: curves held", "n": n, "ours": f"{100 * np.mean(t.held):.1f} %",
             "peer": "90 to 98 %", "ratio": ""},
            {"what": f"95 % bands, {kind}: knees held", "n": n, "ours": f"{100 * np.mean(t.knees):.1f} %",
             "peer": "90 to 98 %", "ratio": share},
            {"what": f"knees, {kind}: median error", "n": n, "ours": f"{100 * np.median(t.errors):.2f} %",
             "peer": "" if "tables" in kind else "1 %", "ratio": share},
        ]  # fmt: skip
    share = f"{100 * hydraulic():.1f} %"
    out.append({"what": "95 % bands, hydraulic valves: curves held", "n": "6 records", "ours": share,
                "peer": "at least 90 %", "ratio": ""})  # fmt: skip
    return out


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows()))
