"""Verifying a library, file by file."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from dynoan.errors import DynoanError, QuantityError
from dynoan.library import caching, copies, marker
from dynoan.library.faults import TextFault
from dynoan.library.index import Fault, copy_of, strays, sweep_names
from dynoan.library.sweep_card import SweepRecord
from dynoan.library.sweep_file import Kept
from dynoan.model.dates import iso_date

_TEXT_FOLDERS = ("cars", "shocks", "setups", "trials", "layouts")


class Checkable(Protocol):
    """What checking asks of a library: to read every kind of file it holds, and to raise where one is faulty."""

    @property
    def path(self) -> Path:
        """The library's folder."""
        ...

    def verify(self, name: str) -> Kept:
        """Return the whole content of a sweep file, every checksum held."""
        ...

    def record(self, sweep_id: str) -> SweepRecord:
        """Return a sweep's card."""
        ...

    def text_names(self, folder: str) -> tuple[str, ...]:
        """Return the names of the text files in a folder."""
        ...

    def car(self, name: str) -> object:
        """Read a car file."""
        ...

    def shock(self, name: str) -> object:
        """Read a shock file."""
        ...

    def text_faults(self, kind: str, name: str) -> tuple[TextFault, ...]:
        """Return everything that is wrong with a "car" or a "shock" file."""
        ...

    def setup(self, name: str) -> object:
        """Read a setup file."""
        ...

    def trial(self, name: str) -> object:
        """Read a trial's file."""
        ...

    def layout(self, name: str) -> object:
        """Read a layout file."""
        ...


@dataclass(frozen=True)
class CheckReport:
    """How many files were verified, and what is wrong with which."""

    files: int
    faults: tuple[Fault, ...]


def check(library: Checkable) -> CheckReport:
    """Read every file of a library and say what is wrong, and what to do about it."""
    damaged = list(caching.damaged(library.path / "cache"))  # first, since reading makes some of them anew
    jobs = [*_sweeps(library), *_texts(library)]
    faults = [fault for file, job in jobs if (first := _try(file, job)) for fault in _all(library, first)]
    faults += [Fault(f"sweeps/{name}", "no sweep file; move it out of the library") for name in
               strays(library.path / "sweeps")]  # fmt: skip
    faults += [Fault(file, f"{copies.ADVICE}; {copies.HINT}") for file in _other_copies(library.path)]
    faults += [Fault(f"{folder}/{name}.toml", f"this {copies.ALIKE.format(f'{other}.toml')}; {copies.HINT_ALIKE}")
               for folder in _TEXT_FOLDERS
               for name, other in copies.alike(library.text_names(folder)).items()]  # fmt: skip
    faults += [Fault(f"cache/{file}", "damaged, so it is not used; delete it: it is made anew")
               for file in damaged]  # fmt: skip
    return CheckReport(len(jobs) + 1, tuple(faults))


def _all(library: Checkable, first: Fault) -> list[Fault]:
    """Return all faults of a car or shock file whose reading stopped at a first one; that alone of any other file."""
    folder, _, name = first.file.partition("/")
    if folder not in ("cars", "shocks"):
        return [first]
    try:
        found = library.text_faults(folder[:-1], name.removesuffix(".toml"))
    except (DynoanError, OSError):
        return [first]
    return [Fault(first.file, str(fault)) for fault in found] or [first]


def _sweeps(library: Checkable) -> Iterator[tuple[str, Callable[[], object]]]:
    for name in sweep_names(library.path / "sweeps"):
        yield f"sweeps/{name}", lambda name=name: _sweep(library, name)  # type: ignore[misc]


def _sweep(library: Checkable, name: str) -> None:
    if copied := copy_of(name):
        library.verify(name)
        raise DynoanError(copied, where=f"sweeps/{name}")
    sweep, card = library.verify(name).sweep, library.record(name[:-3])
    if (card.shock, card.pack, dict(card.clicks)) != (sweep.shock, sweep.pack, dict(sweep.clicks)):
        raise DynoanError(
            "its card and its record differ", where=f"sweeps/{name}", hint=f"put it right with: dynoan edit {name[:-3]}"
        )
    try:
        if card.date is not None:
            iso_date(card.date)
    except QuantityError as error:
        mend = f"put it right with: dynoan edit {name[:-3]} --date DATE"
        raise DynoanError(error.text, where=f"sweeps/{name}", hint=mend) from None


def _texts(library: Checkable) -> Iterator[tuple[str, Callable[[], object]]]:
    readers: dict[str, Callable[[str], object]] = {
        "cars": library.car, "shocks": library.shock, "setups": library.setup, "trials": library.trial,
        "layouts": library.layout,
    }  # fmt: skip
    for folder, reader in readers.items():
        names = library.text_names(folder)
        for name in names:
            yield f"{folder}/{name}.toml", lambda r=reader, n=name, b=names: _text(r, n, b)  # type: ignore[misc]


def _text(reader: Callable[[str], object], name: str, beside: tuple[str, ...]) -> None:
    reader(name)
    copies.hold_single(name, beside, reader)


def _other_copies(library: Path) -> Iterator[str]:
    """Yield the conflict copies that no reader meets: those with another ending, and of the library's own file."""
    for folder in ("", *_TEXT_FOLDERS):
        with suppress(OSError):
            for name in sorted(os.listdir(library / folder)):
                if copies.is_conflict(name) and not name.endswith(".toml") if folder else _of_marker(name):
                    yield f"{folder}/{name}".lstrip("/")


def _of_marker(name: str) -> bool:
    """Tell whether a file beside the library's own is a conflict copy of it."""
    return marker.NAME.removesuffix(".toml") in name and copies.is_conflict(name)


def _try(file: str, job: Callable[[], object]) -> Fault | None:
    try:
        job()
    except DynoanError as error:
        named = error.said.place.file
        # A link is opened by its whole path; what is listed names the file already.
        mine = named == file or named.endswith(f"{os.sep}{file}")
        text = error.said.within if mine else str(error)
        return Fault(file, text.removeprefix(file).lstrip(": ,") or str(error))
    except (OSError, MemoryError) as error:
        text = str(error) or type(error).__name__
        return Fault(file, text.removeprefix(file).removeprefix(os.sep).lstrip(": ,") or text)
    return None
