"""The library at hand: opened once, and looked at anew when somebody else changed it."""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from zlib import crc32

from dynoan.library import Library
from dynoan.units import Shown
from dynoan.window.working import Work
from dynoan.workbench import Workbench

TEXTS = ("cars", "shocks", "setups", "layouts", "trials")
#: so long each sweep's file is believed to be as it was, where none came, went or was replaced: ten thousand take 60 ms
#: to look at [s]; and longer by as much as looking took longer than this, or a page of a huge library looks several
#: times [s]
BELIEVED, BELIEVED_LOOK = 1.0, 0.1


class LibraryAtHand:
    """A library, its workbench for one question at a time, and what was found out of it as it stands."""

    def __init__(self, library: Library) -> None:
        self.path = library.path
        self.units: Shown = library.units
        self.faults: dict[str, str] = {}  #: why a pack has no click map
        self.notes: list[str] = []  #: what is wrong with the library's files
        self.remembered: dict[str, Any] = {}  #: answers that hold as long as the library is as it is
        self._bench = Workbench(library, self._note)
        self._bench.pieces = False
        self._looked = (0, 0.0, 0)  #: when the sweeps' folder was changed, until when they are believed, their mark
        self._stamp = self.stamp()
        self._lock = threading.RLock()

    def _note(self, text: str) -> None:
        if text not in self.notes:
            self.notes.append(text)

    @property
    def library(self) -> Library:
        """The library."""
        return self._bench.library

    @contextmanager
    def bench(self) -> Iterator[Workbench]:
        """Return the workbench for one question, the library as it is now; one question at a time."""
        with self._lock:
            now = self.stamp()
            if now != self._stamp:
                self._stamp = now
                self._bench.forget()
                self.faults.clear()
                self.notes.clear()
                self.remembered.clear()
            yield self._bench

    def own_bench(self, work: Work, *, tells: bool = True) -> Workbench:
        """Return a workbench for long work, so that clicks need not wait for it; it may tell the work's steps."""
        library = Library(self.path)
        return Workbench(library, lambda _: None, work.progress) if tells else Workbench(library, lambda _: None)

    def packs(self) -> tuple[str, ...]:
        """Return the names of all packs that have a sweep."""
        with self.bench() as bench:
            found: tuple[str, ...] = self.remembered.setdefault("packs", _named(r.pack for r in bench.records))
        return found

    def shocks(self) -> tuple[str, ...]:
        """Return the names of all shocks that have a file or a sweep."""
        with self.bench() as bench:
            tested = self.remembered.setdefault("shocks", _named(r.shock for r in bench.records))
            return tuple(sorted({*tested, *bench.library.text_names("shocks")}))

    def stamp(self) -> str:
        """Return a mark of the library as it stands on the disk: another one means that something changed."""
        return "-".join(f"{m:x}" for m in (self._sweeps(), *(_mark(self.path / folder, ".toml") for folder in TEXTS)))

    def _sweeps(self) -> int:
        """Return a mark of the sweeps.

        The folder tells what came and went; a copy or a sync tool may write a file in its place, which it does not.
        """
        folder, now = self.path / "sweeps", time.monotonic()
        changed, (before, believed, mark) = _changed(folder), self._looked
        if changed != before or now >= believed:
            mark, end = _mark(folder, ".h5"), time.monotonic()
            self._looked = (changed, end + BELIEVED * max(1.0, (end - now) / BELIEVED_LOOK), mark)
        return (changed + mark) & _BITS


_BITS = 0xFFFFFFFFFFFF


def _named(names: Iterable[str | None]) -> tuple[str, ...]:
    return tuple(sorted({name for name in names if name}))


def _changed(path: Path) -> int:
    try:
        return path.stat().st_mtime_ns
    except OSError:
        return 0


def _mark(folder: Path, ending: str) -> int:
    """Return a mark of the files in a folder that end so, the same in every process."""
    try:
        with os.scandir(folder) as found:
            marks = [(e.name, e.stat()) for e in found if e.name.endswith(ending)]
    except OSError:
        return 0
    return sum(s.st_size + s.st_mtime_ns * (1 + crc32(os.fsencode(name))) for name, s in marks) & _BITS
