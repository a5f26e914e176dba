"""What can be taken back, the last change on top: among the library's caches, so that it outlives a restart."""

from __future__ import annotations

import io
import json
import os
import re
import time
import zipfile
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from dynoan.errors import CallError, DynoanError
from dynoan.jobs.undo import LibraryChange
from dynoan.library import files, marker
from dynoan.library.names import printable
from dynoan.library.sweep_file import MAX_FILE

MOST_CHANGES, MOST_REMEMBERED = 100, 200 << 20  #: that can be taken back; what lay there before, of all [bytes]
_NAME = re.compile(r"(\d{16,20})\.zip")
#: where a change may lie: a library from a stick must not name other places
_PLACE = re.compile(r"(?:dynoan|(?:cars|shocks|setups|trials|layouts)/[^/\\]+)\.toml|sweeps/[0-9a-f]+\.h5")
_CARD, MOST_CARD, MOST_WORDS = "change.json", 4 << 20, 300
#: what reading a damaged one may raise; a flag that says encrypted, or a later version of ZIP, is a `RuntimeError`
_DAMAGED = (
    DynoanError, OSError, zipfile.BadZipFile, ValueError, KeyError, TypeError, AttributeError, RuntimeError, EOFError,
    OverflowError,
)  # fmt: skip


@dataclass(frozen=True)
class Undoable:
    """A change, what is done after it was taken back, and what that needs to know."""

    change: LibraryChange
    then: str = ""  #: its name, see `Desk.thens`; empty: nothing
    facts: Mapping[str, Any] | None = None  #: for it, as JSON holds them


@dataclass(frozen=True)
class _Lying:
    words: str
    size: int
    path: Path | None  #: None: in memory alone
    held: Undoable | None = None


class UndoShelf:
    """All of them."""

    def __init__(self, library: Path) -> None:
        self._folder = library / "cache" / "undo"
        self._lying = _found(self._folder)

    @property
    def last(self) -> str | None:
        """The last change in words; None where there is none."""
        return self._lying[-1].words if self._lying else None

    def put(self, one: Undoable) -> None:
        """Lay a change on top; where the disk refuses it, it is remembered until the window ends."""
        self._lying.append(self._kept(one))
        while len(self._lying) > 1 and (
            len(self._lying) > MOST_CHANGES or sum(lying.size for lying in self._lying) > MOST_REMEMBERED
        ):
            _forget(self._lying.pop(0))

    def read(self) -> Undoable | None:
        """Return the last change, which stays on top until it is forgotten; None where there is none.

        Raises
        ------
        CallError
            If it was damaged on the disk; then it is gone.
        """
        if not self._lying:
            return None
        last = self._lying[-1]
        if last.path is None:
            return last.held
        try:
            return _read(files.read_bounded(last.path, MOST_REMEMBERED + MOST_CARD))
        except _DAMAGED:
            self.forget()
            raise CallError(f"not taken back ({last.words}): what lay there before cannot be read any more") from None

    def forget(self) -> None:
        """Take the last change off: it was taken back, or cannot be."""
        if self._lying:
            _forget(self._lying.pop())

    def _kept(self, one: Undoable) -> _Lying:
        words, size = one.change.words, one.change.size
        if size <= MOST_REMEMBERED:
            with suppress(DynoanError):
                marker.make_folder(self._folder.parents[1], self._folder)
                path = self._folder / f"{max(time.time_ns(), self._newest() + 1):020}.zip"
                files.replace(path, _written(one))
                return _Lying(words, size, path)
        return _Lying(words, size, None, one)

    def _newest(self) -> int:
        """Return the number of the last one on the disk: a clock that was set back must not change the order."""
        return max((int(lying.path.stem) for lying in self._lying if lying.path), default=0)


def _found(folder: Path) -> list[_Lying]:
    """Return what an earlier window left, oldest first; what cannot be read is named and can only be let go."""
    try:
        names = sorted(name for name in os.listdir(folder) if _NAME.fullmatch(name))
    except OSError:
        return []
    with suppress(DynoanError):
        files.sweep_temporary(folder, os.listdir(folder))
    out = []
    for name in names[-MOST_CHANGES:]:
        path, words, size = folder / name, "a change that cannot be read any more", 0
        with suppress(*_DAMAGED):
            size = path.stat().st_size
            with zipfile.ZipFile(path) as pack:
                words = printable(str(_card(pack)["words"]))[:MOST_WORDS]
        out.append(_Lying(f"{words}, {_day(int(name[:-4]))}", size, path))
    return out


def _day(number: int) -> str:
    """Return the day of a moment, empty where no calendar has it. [ns]"""
    with suppress(OverflowError, ValueError, OSError):
        return time.strftime("%Y-%m-%d", time.localtime(number / 1e9))
    return ""


def _forget(one: _Lying) -> None:
    if one.path is not None:
        with suppress(DynoanError):
            files.remove(one.path)


def _written(one: Undoable) -> bytes:
    before = {place: data for place, data in one.change.before.items() if data is not None}
    card = {
        "words": one.change.words, "after": dict(one.change.after), "none": sorted({*one.change.before} - {*before}),
        "before": list(before), "then": one.then, "facts": one.facts,
    }  # fmt: skip
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as pack:
        pack.writestr(_CARD, json.dumps(card))
        for number, data in enumerate(before.values()):
            pack.writestr(str(number), data)
    return out.getvalue()


def _card(pack: zipfile.ZipFile) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(_inside(pack, _CARD, MOST_CARD))
    return found


def _inside(pack: zipfile.ZipFile, name: str, most: int) -> bytes:
    info = pack.getinfo(name)
    if info.file_size > most or info.compress_type != zipfile.ZIP_STORED:
        raise ValueError(name)
    return pack.read(info)


def _read(data: bytes) -> Undoable:
    with zipfile.ZipFile(io.BytesIO(data)) as pack:
        card = _card(pack)
        before: dict[str, bytes | None] = dict.fromkeys(map(str, card["none"]))
        for number, place in enumerate(card["before"]):
            before[str(place)] = _inside(pack, str(number), MAX_FILE)
    after = {str(place): None if mark is None else str(mark) for place, mark in card["after"].items()}
    if before.keys() != after.keys() or not all(map(_PLACE.fullmatch, before)):
        raise ValueError("places")
    return Undoable(LibraryChange(str(card["words"])[:MOST_WORDS], before, after), str(card["then"]), card["facts"])
