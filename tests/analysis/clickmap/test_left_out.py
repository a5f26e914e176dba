"""A shock whose every test is left out of a pack's map is one that was never tested with it."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.every_click.one_shock import carried, named_shock
from dynoan.analysis.clickmap.mapping import fit_map
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.model.curve import DIRECTIONS
from tests.analysis.made_packs import TWO, OtherPack, low_only, low_places, made_pack, measured, sweeps_of

PLACES = low_places((10, 10), (0, 20), (20, 0), (5, 15), (15, 5), (3, 3), (17, 17), (8, 1), (12, 19))


def stray(pack: OtherPack, seed: int) -> Tested:
    """The first place of another shock, with any pack in it."""
    return Tested("A2", PLACES[0], measured(pack, PLACES[0], seed, shock="A2"))


def test_a_shock_with_another_packs_curve_alone_counts_as_untested():
    pack, other = made_pack(3, 1.0), made_pack(4, 3.5)
    map = fit_map("gravel", TWO, low_only([*sweeps_of(pack, 5, PLACES), stray(other, 77)]))
    assert map.shocks == ("S1",)
    for direction in DIRECTIONS:
        assert map.direction(direction).scales.shape[0] == len(map.shocks)
    both = fit_map("mixed", TWO, low_only([*sweeps_of(other, 6, PLACES), stray(other, 78)]))
    assert set(both.shocks) == {"S1", "A2"}
    assert [unit.shock for unit in carried(map, [both])] == ["A2"]
    wide, known = (
        np.mean(one.compression.half_width[..., 1:] / one.compression.force[..., 1:])
        for one in (named_shock(map, "A2"), named_shock(map, "S1"))
    )
    assert wide > known
