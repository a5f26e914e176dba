"""Verifying a library, file by file."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dynoan.errors import DynoanError
from dynoan.library.index import Fault, strays, sweep_names

if TYPE_CHECKING:
    from dynoan.library.store import Library


@dataclass(frozen=True)
class CheckReport:
    """How many files were verified, and what is wrong with which."""

    files: int
    faults: tuple[Fault, ...]


def check(library: Library) -> CheckReport:
    """Read every file of a library and say what is wrong, and what to do about it."""
    jobs = [*_sweeps(library), *_texts(library)]
    faults = [fault for file, job in jobs if (fault := _try(file, job))]
    faults += [Fault(f"sweeps/{name}", "no sweep file; move it out of the library") for name in
               strays(library.path / "sweeps")]  # fmt: skip
    return CheckReport(len(jobs) + 1, tuple(faults))


def _sweeps(library: Library) -> Iterator[tuple[str, Callable[[], object]]]:
    for name in sweep_names(library.path / "sweeps"):
        yield f"sweeps/{name}", lambda name=name: _sweep(library, name)  # type: ignore[misc]


def _sweep(library: Library, name: str) -> None:
    sweep, card = library.verify(name).sweep, library.record(name[:-3])
    if (card.shock, card.pack, dict(card.clicks)) != (sweep.shock, sweep.pack, dict(sweep.clicks)):
        raise DynoanError(f"sweeps/{name}: its card and its record differ; put it right with: dynoan edit {name[:-3]}")


def _texts(library: Library) -> Iterator[tuple[str, Callable[[], object]]]:
    readers: dict[str, Callable[[str], object]] = {
        "cars": library.car, "shocks": library.shock, "setups": library.setup, "layouts": library.layout,
    }  # fmt: skip
    for folder, reader in readers.items():
        for name in library.text_names(folder):
            yield f"{folder}/{name}.toml", lambda r=reader, n=name: r(n)  # type: ignore[misc]


def _try(file: str, job: Callable[[], object]) -> Fault | None:
    try:
        job()
    except (DynoanError, OSError, MemoryError) as error:
        text = str(error) or type(error).__name__
        return Fault(file, text.removeprefix(file).removeprefix(os.sep).lstrip(": ,") or text)
    return None
