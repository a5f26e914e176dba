"""What a workbench holds of its library: records, shocks and how they count clicks, the team's own layouts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from functools import cached_property
from typing import TYPE_CHECKING

from dynoan.errors import CallError, DynoanError, LookupFault
from dynoan.library.shock_without_file import untold_shock
from dynoan.model.shock import Adjuster, Shock
from dynoan.workbench.fitting_jobs import Fits, Progress

if TYPE_CHECKING:
    from dynoan.library import Fault, Library, SweepRecord
    from dynoan.model.clickmap import ClickMap
    from dynoan.model.curve import Curve
    from dynoan.model.importing import LayoutCard
    from dynoan.units import Shown

NAMELESS = "(no name)"


class Holding:
    """A library read once, until it is said that it has changed."""

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
        self.asked: Shown | None = None  #: the units asked for, where the library's own are not wanted
        self._own: dict[tuple[str, str, str], Curve | None] = {}
        self._map_keys: dict[str, str] = {}
        self._shocks: dict[str, Shock] = {}
        self._faulty_layouts: set[Fault] = set()

    @cached_property
    def library(self) -> Library:
        """The library.

        Raises
        ------
        LookupFault
            If it is first needed now, and there is none.
        """
        return self._given() if callable(self._given) else self._given

    @property
    def units(self) -> Shown:
        """The units in which usual speeds are round: those asked for, else the library's, else metric."""
        if self.asked is not None:
            return self.asked
        try:
            return self.library.units
        except LookupFault as error:
            if error.need == "library":
                return "metric"
            raise

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
        found = self.library.listed()
        for fault in found.faults:
            self._warn(f"{fault.file}: {fault.fault}; left out (see 'dynoan check')")
        return found.records

    @cached_property
    def of_pack(self) -> Mapping[str, tuple[SweepRecord, ...]]:
        """The sweeps of each pack: looking through all for every pack would take the square of the time."""
        found: dict[str, list[SweepRecord]] = {}
        for record in self.records:
            if record.pack:
                found.setdefault(record.pack, []).append(record)
        return {pack: tuple(records) for pack, records in found.items()}

    @cached_property
    def _shock_names(self) -> set[str]:
        return {*self.library.text_names("shocks"), *(r.shock for r in self.records if r.shock)}

    @cached_property
    def _last_clicks(self) -> Mapping[str, Mapping[str, int]]:
        """The highest click each shock was tested at, by adjuster."""
        found: dict[str, dict[str, int]] = {}
        for record in self.records:
            seen = found.setdefault(record.shock or "", {})
            for name, click in record.clicks.items():
                seen[name] = max(click, seen.get(name, 0))
        return found

    @cached_property
    def _shocks_of_packs(self) -> dict[str, set[str]]:
        carriers = {pack: {r.shock for r in records if r.shock} for pack, records in self.of_pack.items()}
        return {pack: shocks for pack, shocks in carriers.items() if shocks}

    @cached_property
    def _shocks_of_cars(self) -> tuple[set[str], ...]:
        """The shocks on each car whose file can be read; what is wrong with the others is told where they are asked."""
        found = []
        for name in self.library.cars():
            with suppress(DynoanError):
                found.append({c.shock for c in self.library.car(name).corners.values() if c.shock})
        return tuple(found)

    @cached_property
    def _known_clicks(self) -> Mapping[str, Mapping[str, int]]:
        """How many clicks the file of each tested shock states, or it was tested at."""
        return {shock: self.library.clicks_of(shock, tested) for shock, tested in self._last_clicks.items()}

    def forget(self) -> None:
        """Forget what was read of the library: it has changed."""
        for found in (self._maps, self._carried, self._own, self._map_keys, self._shocks):
            found.clear()
        for name in (
            "records",
            "of_pack",
            "_shock_names",
            "_last_clicks",
            "_known_clicks",
            "_shocks_of_packs",
            "_shocks_of_cars",
        ):
            self.__dict__.pop(name, None)

    def shock(self, name: str | None) -> Shock:
        """Return a shock; a nameless one counts from closed and has the adjusters its sweeps name."""
        if name and name != NAMELESS:
            if name not in self._shocks:
                self._shocks[name] = self._shock(name)
            return self._shocks[name]
        seen = self._last_clicks.get("", {})
        return Shock(NAMELESS, tuple(Adjuster(k, v) for k, v in seen.items()), stated=False)

    def _shock(self, name: str) -> Shock:
        if name not in self._last_clicks or self.library.has_shock_file(name):
            return self.library.shock(name)
        # The library would look through all its sweeps for each shock.
        carriers = [shocks for shocks in self._shocks_of_packs.values() if name in shocks]
        sisters = set().union(*carriers) - {name}
        return untold_shock(name, self._last_clicks[name], (self._known_clicks[sister] for sister in sisters))

    def counting(self, pack: str, shock: str | None = None) -> Shock:
        """Return the shock whose counting people's clicks use for a pack.

        Raises
        ------
        CallError
            If the shocks that carry it count differently and none is named.
        """
        if shock:
            return self.shock(shock)
        names = sorted({r.shock or NAMELESS for r in self.of_pack.get(pack, ())})
        if not names:
            raise LookupFault(self._unknown("pack", pack, tuple(sorted(self.of_pack))))
        shocks = [self.shock(n) for n in names]
        stated = [s for s in shocks if s.stated] or shocks
        if len({tuple((a.name, a.counted) for a in sorted(s.adjusters, key=lambda a: a.name)) for s in stated}) > 1:
            raise CallError(f"the shocks with pack {pack} count clicks differently", hint=f"name one: shock={names[0]}")
        return max(stated, key=lambda s: sum(a.clicks for a in s.adjusters))

    @staticmethod
    def _to_closed(shock: Shock, clicks: Mapping[str, int]) -> dict[str, int]:
        for name in clicks:
            shock.adjuster(name)
        return shock.to_closed(clicks)

    def _unknown(self, kind: str, name: str, known: tuple[str, ...]) -> str:
        have = ", ".join(known)
        if not known:
            have = "none that can be read" if self.library.faults() else "none yet: add sweeps with 'dynoan add'"
        return f"the library holds no sweep of {kind} '{name}'; it holds {have}"
