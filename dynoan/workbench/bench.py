"""The workbench: curves, click maps and corners from what the library holds, fitted once and cached."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import CallError, LookupFault, QuantityError
from dynoan.model.curve import Curve
from dynoan.model.importing import ReadOptions
from dynoan.model.shock import Adjuster, Shock, clicks_text
from dynoan.workbench.fitting_jobs import Fits, MapJob, Progress
from dynoan.workbench.resolving import Resolved, Wanted, parse_wanted, resolve_file
from dynoan.workbench.states import ONE_WARMTH, by_setting, by_state, last_state, latest

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.mapping import Tested
    from dynoan.library import Fault, Library, SweepRecord
    from dynoan.model.car import Car, Corner
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.importing import LayoutCard

NAMELESS = "(no name)"


class Workbench:
    """A library with the analysis at hand. Clicks of people are as the shock's file counts them."""

    def __init__(
        self, library: Library | Callable[[], Library], warn: Callable[[str], None] | None = None,
        progress: Progress | None = None, cluster: str | None = None,
    ) -> None:  # fmt: skip
        """Start from a library, or from what finds one when it is first needed: files alone need none."""
        self._given = library
        self._cluster = cluster
        self._warn = warn or (lambda _text: None)
        self.pieces = True  #: whether curves of clicks know their knees and pieces, which take most of the time
        self.progress: Progress = progress or (lambda _label, _done, _all: None)
        self._maps: dict[tuple[str, str | None], ClickMap] = {}
        self._carried: dict[str, ClickMap] = {}
        self._own: dict[tuple[str, str, str], Curve | None] = {}
        self._map_keys: dict[str, str] = {}
        self._shocks: dict[str, Shock] = {}
        self._faulty_layouts: set[Fault] = set()

    @classmethod
    def find(
        cls, given: Path | None = None, warn: Callable[[str], None] | None = None, progress: Progress | None = None,
        cluster: str | None = None,
    ) -> Workbench:  # fmt: skip
        """Open the library at `given`, else DYNOAN_LIBRARY, else upward from the current folder."""
        from dynoan.library import Library

        return cls(Library.find(given), warn, progress, cluster)

    @cached_property
    def library(self) -> Library:
        """The library.

        Raises
        ------
        LookupFault
            If it is first needed now, and there is none.
        """
        return self._given() if callable(self._given) else self._given

    @cached_property
    def _fits(self) -> Fits:
        return Fits(self.library, self.progress, self._cluster)

    def layouts(self) -> tuple[LayoutCard, ...]:
        """Return the team's own layouts of rig files; none where no library is at hand and none was named.

        One that is faulty is a warning, told once, and the others hold.

        Raises
        ------
        LookupFault
            If a library was named that is none.
        """
        try:
            cards, faults = self.library.readable_layouts()
        except LookupFault as error:
            if error.need == "library":
                return ()
            raise
        for fault in faults:
            if fault not in self._faulty_layouts:
                self._faulty_layouts.add(fault)
                self._warn(f"{fault.file}: {fault.fault}; files are read without this layout")
        return cards

    @cached_property
    def records(self) -> tuple[SweepRecord, ...]:
        """What the library holds; a file that cannot be listed is a warning, and the rest goes on."""
        records = self.library.records()
        for fault in self.library.faults():
            self._warn(f"{fault.file}: {fault.fault}; left out (see 'dynoan check')")
        return records

    def forget(self) -> None:
        """Forget what was read of the library: it has changed."""
        for found in (self._maps, self._carried, self._own, self._map_keys, self._shocks):
            found.clear()
        for name in ("records", "_shock_names"):
            self.__dict__.pop(name, None)

    def shock(self, name: str | None) -> Shock:
        """Return a shock; a nameless one counts from closed and has the adjusters its sweeps name."""
        if name and name != NAMELESS:
            if name not in self._shocks:
                self._shocks[name] = self.library.shock(name)
            return self._shocks[name]
        seen: dict[str, int] = {}
        for record in self.records:
            for key, click in record.clicks.items() if not record.shock else ():
                seen[key] = max(seen.get(key, 0), click)
        return Shock(NAMELESS, tuple(Adjuster(k, v) for k, v in seen.items()), stated=False)

    def tested(self, *, pack: str | None = None, shock: str | None = None) -> tuple[Tested, ...]:
        """Return one pooled curve a shock, pack and clicks, in each state it was tested in; clicks from closed."""
        from dynoan.analysis.clickmap.mapping import Tested

        chosen = [r for r in self.records if pack in (None, r.pack) and shock in (None, r.shock)]
        groups = by_state(chosen)
        out = []
        for group, curve in zip(groups, self._fits.curves(groups), strict=True):
            first = group[0]
            clicks = self._to_closed(self.shock(first.shock), first.clicks)
            out.append(Tested(first.shock or NAMELESS, clicks, curve, first.date, len(group)))
        return tuple(out)

    @staticmethod
    def _to_closed(shock: Shock, clicks: Mapping[str, int]) -> dict[str, int]:
        for name in clicks:
            shock.adjuster(name)
        return shock.to_closed(clicks)

    def curve(self, *sweep_ids: str) -> Curve:
        """Return the pooled curve of sweeps of one setting, from the cache where it is there."""
        wanted = set(sweep_ids)
        return self._fits.curves([[r for r in self.records if r.id in wanted]])[0]

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

    def has_map(self, pack: str) -> bool:
        """Tell whether the click map of a pack is at hand or in the cache, so that asking for it takes no time."""
        if (pack, None) not in self._maps and any(r.pack == pack for r in self.records):
            _, key = self._map_job(pack, None)
            found = self._fits.known_map(key)
            if found is not None:
                self._maps[pack, None], self._map_keys[pack] = found, key
        return (pack, None) in self._maps

    def _carrying(self, map: ClickMap) -> ClickMap:
        """Return a pack's map with what other packs tell of shocks that it was never tested with."""
        from dynoan.analysis.clickmap.units import carried

        if map.pack not in self._carried:
            of_pack: dict[str, set[str]] = {}
            for record in self.records:
                if record.pack and record.shock:
                    of_pack.setdefault(record.pack, set()).add(record.shock)
            mine = set(map.shocks)
            others = [p for p, shocks in sorted(of_pack.items()) if p != map.pack and shocks & mine and shocks - mine]
            units = carried(map, [self._bare_map(p) for p in others])
            self._carried[map.pack] = replace(map, carried=units) if units else map
        return self._carried[map.pack]

    def click_maps(self, packs: Sequence[str]) -> dict[str, ClickMap]:
        """Return the click maps of several packs; those not in the cache are fitted at once."""
        wanted = [pack for pack in packs if (pack, None) not in self._maps]
        jobs = [self._map_job(pack, None) for pack in wanted]

        def ready(job: Callable[[], MapJob]) -> Callable[[], MapJob]:
            def make() -> MapJob:
                # All curves of all packs at once: that keeps every core busy.
                self._fits.curves(by_state([r for r in self.records if r.pack in wanted]))
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
        records = [r for r in self.records if r.pack == pack and shock in (None, r.shock)]
        if not records:
            raise LookupFault(self._unknown("pack", pack, self.library.packs()))
        shocks = [self.shock(n) for n in sorted({r.shock or NAMELESS for r in records})]
        counted = [(s.name, [(a.name, a.clicks, a.counted) for a in s.adjusters]) for s in shocks]
        self.library.hold_sound(records)
        stamps = sorted(repr(r) for r in records)
        key = json.dumps([pack, shock, stamps, counted])
        return lambda: MapJob(pack, _joint_adjusters(shocks), self.tested(pack=pack, shock=shock)), key

    @staticmethod
    def _unknown(kind: str, name: str, known: tuple[str, ...]) -> str:
        have = ", ".join(known) if known else "none yet: add sweeps with 'dynoan add'"
        return f"the library holds no sweep of {kind} '{name}'; it holds {have}"

    def counting(self, pack: str, shock: str | None = None) -> Shock:
        """Return the shock whose counting people's clicks use for a pack.

        Raises
        ------
        CallError
            If the shocks that carry it count differently and none is named.
        """
        if shock:
            return self.shock(shock)
        names = sorted({r.shock or NAMELESS for r in self.records if r.pack == pack})
        if not names:
            raise LookupFault(self._unknown("pack", pack, self.library.packs()))
        shocks = [self.shock(n) for n in names]
        stated = [s for s in shocks if s.stated] or shocks
        if len({tuple((a.name, a.counted) for a in sorted(s.adjusters, key=lambda a: a.name)) for s in stated}) > 1:
            raise CallError(f"the shocks with pack {pack} count clicks differently; name one: shock={names[0]}")
        return max(stated, key=lambda s: sum(a.clicks for a in s.adjusters))

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

    def resolve(self, what: str) -> tuple[Resolved, ...]:
        """Return what WHAT names: a file's path, a sweep id, "pack=gravel,lsc=6" or "gravel@lsc=6,lsr=8".

        Raises
        ------
        LookupFault
            If the library holds nothing of it, or there is none.
        CallError
            If it looks like a file that is not there, and no library is at hand that might know it.
        """
        if Path(what).is_file():
            return resolve_file(Path(what), ReadOptions(layouts=self.layouts()))
        self._be_at_hand(what)
        if "=" not in what and "@" not in what:
            if what in self.library.packs():
                return self._settings(Wanted(pack=what), what)
            if what in {r.shock for r in self.records}:
                return self._settings(Wanted(shock=what), what)
            return (self._sweep(what),)
        return self._settings(parse_wanted(what), what)

    def _be_at_hand(self, what: str) -> None:
        try:
            self.library  # noqa: B018
        except LookupFault as error:
            if error.need == "library" and Path(what).suffix and "=" not in what:
                raise CallError(f"{what}: no such file, and no library here to look it up in; check the name") from None
            raise

    def prepare(self, whats: Sequence[str]) -> None:
        """Fit what several WHAT will ask for at once: one by one would leave cores idle."""
        wanted = [parse_wanted(what) for what in whats if ("=" in what or "@" in what) and not Path(what).is_file()]
        packs = {w.pack for w in wanted if w.pack and w.clicks}
        if any(w.clicks and not any(w.fits(r) for r in self.records) for w in wanted) and len(packs) > 1:
            self.click_maps(sorted(p for p in packs if p in self.library.packs()))

    def _sweep(self, prefix: str) -> Resolved:
        found = [r for r in self.records if r.id.startswith(prefix)]
        if len(found) != 1 or not prefix:
            state = "several sweeps of the library" if found else "no file, sweep, pack or shock known here"
            raise LookupFault(f"'{prefix}' names {state}; see 'dynoan sweeps', or write pack=NAME or shock=NAME")
        return self._resolved(found, found[0].id)

    def _resolved(self, group: list[SweepRecord], label: str | None = None) -> Resolved:
        first = group[0]
        sweeps = tuple(self.library.load(r.id) for r in group)
        name = label or " ".join(filter(None, (first.shock, first.pack, clicks_text(first.clicks)))) or first.id
        from_closed = self._to_closed(self.shock(first.shock), first.clicks)
        curve = self.curve(*(r.id for r in group))
        return Resolved(name, curve, sweeps, first.shock, first.pack, dict(first.clicks), from_closed)

    def _settings(self, wanted: Wanted, what: str) -> tuple[Resolved, ...]:
        chosen = [r for r in self.records if wanted.fits(r)]
        if chosen:
            groups = by_setting(chosen if wanted.date else latest(chosen))
            self._fits.curves(groups)
            return tuple(self._resolved(group) for group in groups)
        if wanted.clicks and not wanted.date:
            return (self.predicted(wanted),)
        raise LookupFault(f"the library holds no sweep of '{what}'; see 'dynoan sweeps'")

    def predicted(self, wanted: Wanted) -> Resolved:
        """Return the curve of a setting from its pack's click map; clicks left out sit where most tests sat."""
        from dynoan.analysis.clickmap.mapping import curve_at

        pack = wanted.pack or self._only_pack(wanted.shock)
        shock = self.counting(pack, wanted.shock)
        shock.check(wanted.clicks)
        click_map = self.click_map(pack)
        from_closed = click_map.complete(shock.to_closed(wanted.clicks))
        clicks = shock.to_counted({k: v for k, v in from_closed.items() if k in {a.name for a in shock.adjusters}})
        curve = curve_at(click_map, from_closed, clicks=clicks, shock=wanted.shock)
        label = " ".join(filter(None, (wanted.shock, f"{pack}@{clicks_text(clicks)}")))
        return Resolved(label, curve, (), wanted.shock, pack, clicks, from_closed)

    def _only_pack(self, shock: str | None) -> str:
        packs = sorted({r.pack for r in self.records if r.pack and shock in (None, r.shock)})
        if len(packs) != 1:
            have = ", ".join(packs) or "none"
            raise CallError(f"which pack? name one as pack=NAME (tested here: {have})")
        return packs[0]

    def corner_curve(
        self, car: Car, corner: Corner, *, clicks: Mapping[str, int] | None = None, pack: str | None = None
    ) -> Curve:
        """Return the curve of what is on a corner, from its pack's click map.

        Raises
        ------
        QuantityError
            If the car's file names no pack or no clicks for that corner.
        """
        name = pack or corner.pack
        if not name:
            raise QuantityError(f'{car.file or car.name}, [{corner.name}] pack: missing; write it like pack = "gravel"')
        shown = corner.clicks if clicks is None else clicks
        shock = self.corner_shock(corner, name)
        shock.check(shown)
        click_map = self.click_map(name)
        from_closed = click_map.complete(shock.to_closed(shown))
        curve = self.setting_curve(click_map, from_closed, corner.shock)
        return replace(curve, clicks=dict(shown), what=f"{name}@{clicks_text(shown)}")

    def untested(self, car: Car, packs: Sequence[str] | None = None) -> tuple[str, ...]:
        """Return in words which shocks on a car were never tested with their pack, or with any of several packs."""
        out = []
        for corner in car.corners.values():
            for pack in packs if packs is not None else [corner.pack]:
                if pack and corner.shock and pack in self.library.packs():
                    out += [f"{corner.name}: {text}" for text in untested_words(self.click_map(pack), corner.shock)]
        return tuple(dict.fromkeys(out))

    def setting_curve(self, click_map: ClickMap, from_closed: Mapping[str, int], shock: str | None = None) -> Curve:
        """Return the curve of a pack at clicks from closed: where the shock was tested there, as it is now, its own.

        Else it is the click map's. Of a shock never tested with the pack the curve says so, and its band holds what
        that leaves open.
        """
        from dynoan.analysis.clickmap.mapping import curve_at

        only = click_map.shocks[0] if shock is None and len(click_map.shocks) == 1 else shock
        own = self._own_curve(click_map, click_map.complete(from_closed), only) if only else None
        if own is not None:
            return replace(own, standing="tested", shock=shock)
        unknown = untested_words(click_map, shock)
        key = self._map_keys.get(click_map.pack)
        if key is None or unknown or not self.pieces:
            curve = curve_at(click_map, from_closed, shock=shock, pieces=self.pieces)
        else:
            curve = self._fits.setting(key, click_map, from_closed, shock)
        return replace(curve, warnings=(*curve.warnings, *unknown))

    def _own_curve(self, click_map: ClickMap, setting: Mapping[str, int], shock: str) -> Curve | None:
        """Return the fitted curve of a shock in its last state at a setting; None where no run tells it."""
        key = (click_map.pack, shock, clicks_text(setting))
        if key not in self._own:
            self._own[key] = self._fit_own(click_map, setting, shock)
        return self._own[key]

    def _fit_own(self, click_map: ClickMap, setting: Mapping[str, int], shock: str) -> Curve | None:
        mine = last_state([r for r in self.records if r.pack == click_map.pack and (r.shock or NAMELESS) == shock])
        at = [r for r in mine if r.layout == "trace" and self._stands_at(click_map, r, setting)]
        for group in sorted(by_state(at), key=len, reverse=True):
            curve = self._fits.curves([group])[0]
            both = min(curve.compression.top_speed, curve.rebound.top_speed) > 0
            warm = abs((curve.temperature or 0.0) - (click_map.reference_c or 0.0))
            near = curve.temperature is None or click_map.reference_c is None or warm <= ONE_WARMTH
            if both and near and curve.friction == curve.friction:
                return curve
        return None

    def _stands_at(self, click_map: ClickMap, record: SweepRecord, setting: Mapping[str, int]) -> bool:
        clicks = self._to_closed(self.shock(record.shock), record.clicks)
        return all(clicks.get(name) == click for name, click in setting.items())

    def corner_shock(self, corner: Corner, pack: str) -> Shock:
        """Return the shock whose counting the clicks of a corner use: its own, where the library knows it."""
        return self.counting(pack, corner.shock if corner.shock in self._shock_names else None)

    @cached_property
    def _shock_names(self) -> set[str]:
        return set(self.library.shocks())


def untested_words(click_map: ClickMap, shock: str | None) -> tuple[str, ...]:
    """Return in words that a shock was never tested with a pack, and by how much it may differ; else nothing."""
    from dynoan.analysis.clickmap.units import spread_pct

    if shock is None or shock in click_map.shocks:
        return ()
    tested = " and ".join(click_map.shocks)
    off = f"its force may lie {spread_pct(click_map, shock):.0f} % off for being another shock; the band holds that"
    through = next((one.through for one in click_map.carried if one.shock == shock), None)
    if through is not None:
        return (f"{shock} was never tested with pack {click_map.pack} ({tested} was); how it differs with pack "
                f"{through} is taken over, {off}",)  # fmt: skip
    return (f"{shock} was never tested with pack {click_map.pack} ({tested} was): {off}",)


def _joint_adjusters(shocks: list[Shock]) -> tuple[Adjuster, ...]:
    last: dict[str, int] = {}
    for shock in shocks:
        for adjuster in shock.adjusters:
            last[adjuster.name] = max(last.get(adjuster.name, 0), adjuster.clicks)
    order = ["lsc", "hsc", "lsr", "hsr", "c", "r", "cr"]
    return tuple(Adjuster(name, last[name]) for name in sorted(last, key=order.index))
