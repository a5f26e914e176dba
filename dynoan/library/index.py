"""The list of all sweeps: read from the files' cards, remembered in a cache that may be deleted at any time.

A remembered card counts only while its file has the same name, size and times of change. Files changed within the last
seconds are not remembered, since a disk's clock is too coarse to tell two quick changes apart.
"""

from __future__ import annotations

import json
import os
import re
import time
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from dynoan.errors import LibraryError
from dynoan.library.caching import cache, cached
from dynoan.library.files import LOCK, TEMPORARY, read_bounded, sweep_temporary
from dynoan.library.sweep_card import SweepRecord, record_of, values_of
from dynoan.library.sweep_file import HEAD, MAX_CARD, MAX_FILE, hold_seal, is_sealed, read_card

KIND, KEY = "index", "sweeps, format 3"
_SWEEP = re.compile(r"[0-9a-f]{10,64}\.h5")
_COPIED = re.compile(r"[0-9a-f]{10,64}(?![0-9a-f])")
SETTLED = 3 * 10**9  #: age from which a time of change is trusted [ns]; FAT counts in steps of 2 s
_EARLIER = "index.json"  #: where earlier versions kept it, without a checksum


@dataclass(frozen=True)
class Fault:
    """A file of the library and what is wrong with it."""

    file: str
    fault: str


@dataclass(frozen=True)
class Scan:
    """All sweeps that can be listed, and the files that cannot."""

    records: tuple[SweepRecord, ...]
    faults: tuple[Fault, ...]


class _Entry(NamedTuple):
    name: str
    size: int
    changed: int  #: the content, as the disk says [ns]
    touched: int  #: content or name or rights, which nothing but the disk's own clock sets [ns]


def scan(sweeps: Path, caches: Path) -> Scan:
    """Return every sweep in a folder, in order of id, reading only what is new or changed since the last time."""
    remembered = _load(caches)
    known: dict[str, Any] = {}
    records, faults, fresh = [], [], False
    newest = time.time_ns() - SETTLED
    for entry in _entries(sweeps):
        if copied := copy_of(entry.name):
            faults.append(Fault(f"sweeps/{entry.name}", copied))
            continue
        row = remembered.get(entry.name)
        record = _recalled(row, entry)
        if record is None:
            row, fresh = None, True
            try:
                record = read_record(sweeps / entry.name)
            except LibraryError as error:
                faults.append(Fault(f"sweeps/{entry.name}", error.within))
                continue
            if max(entry.changed, entry.touched) < newest:
                row = [*entry[1:], *values_of(record)]
        if row is not None:
            known[entry.name] = row
        records.append(record)
    if fresh or len(known) != len(remembered):
        _save(caches, known)
    return Scan(tuple(records), tuple(faults))


def sweep_names(sweeps: Path) -> list[str]:
    """Return the names of the sweep files in a folder, in order; temporary files of dead writers are swept."""
    try:
        names = os.listdir(sweeps)
    except FileNotFoundError:
        return []
    except OSError as error:
        raise LibraryError(f"cannot be listed ({error.strerror})", where=sweeps, hint="check the disk") from None
    sweep_temporary(sweeps, names)
    return sorted(n for n in names if n.endswith(".h5") and not n.startswith((TEMPORARY, ".")))


def copy_of(name: str) -> str:
    """Return what to do about a sweep file that is another one's copy by its name, empty where it is none.

    Sync tools put a copy such as "3ad0910c2e (conflicted copy).h5" beside a file that two machines changed. Both are
    the same sweep, so the copy must not count as a second run.
    """
    if _SWEEP.fullmatch(name):
        return ""
    of = _COPIED.match(name)
    which = f"{of[0]}.h5" if of else "the other files"
    return (f"a copy, as sync tools make of a file that two machines changed; compare it with {which}, keep the right "
            "one under that name, and move the other out of the library")  # fmt: skip


def strays(sweeps: Path) -> list[str]:
    """Return what lies among the sweeps and is none: neither a sweep file nor one in the making."""
    with suppress(OSError):
        names = os.listdir(sweeps)
        return sorted(n for n in names if not n.endswith(".h5") and not n.startswith(TEMPORARY) and n != LOCK)
    return []


def _entries(sweeps: Path) -> list[_Entry]:
    entries = []
    folder = str(sweeps)
    for name in sweep_names(sweeps):
        try:
            status = os.stat(f"{folder}{os.sep}{name}")
        except OSError:  # removed by another process since it was listed
            continue
        entries.append(_Entry(name, status.st_size, status.st_mtime_ns, status.st_ctime_ns))
    return entries


def _recalled(row: Any, entry: _Entry) -> SweepRecord | None:
    try:
        if row is None or tuple(row[:3]) != entry[1:]:
            return None
        return record_of(row[3:], entry.name[:-3], f"sweeps/{entry.name}")
    except (KeyError, TypeError, ValueError, IndexError, AttributeError):
        return None


def read_record(path: Path) -> SweepRecord:
    """Return a sweep's line in the list, reading no more of its file than a card that is sealed by itself.

    Raises
    ------
    LibraryError
        If the card cannot be read, or it or the file is damaged.
    """
    file = f"sweeps/{path.name}"
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        try:
            head = os.read(handle, HEAD)
            if head.count(b"\n", 0, HEAD) < 2 and len(head) == HEAD:
                head += os.read(handle, MAX_CARD - HEAD)
        finally:
            os.close(handle)
    except OSError as error:
        raise LibraryError(f"cannot be read ({error.strerror})", where=path.name) from None
    if not is_sealed(head, file):
        hold_seal(read_bounded(path, MAX_FILE), file)
    return read_card(head, file, path.stem)


def _load(caches: Path) -> dict[str, Any]:
    with suppress(ValueError, RecursionError, TypeError):
        return dict(json.loads(bytes(cached(caches, KIND, KEY) or b"{}")))
    return {}


def _save(caches: Path, known: dict[str, Any]) -> None:
    cache(caches, KIND, KEY, json.dumps(known, separators=(",", ":")).encode())
    with suppress(OSError):
        (caches / _EARLIER).unlink()
