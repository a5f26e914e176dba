"""Where a made valve opens, and where a fit says that it does.

A valve that cracks open beside a bleed has a true kink in its force; stiffness falls there at once. A fit of a few
pieces puts a knee near it, with an interval.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.fitting.fit import fit
from tests.worlds.rows import draw
from tests.worlds.valves import FloatArray
from tests.worlds.with_dynoan import sweep_of
from tests.worlds.world import Law

#: rows whose valves open at once
OPENING = ("valve sharp blow-off", "valve poppet")
#: slowest opening that a record can show [m/s]
SLOWEST = 0.02


@dataclass(frozen=True)
class OpeningFound:
    """One true opening, and the knee nearest to it; not a number where the fit has none."""

    speed: float  #: true [m/s]
    off: float  #: of the knee, a share of the true speed [1]
    half: float  #: of its interval, a share of the true speed [1]
    held: bool  #: whether the interval holds the true speed


def opening_of(truth: Law, sign: float, top: float) -> float:
    """Return the speed at which the slope of a true force falls most from one step to the next. [m/s]"""
    speed: FloatArray = np.geomspace(SLOWEST, top, 4001)
    slope = np.gradient(np.abs(np.asarray(truth(sign * speed))), speed)
    return float(speed[int(np.argmin(np.diff(np.log(np.maximum(slope, 1e-9)))))])


def openings(row: str, seed: int) -> list[OpeningFound]:
    """Return both directions' openings of one made record, and the knees that the program finds."""
    record = draw(row, seed)
    curve = fit(sweep_of(record), record.stated.rod_m)
    out = []
    for sign, side in ((1.0, curve.compression), (-1.0, curve.rebound)):
        true = opening_of(record.truth, sign, 0.95 * record.covered[1])
        nearest = min(side.knees, key=lambda k: abs(k.velocity - true), default=None)
        if nearest is None:
            out.append(OpeningFound(true, float("nan"), float("nan"), False))
            continue
        half = 0.5 * (nearest.high - nearest.low) / true
        out.append(OpeningFound(true, nearest.velocity / true - 1.0, half, nearest.low <= true <= nearest.high))
    return out


def table(seeds: Iterable[int]) -> str:
    """Return how the rows did, as a Markdown table."""
    lines = ["| valve | openings | with a knee | off, median | off, 95 % | interval holds it | half-width, median |",
             "|" + " --- |" * 7]  # fmt: skip
    numbers = list(seeds)
    for row in OPENING:
        found = [one for seed in numbers for one in openings(row, seed)]
        off = np.abs([one.off for one in found if one.off == one.off])
        cells = [row, str(len(found)), str(len(off)), f"{100 * np.median(off):.1f} %",
                 f"{100 * np.quantile(off, 0.95):.1f} %", f"{100 * np.mean([one.held for one in found]):.0f} %",
                 f"{100 * np.nanmedian([one.half for one in found]):.1f} %"]  # fmt: skip
        lines.append("| " + " | ".join(cells) + " |")
    return "\n".join(lines)
