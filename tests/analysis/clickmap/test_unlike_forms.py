"""A run that holds friction, of a shock that has less or more of it than the pack's, against a map that is exact."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.asked.identify import identify
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.shock import Adjuster
from tests.worlds.packs import packs as valving
from tests.worlds.packs.adjusters import draw_adjusters
from tests.worlds.packs.packs import Pack
from tests.worlds.packs.tests_of import Job, Shop, curve
from tests.worlds.packs.units import Unit
from tests.worlds.packs.with_dynoan import curve_of

SPEEDS = np.array([0.0, *np.geomspace(0.01, 0.65, 40)])
PACK_FRICTION = 28.0


def exact(pack: Pack) -> ClickMap:
    """The map that a pack's own law makes, to 2 %."""
    sides = []
    for axis, (name, sign) in enumerate((("c", 1.0), ("r", -1.0))):
        most = pack.adjusters[axis].clicks
        other = {pack.adjusters[1 - axis].name: 0}
        force = np.array([np.abs(pack.force({name: n, **other}, sign * SPEEDS)) for n in range(most + 1)])
        sides.append(DirectionMap((name,), SPEEDS, force, 0.02 * force + 0.5, 0.6))
    knobs = tuple(Adjuster(one.name, one.clicks, "from closed") for one in pack.adjusters)
    return ClickMap(pack.name, knobs, *sides, ({"c": 5, "r": 5},), friction=PACK_FRICTION)


@pytest.mark.parametrize("friction", [10.0, 18.0, 28.0, 40.0])
def test_a_peak_table_of_a_known_pack_fits_it_whatever_its_shock_rubs(friction: float):
    fits, named = [], []
    for seed in range(8):
        rng = np.random.default_rng(seed)
        # Soft at low speed: friction is most of what the table holds there.
        pack = valving.draw_pack(rng, "gravel", draw_adjusters(rng, 2), "leak and port")
        closed = tuple(replace(one, stated="from closed", counted="from closed") for one in pack.adjusters)
        pack = replace(pack, adjusters=closed)
        job = Job(pack, Unit("FL-04", friction_n=friction, gas_n=100.0), {"c": 6, "r": 4}, form="peaks")
        found = identify(curve_of(curve(job, Shop(), rng)), [exact(pack)])
        fits.append(found.candidates[0].surprise)
        named.append(found.verdict)
    assert "none of these" not in named
    assert np.median(fits) > 0.2
