"""What one pack tells of a shock that another pack was never tested with."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.choosing.aims import CornerAim
from dynoan.analysis.choosing.at_setting import ratios_at
from dynoan.analysis.clickmap.every_click.one_shock import carried, named_shock, named_table
from dynoan.model.clickmap import CarriedUnit, ClickMap, DirectionMap, ShockState
from tests.made import made_map
from tests.show.cars import made_car

AT = {"lsc": 2, "hsc": 2, "lsr": 2, "hsr": 2}
V = 0.1


def _in_states(table: DirectionMap, factors: list[float]) -> DirectionMap:
    states = np.repeat(np.array(factors)[:, None], len(table.speeds), axis=1)
    return replace(table, states=states, state_variances=np.zeros(len(factors)), spread=0.02)


def _carried_by(map: ClickMap, *states: tuple[str, str, float, float]) -> ClickMap:
    """Return a map of shocks in states: shock, date and factors of compression and rebound over the mean shock."""
    names = tuple(dict.fromkeys(shock for shock, *_ in states))
    dated = tuple(ShockState(shock, date, date) for shock, date, *_ in states)
    compression = _in_states(map.compression, [c for *_, c, _ in states])
    rebound = _in_states(map.rebound, [r for *_, r in states])
    return replace(map, shocks=names, states=dated, compression=compression, rebound=rebound)


FRONT = _carried_by(made_map("gravel", last=4), ("FL-01", "2026-03-01", 1.0, 1.0))
WORN = _carried_by(
    made_map("mixed", last=4),
    ("RL-03", "2026-03-01", 1.0, 1.0), ("RR-04", "2026-03-01", 1.0, 1.0), ("RR-04", "2026-09-01", 0.97, 0.75),
)  # fmt: skip


@pytest.mark.parametrize(("direction", "left"), [("compression", 0.97), ("rebound", 0.75)])
def test_what_a_shock_has_lost_goes_with_it_where_no_shock_carried_both_packs(direction, left):
    knowing = replace(FRONT, carried=carried(FRONT, [WORN]))
    mean, worn = (named_shock(knowing, name).direction(direction).at(V)[0].flat[0] for name in ("", "RR-04"))
    assert worn / mean == pytest.approx(left, rel=1e-9)
    sound = named_shock(knowing, "RL-03").direction(direction).at(V)[0].flat[0]
    assert sound == pytest.approx(mean)


def test_what_shocks_common_to_both_packs_tell_goes_before():
    both = _carried_by(made_map("tarmac", last=4), ("FL-01", "2026-03-01", 1.0, 1.0), ("RR-04", "2026-09-01", 0.9, 0.8))
    units = {unit.shock: unit for unit in carried(FRONT, [WORN, both])}
    assert (units["RR-04"].through, units["RL-03"].through) == ("tarmac", "mixed")


def test_a_pack_that_one_shock_carried_once_tells_nothing_of_it():
    alone = _carried_by(made_map("tarmac", last=4), ("RR-04", "2026-09-01", 1.0, 1.0))
    assert carried(FRONT, [alone]) == ()


def test_each_direction_of_a_choice_has_its_own_factor():
    unit = CarriedUnit("RR-04", np.log(0.97), np.log(0.75), 0.0004, "mixed")
    knowing = replace(FRONT, carried=(unit,))
    corner = made_car().corners["rr"]
    worn, new = (CornerAim(replace(corner, shock=name), (), 0.0) for name in ("RR-04", ""))
    for direction, left in (("compression", 0.97), ("rebound", 0.75)):
        own, mean = (ratios_at(knowing, aim, AT, direction, [V])[0].value for aim in (worn, new))
        assert own / mean == pytest.approx(left, rel=1e-9)
        table = named_table(knowing, direction, FRONT.direction(direction).one(AT), "RR-04")
        assert table.at(V)[0][0] == pytest.approx(left * FRONT.direction(direction).one(AT).at(V)[0][0])
