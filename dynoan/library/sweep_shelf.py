"""The sweeps of a library: kept, found, corrected, taken out."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from threading import get_ident

from dynoan.errors import LibraryError, LookupFault, QuantityError
from dynoan.library import files, names
from dynoan.library.folder import Folder, now
from dynoan.library.incoming import sound_sweep
from dynoan.library.index import Fault, Scan, read_record, scan, sweep_names
from dynoan.library.soundness import hold_sound
from dynoan.library.sweep_card import SweepRecord
from dynoan.library.sweep_file import MAX_CARD, MAX_FILE, Kept, LaterFormat, decode, encode, read_card
from dynoan.model.dates import iso_date
from dynoan.model.sweep import Sweep
from dynoan.model.warned import OF_DATES

COLDEST, HOTTEST = -60.0, 400.0  #: of a shock on a rig, as typed [°C]; common practice, no source
SHORTEST_ID, LONGEST_ID = 10, 64
_ID = re.compile(r"[0-9a-f]{1,64}")


def shock_temperature(celsius: float) -> float:
    """Return a temperature, such as a shock may have. [°C]

    Raises
    ------
    QuantityError
        If no shock is so cold or so hot.
    """
    if not COLDEST <= celsius <= HOTTEST:
        raise QuantityError(f"{celsius:g} °C is no shock's", hint="check the number and its unit", part="temperature")
    return celsius


@dataclass(frozen=True)
class Added:
    """The id of a sweep that was given to the library, and whether it was new to it."""

    id: str
    new: bool


class SweepShelf(Folder):
    """The sweeps in a library's folder. What is reported as kept is on the disk, whole."""

    _batch: int | None = None  #: the thread whose additions are synced together; those of others are synced one by one

    @property
    def _sweeps(self) -> Path:
        return self.path / "sweeps"

    def records(self) -> tuple[SweepRecord, ...]:
        """Return every sweep in the library, in order of id, from the cached index where that is fresh.

        Files that cannot be listed are left out; `faults` names them.
        """
        return self.listed().records

    def faults(self) -> tuple[Fault, ...]:
        """Return the sweep files that cannot be listed, and why."""
        return self.listed().faults

    def listed(self) -> Scan:
        """Return both `records` and `faults`, looking at the folder once."""
        self._be_there()
        return scan(self._sweeps, self.path / "cache")

    def record(self, sweep_id: str) -> SweepRecord:
        """Return one sweep's record; a unique beginning of its id is enough."""
        return read_record(self._find(sweep_id))

    def full_id(self, sweep_id: str) -> str:
        """Return the whole id that begins so; its file need not be sound."""
        return self._find(sweep_id).stem

    def load(self, sweep_id: str) -> Sweep:
        """Return a sweep; a unique beginning of its id is enough.

        Raises
        ------
        LookupFault
            If no sweep, or more than one, has an id that begins so.
        LibraryError
            If its file is damaged or of a later format.
        """
        return self._kept(self._find(sweep_id)).sweep

    def original(self, sweep_id: str) -> bytes:
        """Return the bytes of the rig's file that a sweep came from, as they were."""
        return self._kept(self._find(sweep_id)).original

    def sweep_bytes(self, record: SweepRecord) -> bytes:
        """Return the bytes of a sweep's file; `LookupFault` where it is gone, `LibraryError` where it is unreadable."""
        return self._read(self.path / record.file)

    def hold_sound(self, records: Iterable[SweepRecord]) -> None:
        """Raise `LibraryError` where a sweep's file is damaged; what is remembered of unchanged files is believed."""
        hold_sound(self._sweeps, [Path(r.file).name for r in records], self.path / "cache", self._read)

    def add(self, sweep: Sweep, original: bytes) -> Added:
        """Keep a sweep with the bytes it came from; durable on return, except inside `batch`.

        A sweep whose original bytes and part the library already holds is not added again.

        Raises
        ------
        LibraryError
            If the sweep cannot be written.
        CallError, QuantityError
            If its names, clicks or numbers cannot be kept.
        """
        if hashlib.sha256(original).hexdigest() != sweep.source.sha256:
            raise LibraryError(
                "its bytes do not match its SHA-256", where=sweep.source.name, hint="read the file again"
            )
        sound = sound_sweep(sweep)
        self._be_there()
        if not self._sweeps.exists():  # a sync tool may drop empty folders
            files.make_folder(self._sweeps)
        data: bytes | None = None
        for sweep_id in _ids(sound):
            path = self._sweeps / f"{sweep_id}.h5"
            if not path.exists():
                if data is None:
                    data = encode(Kept(sound, original, now()))
                if files.write_new(path, data, sync=self._batch != get_ident()):
                    return Added(sweep_id, new=True)
            if self._holds(path, sound):
                return Added(sweep_id, new=self._mended(path, sound, original))
        raise LibraryError("no free id is left for it", where=sweep.source.name)  # 2^256 ids: not in this universe

    def would_keep(self, sweep: Sweep, original: bytes) -> tuple[SweepRecord, bytes]:
        """Return the record and the file that `add` would make of a sweep, where no other sweep's id begins so.

        Raises
        ------
        CallError, QuantityError
            If its names, clicks or numbers cannot be kept.
        """
        sound = sound_sweep(sweep)
        sweep_id = next(_ids(sound))
        data = encode(Kept(sound, original, now()))
        return read_card(data[:MAX_CARD], f"sweeps/{sweep_id}.h5", sweep_id), data

    def _holds(self, path: Path, sweep: Sweep) -> bool:
        """Tell whether a file is for the same part of the same bytes, as far as can be told of a damaged one."""
        try:
            record = read_record(path)
        except LaterFormat:
            raise
        except LibraryError:
            return True
        return (record.sha256, record.part) == (sweep.source.sha256, sweep.source.part)

    def _mended(self, path: Path, sweep: Sweep, original: bytes) -> bool:
        """Write a sweep's file anew where the one that is there is damaged; tell whether that was so."""
        with files.locked(self.path / files.LOCK):
            try:
                self._kept(path)
            except LaterFormat:
                raise
            except LibraryError:
                files.replace(path, encode(Kept(sweep, original, now())))
                return True
        return False

    @contextmanager
    def batch(self) -> Iterator[None]:
        """Add many sweeps with one sync of the folder at the end; they are durable when the block is left."""
        self._batch = get_ident()
        try:
            yield
        finally:
            self._batch = None
            files.sync_folder(self._sweeps)

    def edit(
        self, sweep_id: str, *, shock: str | None = None, pack: str | None = None,
        clicks: Mapping[str, int] | None = None, date: str | None = None, temperature: float | None = None,
    ) -> SweepRecord:  # fmt: skip
        """Correct what a sweep says of itself; its id, channels and original bytes stay. Empty text takes a fact away.

        The whole file is written anew and put in place in one step: the file stays the one place that holds the sweep,
        so that copying it copies the correction, and a crash leaves the old file or the new one.
        """
        given = {"shock": shock, "pack": pack, "date": iso_date(date, "date") if date else date}
        changes: dict[str, object] = {key: value or None for key, value in given.items() if value is not None}
        if clicks is not None:
            changes["clicks"] = dict(clicks)
        if temperature is not None:
            changes["temperature"] = shock_temperature(temperature)
        path = self._find(sweep_id)
        with files.locked(self.path / files.LOCK):  # or two edits at once would undo one another
            kept = self._kept(path)
            if date:
                changes["warnings"] = tuple(text for text in kept.sweep.warnings if OF_DATES not in text)
            sweep = sound_sweep(replace(kept.sweep, **changes))  # type: ignore[arg-type]
            data = encode(replace(kept, sweep=sweep))
            files.replace(path, data)
        return read_card(data[:MAX_CARD], f"sweeps/{path.name}", path.stem)

    def remove(self, sweep_id: str) -> None:
        """Take a sweep out of the library for good."""
        path = self._find(sweep_id)
        with files.locked(self.path / files.LOCK):  # or an edit under way would bring it back
            if not files.remove(path):
                raise LookupFault(f"sweep {path.stem} is no longer in the library", hint="another process took it out")

    def _find(self, sweep_id: str) -> Path:
        wanted = sweep_id.strip().lower()
        if _ID.fullmatch(wanted):
            exact = self._sweeps / f"{wanted}.h5"
            if exact.is_file():
                return exact
            found = [name for name in sweep_names(self._sweeps) if name.startswith(wanted)]
            if len(found) == 1:
                return self._sweeps / found[0]
            if found:
                some = ", ".join(name[:-3] for name in found[:3])
                raise LookupFault(f"'{wanted}' begins {len(found)} ids ({some}, …)", hint="give more of it")
        raise LookupFault(f"no sweep '{names.printable(sweep_id[:40])}' in the library", hint="see: dynoan sweeps")

    def _read(self, path: Path) -> bytes:
        try:
            return files.read_bounded(path, MAX_FILE)
        except LibraryError:
            if not path.exists():
                raise LookupFault(f"sweep {path.stem} is no longer in the library", hint="see: dynoan sweeps") from None
            raise

    def _kept(self, path: Path) -> Kept:
        return decode(self._read(path), f"sweeps/{path.name}")

    def verify(self, name: str) -> Kept:
        """Return the whole content of a sweep file by its file name, every checksum held."""
        return self._kept(self._sweeps / name)


def _ids(sweep: Sweep) -> Iterator[str]:
    """Yield the ids a sweep may have: what it came from, as short as other sweeps allow."""
    digest = hashlib.sha256(f"{sweep.source.sha256}\n{sweep.source.part}".encode("utf-8", "surrogatepass")).hexdigest()
    for length in range(SHORTEST_ID, LONGEST_ID + 1, 2):
        yield digest[:length]
