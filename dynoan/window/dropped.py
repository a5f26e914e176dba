"""Files that were dropped and are not kept yet: they lie in the library's caches, so that no reload loses them."""

from __future__ import annotations

import hashlib
import json
import os
import re
import threading
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.errors import CallError, DynoanError, LibraryError
from dynoan.jobs.read.look import Brought, LookAnswer, LookQuestion, answer
from dynoan.library import files, marker
from dynoan.library.disk_faults import fault_of
from dynoan.window.described import ENDING
from dynoan.window.dropped_file import DroppedFile, SaidOfFile, card_dict, card_from, seal_of, shown_name

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

MOST_FILES = 500  #: that may lie here at once; a season of a team is fewer
MOST_BYTES = 2 << 30  #: of all of them together
MOST_LOOKED = 16 << 20  #: bytes of files whose rows are kept in memory
MOST_ASIDE = 200 << 20  #: bytes of files taken off that can be laid here again
MOST_CARD = 1 << 16  #: bytes of a card
ASIDE = ".off"
_ID = re.compile(r"[0-9a-f]{16}")


def _id_of(name: str, data: bytes) -> str:
    """Return what tells a file from others: its bytes, and of a text that describes a car or a shock its name too.

    A run is the same under any name; four shocks of one make have one text under four names.
    """
    named = name.casefold() if name.casefold().endswith(ENDING) else ""
    return hashlib.sha256(named.encode() + data).hexdigest()[:16]


class Dropped:
    """All of them, on the disk: each file's bytes, and beside it what is said of it."""

    def __init__(self, library: Path, place: str = "dropped") -> None:
        self._folder = library / "cache" / place
        self._lock = threading.RLock()
        self._looked: dict[str, tuple[str, LookAnswer]] = {}  #: the rows of a few

    def files(self) -> list[DroppedFile]:
        """Return what lies here, in the order in which it came; what cannot be read is left out."""
        try:
            names = os.listdir(self._folder)
        except OSError:
            return []
        files.sweep_temporary(self._folder, names)
        found = [self._card(name[:-5]) for name in names if name.endswith(".json") and _ID.fullmatch(name[:-5])]
        return sorted((f for f in found if f is not None), key=lambda f: (f.order, f.name))

    def mark(self) -> str:
        """Return a mark of what lies here and of what is said of it: another one means that something changed."""
        with suppress(OSError), os.scandir(self._folder) as found:
            cards = sorted((e.name, e.stat().st_mtime_ns) for e in found if e.name.endswith(".json"))
            return hashlib.sha256(repr(cards).encode()).hexdigest()[:16] if cards else ""
        return ""

    def get(self, file_id: str) -> DroppedFile:
        """Return one of them.

        Raises
        ------
        CallError
            If it is not here (any more).
        """
        found = self._card(file_id) if _ID.fullmatch(file_id) else None
        if found is None:
            raise CallError(
                "that file is not on the table any more", hint="it was kept or taken off, perhaps in another tab"
            )
        return found

    def put(self, name: str, data: bytes, order: float) -> DroppedFile:
        """Lay a file here; one that lies here already stays as it is.

        Raises
        ------
        CallError
            If it is empty, or there are too many.
        LibraryError
            If the disk refuses it.
        """
        if not data:
            raise CallError("an empty file", where=shown_name(name))
        file_id = _id_of(shown_name(name), data)
        with self._lock:
            if self._card(file_id) is not None:
                return self.get(file_id)
            lying = self._sizes()
            if len(lying) >= MOST_FILES or sum(lying) + len(data) > MOST_BYTES:
                much = f"{MOST_FILES} files or {MOST_BYTES >> 30} GB"
                raise CallError(f"{much} lie here, as much as is taken at once: keep or take off some of them first")
            marker.make_folder(self._folder.parents[1], self._folder)
            files.replace(self._folder / f"{file_id}.bin", data)
            made = DroppedFile(file_id, shown_name(name), len(data), SaidOfFile(), order)
            self._write(made)
        return made

    def state(self, file_id: str, facts: SaidOfFile) -> DroppedFile:
        """Say something of a file in the place of what was said before.

        Raises
        ------
        CallError
            If it is not here any more.
        """
        with self._lock:
            old = self.get(file_id)
            made = DroppedFile(old.id, old.name, old.size, facts, old.order)
            self._write(made)
        return made

    def set_aside(self, file_ids: Iterable[str]) -> list[str]:
        """Take files off so that they can be laid here again; return which of them were here."""
        self._clear_aside()
        with self._lock:
            gone = [i for i in file_ids if _ID.fullmatch(i) and self._card(i) is not None]
            for file_id in gone:
                self._move(file_id, (("bin", f"bin{ASIDE}"), ("json", f"json{ASIDE}")))
        return gone

    def lay_again(self, file_ids: Iterable[str]) -> int:
        """Lay files here again with what was said of them; return of how many nothing is left."""
        lost = 0
        with self._lock:
            for file_id in filter(_ID.fullmatch, file_ids):
                if self._card(file_id) is None:
                    self._move(file_id, ((f"json{ASIDE}", "json"), (f"bin{ASIDE}", "bin")))
                    lost += self._card(file_id) is None
        return lost

    def _move(self, file_id: str, ways: Iterable[tuple[str, str]]) -> None:
        """Give a file's bytes and card other names; a card without bytes counts as not there, so the order matters."""
        for old, new in ways:
            path = self._folder / f"{file_id}.{old}"
            try:
                path.replace(self._folder / f"{file_id}.{new}")
            except FileNotFoundError:
                return
            except OSError as error:
                raise fault_of(error, path) from None

    def _clear_aside(self) -> None:
        """Forget what was set aside longest, so that no more than `MOST_ASIDE` bytes of it lie on the disk."""
        with suppress(OSError):
            lying = [(p.stat(), p) for p in self._folder.glob(f"*.bin{ASIDE}")]
            kept = 0
            for how, path in sorted(lying, key=lambda one: one[0].st_ctime_ns, reverse=True):
                kept += how.st_size
                if kept > MOST_ASIDE:
                    path.unlink()
                    path.with_name(path.name.replace(".bin", ".json")).unlink(missing_ok=True)

    def take_off(self, file_id: str) -> None:
        """Take a file away for good; what is not here is no fault."""
        if _ID.fullmatch(file_id):
            for suffix in (".json", ".bin"):
                with suppress(DynoanError):
                    files.remove(self._folder / f"{file_id}{suffix}")
            self._looked.pop(file_id, None)

    def brought(self, file: DroppedFile) -> Brought:
        """Return a file with its bytes.

        Raises
        ------
        DynoanError
            If it is gone, or what is said of it cannot be.
        """
        return file.facts.brought(file.name, self.data(file))

    def data(self, file: DroppedFile) -> bytes:
        """Return a file's bytes.

        Raises
        ------
        LibraryError
            If it is gone or damaged.
        """
        data = files.read_bounded(self._folder / f"{file.id}.bin", MOST_BYTES)
        if _id_of(file.name, data) != file.id:
            raise LibraryError("damaged on the disk", where=file.name, hint="drop it again")
        return data

    def look(self, bench: Workbench, file: DroppedFile) -> LookAnswer:
        """Return what is in a file; what was looked at before is remembered."""
        key = repr((file.facts, bench.layouts()))
        known = self._looked.get(file.id)
        if known is not None and known[0] == key:
            return known[1]
        try:
            found = answer(bench, LookQuestion(self.brought(file)))
        except DynoanError as error:
            return LookAnswer(question=LookQuestion(Brought(file.name, b"")), error=str(error))
        self._looked[file.id] = (key, found)
        while sum(len(one.question.brought.data) for _, one in list(self._looked.values())) > MOST_LOOKED:
            self._looked.pop(next(iter(self._looked)), None)
        return found

    def _sizes(self) -> list[int]:
        """Return how large each file here is, without a look at its card: so many may be dropped at once. [bytes]"""
        with suppress(OSError), os.scandir(self._folder) as found:
            lying = {entry.name: entry for entry in found}
            cards = (name[:-5] for name in lying if name.endswith(".json") and _ID.fullmatch(name[:-5]))
            return [lying[f"{card}.bin"].stat().st_size for card in cards if f"{card}.bin" in lying]
        return []

    def _card(self, file_id: str) -> DroppedFile | None:
        whole = self._folder / f"{file_id}.bin"
        if not whole.is_file():
            return None
        try:
            data = json.loads(files.read_bounded(self._folder / f"{file_id}.json", MOST_CARD))
        except (DynoanError, ValueError, RecursionError):
            data = None
        # Earlier versions wrote no seal.
        if isinstance(data, dict) and data.pop("seal", None) in (None, seal_of(data)):
            return card_from(data, file_id)
        name = data.get("name") if isinstance(data, dict) else None
        told = f"{shown_name(str(name or 'a file'))} (what was said of it is damaged: say it again)"
        return DroppedFile(file_id, told, whole.stat().st_size, SaidOfFile(), 0.0)

    def _write(self, file: DroppedFile) -> None:
        card = card_dict(file)
        files.replace(self._folder / f"{file.id}.json", json.dumps(card | {"seal": seal_of(card)}).encode())
