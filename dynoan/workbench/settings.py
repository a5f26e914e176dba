"""The curve of a shock at clicks, tested there or not, and of what is on a car's corners."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from dynoan.errors import DynoanError, QuantityError
from dynoan.library.names import nearest
from dynoan.model.curve import Curve
from dynoan.model.shock import Shock, clicks_text
from dynoan.units import enumerated
from dynoan.workbench.holding import NAMELESS
from dynoan.workbench.maps import Maps
from dynoan.workbench.states import ONE_WARMTH, by_state, since

if TYPE_CHECKING:
    from dynoan.library import SweepRecord
    from dynoan.model.car import Car, Corner
    from dynoan.model.clickmap import ClickMap


class Settings(Maps):
    """Curves at clicks: a shock's own where it was tested there, else its pack's map's."""

    def setting_curve(
        self, click_map: ClickMap, from_closed: Mapping[str, int], shock: str | None = None, *, pieces: bool = True
    ) -> Curve:
        """Return the curve of a pack at clicks from closed: where the shock was tested there, as it is now, its own.

        Else it is the click map's, with knees and pieces where they are wanted: to find them takes most of the time. Of
        a shock never tested with the pack the curve says so, and its band holds what that leaves open.
        """
        from dynoan.analysis.clickmap.at_clicks import curve_at

        only = click_map.shocks[0] if shock is None and len(click_map.shocks) == 1 else shock
        # Where a test's clicks were counted from the other end, the map has it elsewhere than it is written.
        here = click_map.standing(from_closed) == "tested"
        own = self._own_curve(click_map, click_map.complete(from_closed), only) if only and here else None
        if own is not None:
            return replace(own, standing="tested", shock=shock)
        unknown = untested_words(click_map, shock)
        key = self._map_keys.get(click_map.pack)
        pieces = pieces and self.pieces
        if key is None or unknown or not pieces:
            curve = curve_at(click_map, from_closed, shock=shock, pieces=pieces)
        else:
            curve = self._fits.setting(key, click_map, from_closed, shock)
        return replace(curve, warnings=(*curve.warnings, *unknown))

    def tested_curves(self, click_map: ClickMap, shock: str | None) -> tuple[Curve, ...]:
        """Return what `setting_curve` gives as a shock's own at a map's tested settings, clicks from closed."""
        only = click_map.shocks[0] if shock is None and len(click_map.shocks) == 1 else shock
        if not only:
            return ()
        settings = {tuple(sorted(one.items())): one for t in click_map.tested if (one := click_map.complete(t))}
        found = [(one, self._own_curve(click_map, one, only)) for one in settings.values()]
        return tuple(
            replace(curve, standing="tested", clicks=dict(one), shock=shock) for one, curve in found
            if curve is not None and click_map.standing(one) == "tested"
        )  # fmt: skip

    def _own_curve(self, click_map: ClickMap, setting: Mapping[str, int], shock: str) -> Curve | None:
        """Return the fitted curve of a shock in its last state at a setting; None where no run tells it."""
        key = (click_map.pack, shock, clicks_text(setting))
        if key not in self._own:
            self._own[key] = self._fit_own(click_map, setting, shock)
        return self._own[key]

    def _fit_own(self, click_map: ClickMap, setting: Mapping[str, int], shock: str) -> Curve | None:
        begun = next((s.first for s in reversed(click_map.states) if s.shock == shock), "")
        mine = since([r for r in self.of_pack.get(click_map.pack, ()) if (r.shock or NAMELESS) == shock], begun)
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

    def corner_curve(
        self, car: Car, corner: Corner, *, clicks: Mapping[str, int] | None = None, pack: str | None = None,
        pieces: bool = True,
    ) -> Curve:  # fmt: skip
        """Return the curve of what is on a corner, from its pack's click map, with `pieces` as `setting_curve`.

        Raises
        ------
        QuantityError
            If the car's file names no pack for that corner; clicks it leaves out sit where most tests sat.
        """
        name = pack or corner.pack
        if not name:
            raise QuantityError(
                "missing", where=f"{car.file or car.name}, [{corner.name}] pack", hint='write it like pack = "gravel"'
            )
        shown = corner.clicks if clicks is None else clicks
        shock = self.corner_shock(corner, name)
        try:
            shock.check(shown)
        except DynoanError as error:
            where = f"{car.file or car.name}, [{corner.name}] clicks" if clicks is None else ""
            raise error.again(where=where) from error
        click_map = self.click_map(name)
        from_closed = click_map.complete(shock.to_closed(shown))
        curve = self.setting_curve(click_map, from_closed, corner.shock, pieces=pieces)
        return replace(curve, clicks=dict(shown), what=f"{name}@{clicks_text(shown)}")

    def untested(self, car: Car, packs: Sequence[str] | None = None) -> tuple[str, ...]:
        """Return in words which shocks on a car were never tested with their pack, or with any of several packs."""
        out = []
        for corner in car.corners.values():
            unknown = corner.shock if corner.shock not in self._shock_names else None
            if unknown and (near := nearest(unknown, self._shock_names)):
                out.append(f"{corner.name}: no run and no file of a shock {unknown}{near}")
            for pack in packs if packs is not None else [corner.pack]:
                if pack and corner.shock and pack in self.of_pack:
                    out += [f"{corner.name}: {text}" for text in untested_words(self.click_map(pack), corner.shock)]
        return tuple(dict.fromkeys(out))

    def unsaid(self, car: Car) -> tuple[str, ...]:
        """Return in words which clicks a car's file leaves out, and at what they are taken for its figures."""
        found: dict[str, list[str]] = {}
        for corner in car.corners.values():
            if corner.pack in self.of_pack:
                left_out = self._left_out(corner, str(corner.pack))
                if left_out:
                    found.setdefault(clicks_text(left_out), []).append(corner.name)
        return tuple(f"{', '.join(names)}: clicks are not said; taken at {clicks}, where most tests sat"
                     for clicks, names in found.items())  # fmt: skip

    def _left_out(self, corner: Corner, pack: str) -> dict[str, int]:
        shock = self.corner_shock(corner, pack)
        own = {a.name for a in shock.adjusters}
        if not set(corner.clicks) <= own:
            return {}  # refused where its curve is asked for
        closed = self.click_map(pack).complete(shock.to_closed(corner.clicks))
        full = shock.to_counted({k: v for k, v in closed.items() if k in own})
        return {k: v for k, v in full.items() if k not in corner.clicks}

    def corner_shock(self, corner: Corner, pack: str) -> Shock:
        """Return the shock whose counting the clicks of a corner use: its own, where the library knows it."""
        return self.counting(pack, corner.shock if corner.shock in self._shock_names else None)


def untested_words(click_map: ClickMap, shock: str | None) -> tuple[str, ...]:
    """Return in words that a shock was never tested with a pack, and by how much it may differ; else nothing."""
    from dynoan.analysis.clickmap.every_click.one_shock import spread_pct

    if shock is None or shock in click_map.shocks:
        return ()
    tested = f"{enumerated(click_map.shocks)} {'was' if len(click_map.shocks) == 1 else 'were'}"
    off = f"its force may lie {spread_pct(click_map, shock):.0f} % off for being another shock; the band holds that"
    through = next((one.through for one in click_map.carried if one.shock == shock), None)
    if through is not None:
        return (f"{shock} was never tested with pack {click_map.pack} ({tested}); how it differs with pack "
                f"{through} is taken over, {off}",)  # fmt: skip
    return (f"{shock} was never tested with pack {click_map.pack} ({tested}): {off}",)
