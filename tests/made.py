"""Nouns made from the invented packs' exact truth, for tests that need a click map or a curve but no fitting."""

from __future__ import annotations

from functools import cache
from itertools import product

import numpy as np

from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import Curve
from dynoan.model.shock import Adjuster
from dynoan.model.side import Side
from fixtures.rig import PACKS, Valve

SPEEDS = np.concatenate([[0.0], np.geomspace(0.005, 0.6, 40)])


def made_side(valve: Valve, low: int, high: int, other: int = 0, band: float = 0.03) -> Side:
    """A side that is the valve's truth in a table, with a band of ± `band`."""
    forces = valve.force(SPEEDS, low, high, other)
    return Side(segments=(), knees=(), speeds=SPEEDS, low=forces * (1 - band), high=forces * (1 + band),
                top_speed=0.5, forces=forces)  # fmt: skip


def made_curve(pack: str = "gravel", lsc: int = 6, hsc: int = 6, lsr: int = 6, hsr: int = 6) -> Curve:
    """The true curve of a pack at clicks from closed."""
    shock = PACKS[pack]
    return Curve(made_side(shock.compression, lsc, hsc, lsr), made_side(shock.rebound, lsr, hsr), what=pack, pack=pack,
                 clicks={"lsc": lsc, "hsc": hsc, "lsr": lsr, "hsr": hsr}, gas_force=130.0, friction=18.0)  # fmt: skip


@cache
def made_map(pack: str = "gravel", last: int = 20, band: float = 0.03) -> ClickMap:
    """A click map that is the truth, over 0 to `last` of lsc, hsc, lsr and hsr; compression crosses with lsr."""
    shock = PACKS[pack]
    n = last + 1
    c = np.empty((n, n, n, len(SPEEDS)))
    for lsc, hsc, lsr in product(range(n), repeat=3):
        c[lsc, hsc, lsr] = shock.compression.force(SPEEDS, lsc, hsc, lsr)
    r = np.empty((n, n, len(SPEEDS)))
    for lsr, hsr in product(range(n), repeat=2):
        r[lsr, hsr] = shock.rebound.force(SPEEDS, lsr, hsr)
    for table in (c, r):  # many tests are given the same one
        table.setflags(write=False)
    adjusters = tuple(Adjuster(name, last) for name in ("lsc", "hsc", "lsr", "hsr"))
    tested = tuple(
        {"lsc": a, "hsc": b, "lsr": a, "hsr": b}
        for a, b in ((0, 0), (last // 3, last // 3), (last // 2, last // 2), (last, last), (last // 3, last // 2))
    )
    return ClickMap(
        pack=pack, adjusters=adjusters, tested=tested, view="hydraulic", loo_error_pct=1.0, shocks=("FL-01",),
        compression=DirectionMap(("lsc", "hsc", "lsr"), SPEEDS, c, c * band, 0.5),
        rebound=DirectionMap(("lsr", "hsr"), SPEEDS, r, r * band, 0.5),
        gas_force=130.0, friction=18.0, spread_pct=1.5,
    )  # fmt: skip
