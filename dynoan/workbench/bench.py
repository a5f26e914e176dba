"""The workbench: what a person's word for sweeps and settings names in a library, as fitted curves."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import CallError, LookupFault
from dynoan.library.names import nearest
from dynoan.model.importing import ReadOptions
from dynoan.model.setting import order_of
from dynoan.model.shock import clicks_text
from dynoan.workbench.fitting_jobs import Progress
from dynoan.workbench.resolving import Resolved, Wanted, parse_wanted, resolve_file
from dynoan.workbench.settings import Settings
from dynoan.workbench.states import by_setting, latest

if TYPE_CHECKING:
    from dynoan.library import SweepRecord


class Workbench(Settings):
    """A library with the analysis at hand. Clicks of people are as the shock's file counts them."""

    @classmethod
    def find(
        cls, given: Path | None = None, warn: Callable[[str], None] | None = None, progress: Progress | None = None,
        cluster: str | None = None,
    ) -> Workbench:  # fmt: skip
        """Open the library at `given`, else DYNOAN_LIBRARY, else upward from the current folder."""
        from dynoan.library import Library

        return cls(Library.find(given), warn, progress, cluster)

    def resolve(self, what: str) -> tuple[Resolved, ...]:
        """Return what WHAT names: a file's path, a sweep id, "pack=gravel,lsc=6" or "gravel@lsc=6,lsr=8".

        Raises
        ------
        LookupFault
            If the library holds nothing of it, or there is none.
        CallError
            If it is a folder, or looks like a file that is not there, and no library is at hand that might know it.
        """
        if Path(what).is_file():
            return resolve_file(Path(what), ReadOptions(layouts=self.layouts()))
        if what and Path(what).is_dir() and not self._is_name(what):
            raise CallError("a folder", where=what, hint="name a file in it")
        self._be_at_hand(what)
        if "=" not in what and "@" not in what:
            if what in self.of_pack:
                return self._settings(Wanted(pack=what), what)
            if what in {r.shock for r in self.records}:
                return self._settings(Wanted(shock=what), what)
            return (self._sweep(what),)
        return self._settings(parse_wanted(what), what)

    def _is_name(self, what: str) -> bool:
        """Return whether a pack or a shock is called so, where a library is at hand."""
        try:
            return what in self.of_pack or any(r.shock == what for r in self.records)
        except LookupFault:
            return False

    def _be_at_hand(self, what: str) -> None:
        try:
            self.library  # noqa: B018
        except LookupFault as error:
            if error.need == "library" and Path(what).suffix and "=" not in what:
                raise CallError(
                    "no such file, and no library here to look it up in", where=what, hint="check the name"
                ) from None
            raise

    def prepare(self, whats: Sequence[str]) -> None:
        """Fit what several WHAT will ask for at once: one by one would leave cores idle."""
        wanted = [parse_wanted(what) for what in whats if ("=" in what or "@" in what) and not Path(what).is_file()]
        packs = {w.pack for w in wanted if w.pack and w.clicks}
        if any(w.clicks and not any(w.fits(r) for r in self.records) for w in wanted) and len(packs) > 1:
            self.click_maps(sorted(p for p in packs if p in self.of_pack))

    def _sweep(self, prefix: str) -> Resolved:
        found = [r for r in self.records if r.id.startswith(prefix)]
        if len(found) != 1 or not prefix:
            state = "several sweeps of the library" if found else "no file, sweep, pack or shock known here"
            raise LookupFault(f"'{prefix}' names {state}", hint="see 'dynoan sweeps', or write pack=NAME or shock=NAME")
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
            groups = sorted(by_setting(chosen if wanted.date else latest(chosen)), key=lambda group: order_of(group[0]))
            self._fits.curves(groups)
            return tuple(self._resolved(group) for group in groups)
        if wanted.clicks and not wanted.date:
            return (self.predicted(wanted),)
        raise LookupFault(f"the library holds no sweep of '{what}'{self._meant(wanted)}", hint="see 'dynoan sweeps'")

    def _meant(self, wanted: Wanted) -> str:
        """Return " (did you mean 'x'?)" for a shock or pack that no sweep has and another is near to."""
        known = ((wanted.shock, {r.shock for r in self.records}), (wanted.pack, {r.pack for r in self.records}))
        unknown = [(name, have) for name, have in known if name and name not in have]
        return "".join(nearest(name, sorted(filter(None, have))) for name, have in unknown)

    def predicted(self, wanted: Wanted) -> Resolved:
        """Return the curve of a setting from its pack's click map; clicks left out sit where most tests sat."""
        from dynoan.analysis.clickmap.at_clicks import curve_at

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
