"""Shocks of one kind differ: the map of one shock, tested with the pack or not, at a date or as it was last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import NEVER_DAYS
from dynoan.analysis.clickmap.assumptions.spread import CARRIED_SHARE, EXPECTED_SPREAD, SIDE_SPREAD
from dynoan.analysis.clickmap.assumptions.views import JUDGED_FROM
from dynoan.analysis.clickmap.every_click.tables import loss_variance, of_state, with_variance
from dynoan.analysis.clickmap.tested.states import day_of
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import CarriedUnit, ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS, Direction


def named_shock(map: ClickMap, shock: str, date: str | None = None) -> ClickMap:
    """Return the click map of one shock instead of the mean shock.

    A shock that was never tested with the pack gets the map with the spread between shocks in its band, and with what
    other packs tell of it (`ClickMap.carried`). Of a shock tested more than once it is the last state, or the one
    nearest to a date.
    """
    if not shock:
        return map
    compression, rebound = (_named(map, d, map.direction(d), shock, date) for d in DIRECTIONS)
    return replace(map, compression=compression, rebound=rebound)


def _named(map: ClickMap, direction: Direction, table: DirectionMap, shock: str, date: str | None) -> DirectionMap:
    number = state_number(map, shock, date)
    if number is None and shock in map.shocks:
        number, table = map.shocks.index(shock), _by_shock(table)
    if number is None:
        return _untested(map, direction, table, shock)
    return of_state(table, number) if table.states is not None else table


def tells_of(map: ClickMap, shock: str | None) -> bool:
    """Return whether a map knows a shock apart from the mean shock: by its own tests or through other packs."""
    return shock in map.shocks or any(unit.shock == shock for unit in map.carried)


def named_table(map: ClickMap, direction: Direction, table: DirectionMap, shock: str) -> DirectionMap:
    """Return tables in place of a map's own of one direction, such as one setting of them, as one shock has them."""
    return _named(map, direction, table, shock, None) if shock else table


def shock_terms(map: ClickMap, shock: str, direction: Direction) -> tuple[FloatArray, FloatArray]:
    """Return what makes `named_shock`'s tables of a map's: a factor on force and what is added to the variance.

    Half a band is then force times factor times what `with_variance` makes of half width over force, and what all tests
    err by alike beside it. For a page that turns clicks and shocks without this program.

    Returns
    -------
    factor
        By which the shock is stronger, over the table's speeds, shape (S,). [1]
    added
        Variance that the shock adds to that of the tables, negative where the shock was tested; of shares of force, of
        the shape of the tables or one that fits it. [1]
    """
    table = map.direction(direction)
    number = state_number(map, shock)
    if number is None and shock in map.shocks:
        number, table = map.shocks.index(shock), _by_shock(table)
    if number is not None:
        if table.states is None or table.state_variances is None:
            return np.ones(len(table.speeds)), np.zeros(1)
        return table.states[number], table.state_variances[number] - table.spread**2 + loss_variance(table, number)
    one = next((unit for unit in map.carried if unit.shock == shock), None)
    if one is None:
        return np.ones(len(table.speeds)), np.array([_unknown_variance(map, table)])
    ln = one.compression if direction == "compression" else one.rebound
    return np.full(len(table.speeds), float(np.exp(ln))), np.array([one.variance - table.spread**2])


def state_number(map: ClickMap, shock: str, date: str | None = None) -> int | None:
    """Return which of a map's states a shock was in at a date, the last by default; None where it was never tested."""
    mine = [i for i, state in enumerate(map.states) if state.shock == shock]
    if not mine:
        return None
    if date is None:
        return mine[-1]

    def apart(i: int) -> tuple[int, int]:
        ends = [day for text in (map.states[i].first, map.states[i].last) if (day := day_of(text)) is not None]
        wanted = day_of(date)
        gap = min((abs((wanted - day).days) for day in ends), default=NEVER_DAYS) if wanted else NEVER_DAYS
        return gap, -i

    return min(mine, key=apart)


def _untested(map: ClickMap, direction: Direction, table: DirectionMap, shock: str) -> DirectionMap:
    one = next((unit for unit in map.carried if unit.shock == shock), None)
    if one is None:
        return _widened(table, _unknown_variance(map, table))
    ln = one.compression if direction == "compression" else one.rebound
    return _widened(table, one.variance - table.spread**2, float(np.exp(ln)))


def _by_shock(table: DirectionMap) -> DirectionMap:
    """Return the tables with each shock as its only state, its spread known."""
    if table.scales is None:
        return table
    return replace(table, states=table.scales, state_variances=np.zeros(len(table.scales)), losses=None)


def _unknown_variance(map: ClickMap, table: DirectionMap) -> float:
    """Return what a shock never tested adds to the variance that the tables hold, a share of force squared. [1]

    The tables of several shocks hold their spread already; of one shock they err by its own deviation too.
    """
    if len(map.shocks) > 1:
        return 0.0 if table.spread > 0 else EXPECTED_SPREAD**2
    return 2.0 * (EXPECTED_SPREAD**2 + SIDE_SPREAD**2)


def _widened(table: DirectionMap, variance: float, factor: float = 1.0) -> DirectionMap:
    half = table.force * factor * with_variance(table, variance)
    return replace(table, force=table.force * factor, half_width=np.where(table.force > 0, half, 0.0), scales=None,
                   states=None, state_variances=None, losses=None, spread=0.0)  # fmt: skip


def spread_pct(map: ClickMap, shock: str) -> float:
    """Return by how much the force of a shock never tested with the pack may differ for being another, 95 %. [%]"""
    one = next((unit for unit in map.carried if unit.shock == shock), None)
    table = map.compression
    own = table.spread**2 if len(map.shocks) > 1 and table.spread > 0 else _unknown_variance(map, table)
    return 100.0 * Z95 * float(np.sqrt(own if one is None else one.variance))


def carried(map: ClickMap, others: Sequence[ClickMap]) -> tuple[CarriedUnit, ...]:
    """Return what other packs tell of shocks that a pack was never tested with.

    The factor of such a shock over those that both packs were tested with is taken over, these as they were when it was
    tested: one of them that has changed since is no measure of it. What differs from speed to speed is no factor: a
    leak weighs otherwise in another pack, and stays as doubt.

    Where two packs have no shock in common, a shock is held against all of its own pack as they were when first tested,
    itself among them, and those are taken for shocks as usual: what it lost since shows, and what sets it apart.
    """
    return tuple((_over_common(map, others) | _over_its_own(map, others)).values())


def _over_common(map: ClickMap, others: Sequence[ClickMap]) -> dict[str, CarriedUnit]:
    out: dict[str, CarriedUnit] = {}
    for other in others:
        common = [shock for shock in map.shocks if shock in other.shocks]
        for shock in other.shocks:
            if shock in map.shocks or shock in out or not common:
                continue
            then = _last_day(other, shock)
            ln = {d: _relative(other.direction(d), other, [shock], then)
                  - _relative(other.direction(d), other, common, then)
                  + _relative(map.direction(d), map, common, then) for d in DIRECTIONS}  # fmt: skip
            variance = _carried_variance(other, shock, then, _left(map, common))
            out[shock] = CarriedUnit(shock, ln["compression"], ln["rebound"], variance, other.pack)
    return out


def _over_its_own(map: ClickMap, others: Sequence[ClickMap]) -> dict[str, CarriedUnit]:
    """Return what packs without a shock in common with a map's tell of theirs, by shock."""
    out: dict[str, CarriedUnit] = {}
    for other in others:
        if len(other.states) < 2 or set(map.shocks) & set(other.shocks):
            continue
        for shock in other.shocks:
            then = _last_day(other, shock)
            ln = {d: _relative(other.direction(d), other, [shock], then) - _when_first(other.direction(d), other)
                  for d in DIRECTIONS}  # fmt: skip
            variance = _carried_variance(other, shock, then, 1.0 / len(map.shocks) + 1.0 / len(other.shocks))
            out[shock] = CarriedUnit(shock, ln["compression"], ln["rebound"], variance, other.pack)
    return {shock: unit for shock, unit in out.items() if shock not in _told_by_common(map, others)}


def _told_by_common(map: ClickMap, others: Sequence[ClickMap]) -> set[str]:
    return {shock for other in others if set(map.shocks) & set(other.shocks) for shock in other.shocks}


def _when_first(table: DirectionMap, map: ClickMap) -> float:
    """Return the mean logarithm of all shocks' force, as each was first tested, over that of the tables. [1]"""
    begun = [next((state.first for state in map.states if state.shock == shock), None) for shock in map.shocks]
    return float(np.mean([_relative(table, map, [s], day or None) for s, day in zip(map.shocks, begun, strict=True)]))


def _carried_variance(other: ClickMap, shock: str, then: str | None, left: float) -> float:
    """Return how sure a factor taken over is, a share of force squared; `left` of the spread between shocks stays."""
    uneven = max(float(np.var(_logs(other.direction(d), other, shock, then))) for d in DIRECTIONS)
    number = state_number(other, shock, then)
    known = [
        losses.variances[number] for d in DIRECTIONS if (losses := other.direction(d).losses) and number is not None
    ]
    elsewhere = max((float(np.mean(variances)) for variances in known), default=0.0)
    return CARRIED_SHARE**2 + SIDE_SPREAD**2 + EXPECTED_SPREAD**2 * left + uneven + max(elsewhere, 0.0)


def _last_day(map: ClickMap, shock: str) -> str | None:
    """Return the day on which a shock was last tested with a pack; None where nobody wrote it."""
    number = state_number(map, shock)
    return None if number is None else map.states[number].last or None


def _left(map: ClickMap, common: Sequence[str]) -> float:
    """Return which share of the spread stays, where not all shocks of a map are common to both packs. [1]"""
    return 1.0 / len(common) - 1.0 / len(map.shocks)


def _relative(table: DirectionMap, map: ClickMap, shocks: Sequence[str], date: str | None) -> float:
    """Return the mean logarithm of some shocks' force at a date over that of the tables. [1]"""
    return float(np.mean([_logs(table, map, shock, date) for shock in shocks]))


def _logs(table: DirectionMap, map: ClickMap, shock: str, date: str | None) -> FloatArray:
    """Return the logarithm of a shock's force at a date over that of the tables, over tested speeds, (S,). [1]"""
    seen = (table.speeds >= JUDGED_FROM) & (table.speeds <= table.top_speed)
    number = state_number(map, shock, date)
    if table.states is not None and number is not None:
        return np.asarray(np.log(table.states[number][seen]))
    if table.scales is None:
        return np.zeros(int(seen.sum()))
    return np.asarray(np.log(table.scales[map.shocks.index(shock)][seen]))
