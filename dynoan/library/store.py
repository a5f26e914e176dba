"""The library: a folder that keeps a team's sweeps, shocks, cars and setups."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from dynoan.errors import LibraryError, LookupFault, QuantityError
from dynoan.library import caching, checking, marker, names, shock_file
from dynoan.library.shock_without_file import stated_clicks, untold_shock
from dynoan.library.sweep_shelf import Added, SweepShelf
from dynoan.library.text_shelf import TextShelf
from dynoan.model.shock import Shock
from dynoan.units import Shown

__all__ = ["Added", "Library"]


class Library(SweepShelf, TextShelf):
    """A library's folder. What it reports as kept is on the disk, whole."""

    _tidied = False

    @classmethod
    def find(cls, given: Path | None = None) -> Library:
        """Open the library at `given`, else at DYNOAN_LIBRARY, else the nearest at or above the current folder.

        Raises
        ------
        LookupFault
            If there is none; the text says how to make one. Where none was given, it needs a "library".
        """
        try:
            return cls(marker.find(given))
        except LookupFault as error:
            raise error.again(need=None if given else "library") from None

    @classmethod
    def create(cls, path: Path, *, units: Shown = "metric", team: str = "") -> Library:
        """Make a library of a new or an empty folder.

        Raises
        ------
        LibraryError
            If the folder holds anything, or cannot be written.
        """
        marker.create(path, marker.Marker(units, team))
        return cls(path)

    @classmethod
    def open_or_create(cls, path: Path, *, units: Shown = "metric", team: str = "") -> Library:
        """Open the library at `path`, or make one there where the folder is new or empty. Two may do so at once."""
        if not (path / marker.NAME).is_file():
            try:
                return cls.create(path, units=units, team=team)
            except LibraryError:
                if not (path / marker.NAME).is_file():
                    raise
        return cls(path)

    def check(self) -> checking.CheckReport:
        """Verify every file of the library: seals, formats, and the text that people edit."""
        self._be_there()
        return checking.check(self)

    def shock(self, name: str) -> Shock:
        """Return a shock from its file; without one, its adjusters are those that it and its sisters were tested at.

        Raises
        ------
        LookupFault
            If there is neither a file nor a sweep of that shock.
        """
        if self.has_shock_file(name):
            return self._text("shocks", name, shock_file.shock_from_text)
        packs = {r.pack for r in self.records() if r.shock == name}
        if not packs:
            raise names.unknown("shock", name, self.shocks())
        tested: dict[str, dict[str, int]] = {name: {}}
        for record in self.records():
            if record.shock and (record.shock == name or (record.pack and record.pack in packs)):
                seen = tested.setdefault(record.shock, {})
                seen |= {adjuster: max(click, seen.get(adjuster, 0)) for adjuster, click in record.clicks.items()}
        return untold_shock(name, tested.pop(name), (self.clicks_of(sister, seen) for sister, seen in tested.items()))

    def clicks_of(self, shock: str, tested: Mapping[str, int]) -> Mapping[str, int]:
        """Return how many clicks a shock's file states, or those it was tested at where no sound file does."""
        if not self.has_shock_file(shock):
            return tested
        try:
            return stated_clicks(self._text("shocks", shock, shock_file.shock_from_text))
        except (LibraryError, QuantityError):
            return tested

    def shocks(self) -> tuple[str, ...]:
        """Return the names of all shocks that have a file or a sweep."""
        return tuple(sorted({*self.text_names("shocks"), *(r.shock for r in self.records() if r.shock)}))

    def packs(self) -> tuple[str, ...]:
        """Return the names of all packs that have a sweep."""
        return tuple(sorted({r.pack for r in self.records() if r.pack}))

    def cached(self, kind: str, key: str) -> memoryview | None:
        """Return what `cache` kept, None where it is gone or damaged."""
        return caching.cached(self.path / "cache", kind, key)

    def cache(self, kind: str, key: str, data: bytes) -> None:
        """Keep a derived result; it may be gone at any time."""
        if not self._tidied:
            caching.tidy(self.path / "cache")
            self._tidied = True
        caching.cache(self.path / "cache", kind, key, data)
