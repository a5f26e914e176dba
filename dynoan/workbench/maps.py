"""Pooled curves and click maps of what the library holds, fitted once and cached."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from typing import TYPE_CHECKING

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.model.curve import Curve
from dynoan.model.shock import Adjuster, Shock
from dynoan.workbench.fitting_jobs import MapJob
from dynoan.workbench.holding import NAMELESS, Holding
from dynoan.workbench.states import by_day

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.tested.setting import Tested
    from dynoan.analysis.health.session import RecordState
    from dynoan.library import SweepRecord
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.sweep import Sweep


class Maps(Holding):
    """The curves of tested settings, and each pack's map from clicks to curves."""

    def tested(self, *, pack: str | None = None, shock: str | None = None) -> tuple[Tested, ...]:
        """Return one pooled curve a shock, pack, clicks and day; clicks from closed."""
        from dynoan.analysis.clickmap.tested.setting import Tested

        among = self.records if pack is None else self.of_pack.get(pack, ())
        groups = by_day([r for r in among if shock in (None, r.shock)])
        out = []
        for group, curve in zip(groups, self._fits.curves(groups), strict=True):
            first = group[0]
            clicks = self._to_closed(self.shock(first.shock), first.clicks)
            out.append(Tested(first.shock or NAMELESS, clicks, curve, first.date, len(group)))
        return tuple(out)

    def curve(self, *sweep_ids: str) -> Curve:
        """Return the pooled curve of sweeps of one setting, from the cache where it is there."""
        wanted = set(sweep_ids)
        return self._fits.curves([[r for r in self.records if r.id in wanted]])[0]

    def told(self, records: Sequence[SweepRecord]) -> list[RecordState]:
        """Return what each sweep tells of its shock beside the curve, from the cache where it is there. SI."""
        return self._fits.told(records)

    def click_map(self, pack: str, shock: str | None = None) -> ClickMap:
        """Return the click map of a pack, from all shocks that carry it or from one.

        Raises
        ------
        LookupFault
            If the library holds no sweep of that pack.
        """
        map = self._bare_map(pack, shock)
        return map if shock is not None else self._carrying(map)

    def _bare_map(self, pack: str, shock: str | None = None) -> ClickMap:
        if (pack, shock) not in self._maps:
            self._maps[pack, shock] = self._make_map(pack, shock)
        return self._maps[pack, shock]

    def make_map(self, pack: str) -> None:
        """Fit the click map of a pack, and of no other, into the cache.

        Raises
        ------
        LookupFault
            If the library holds no sweep of that pack.
        """
        self._bare_map(pack)

    def fit_curves(self, pack: str) -> None:
        """Fit the curves of a pack's tested settings into the cache, and not its click map."""
        self._fits.curves(by_day(self.of_pack.get(pack, ())))

    def fitted(self, pack: str) -> list[tuple[list[SweepRecord], Curve]] | None:
        """Return each tested setting of a pack with its curve; None where one of them was not fitted yet."""
        groups = by_day(self.of_pack.get(pack, ()))
        curves = self._fits.known_curves(groups)
        return None if curves is None else list(zip(groups, curves, strict=True))

    def fit_ahead(self, coming: Sequence[tuple[Sweep, bytes]]) -> None:
        """Fit into the cache what curves settings will have once sweeps are kept, each with the bytes it came from.

        Those without a pack or clicks are left out, those that the library holds, and those that cannot be kept.
        """
        have = {r.id for r in self.records}
        made = []
        for sweep, data in coming:
            with suppress(CallError, QuantityError):
                made += [self.library.would_keep(sweep, data)] if sweep.pack and sweep.clicks else []
        files = {r.id: data for r, data in made if r.id not in have}
        # A peak table needs the shock's file, or a run of it.
        new = [r for r, _ in made if r.id in files and (r.layout == "trace" or r.shock in self._shock_names)]
        groups = [
            group
            for pack in dict.fromkeys(r.pack or "" for r in new)
            for group in by_day([*self.of_pack.get(pack, ()), *(r for r in new if r.pack == pack)])
            if any(r.id in files for r in group)
        ]
        self._fits.curves(groups, files)

    def has_map(self, pack: str) -> bool:
        """Tell whether the click map of a pack is at hand or in the cache, so that asking for it takes no time.

        Those of packs that tell of shocks it was never tested with are asked with it.
        """
        mine = self._shocks_of_packs.get(pack, set())
        return pack in self.of_pack and all(self._has_bare(p) for p in (pack, *self._telling(pack, mine)))

    def _has_bare(self, pack: str) -> bool:
        if (pack, None) not in self._maps:
            _, key = self._map_job(pack, None)
            found = self._fits.known_map(key)
            if found is not None:
                self._maps[pack, None], self._map_keys[pack] = found, key
        return (pack, None) in self._maps

    def _carrying(self, map: ClickMap) -> ClickMap:
        """Return a pack's map with what other packs tell of shocks that it was never tested with."""
        from dynoan.analysis.clickmap.every_click.one_shock import carried

        if map.pack not in self._carried:
            units = carried(map, [self._bare_map(p) for p in self._telling(map.pack, set(map.shocks))])
            self._carried[map.pack] = replace(map, carried=units) if units else map
        return self._carried[map.pack]

    def _telling(self, pack: str, mine: set[str]) -> list[str]:
        """Return the packs that tell of other shocks than `mine`, with which one pack was tested.

        Those that share a shock with it, and those whose shocks stand on a car of the library together with its own.
        """
        near = mine.union(*(on_car for on_car in self._shocks_of_cars if on_car & mine))
        of_pack = self._shocks_of_packs
        return [p for p, shocks in sorted(of_pack.items()) if p != pack and shocks & near and shocks - mine]

    def click_maps(self, packs: Sequence[str]) -> dict[str, ClickMap]:
        """Return the click maps of several packs; those not in the cache are fitted at once."""
        wanted = [pack for pack in packs if (pack, None) not in self._maps]
        jobs = [self._map_job(pack, None) for pack in wanted]

        def ready(job: Callable[[], MapJob]) -> Callable[[], MapJob]:
            def make() -> MapJob:
                # All curves of all packs at once: that keeps every core busy.
                self._fits.curves(by_day([r for pack in wanted for r in self.of_pack.get(pack, ())]))
                return job()

            return make

        made = self._fits.maps([ready(job) for job, _ in jobs], [key for _, key in jobs])
        self._map_keys |= {pack: key for pack, (_, key) in zip(wanted, jobs, strict=True)}
        self._maps |= {(pack, None): click_map for pack, click_map in zip(wanted, made, strict=True)}
        return {pack: self._carrying(self._maps[pack, None]) for pack in packs}

    def _make_map(self, pack: str, shock: str | None) -> ClickMap:
        job, key = self._map_job(pack, shock)
        if shock is None:
            self._map_keys[pack] = key
        return self._fits.maps([job], [key])[0]

    def _map_job(self, pack: str, shock: str | None) -> tuple[Callable[[], MapJob], str]:
        records = [r for r in self.of_pack.get(pack, ()) if shock in (None, r.shock)]
        if not records:
            raise LookupFault(self._unknown("pack", pack, tuple(sorted(self.of_pack))))
        shocks = [self.shock(n) for n in sorted({r.shock or NAMELESS for r in records})]
        counted = [(s.name, [(a.name, a.clicks, a.counted) for a in s.adjusters]) for s in shocks]
        self.library.hold_sound(records)
        stamps = sorted(repr(r) for r in records)
        key = json.dumps([pack, shock, stamps, counted])
        return lambda: MapJob(pack, joint_adjusters(shocks), self.tested(pack=pack, shock=shock)), key

    def counting_of(self, click_map: ClickMap, shock: str | None = None) -> Shock:
        """Return the shock whose counting is shown for a map: the one named, else the one all that carry it agree on.

        Where they do not agree, and none is named, clicks are shown from closed.
        """
        try:
            return self.counting(click_map.pack, shock)
        except CallError:
            if shock is not None:
                raise
            return Shock("", click_map.adjusters, stated=False)


def joint_adjusters(shocks: list[Shock]) -> tuple[Adjuster, ...]:
    """Return the adjusters of all shocks of a pack, each with the most clicks that any of them has."""
    last: dict[str, int] = {}
    for shock in shocks:
        for adjuster in shock.adjusters:
            last[adjuster.name] = max(last.get(adjuster.name, 0), adjuster.clicks)
    order = ["lsc", "hsc", "lsr", "hsr", "c", "r", "cr"]
    return tuple(Adjuster(name, last[name]) for name in sorted(last, key=order.index))
