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

from dynoan.errors import LibraryError
from dynoan.library.caching import cache, cached
from dynoan.library.files import LOCK, TEMPORARY, read_bounded, sweep_temporary
from dynoan.library.sweep_card import CARD_KINDS, SweepRecord, records_of, values_of
from dynoan.library.sweep_file import HEAD, MAX_CARD, MAX_FILE, hold_seal, is_sealed, read_card
from dynoan.library.uncollected import uncollected

KIND, KEY = "index", "sweeps, format 4"
_SWEEP = re.compile(r"[0-9a-f]{10,64}\.h5")
_SWEEPS = re.compile(rf"({_SWEEP.pattern}\n)*")
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


#: a file's name, its size, when its content was changed, as the disk says, and when content, name or rights were, which
#: nothing but the disk's own clock sets [ns]
_Entry = tuple[str, int, int, int]


def scan(sweeps: Path, caches: Path) -> Scan:
    """Return every sweep in a folder, in order of id, reading only what is new or changed since the last time."""
    with uncollected():  # a list makes no garbage, and a search through all its lines takes a fifth
        return _scan(sweeps, caches)


def _scan(sweeps: Path, caches: Path) -> Scan:
    remembered = _load(caches)
    known: dict[_Entry, SweepRecord] = {}
    records, faults, fresh = [], [], False
    newest = time.time_ns() - SETTLED
    for entry in _entries(sweeps):
        record = remembered.get(entry)
        if record is not None:
            known[entry] = record
        elif copied := copy_of(entry[0]):
            faults.append(Fault(f"sweeps/{entry[0]}", copied))
            continue
        else:
            fresh = True
            try:
                record = read_record(sweeps / entry[0])
            except LibraryError as error:
                faults.append(Fault(f"sweeps/{entry[0]}", error.within))
                continue
            if max(entry[2:]) < newest:
                known[entry] = record
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
    folder = f"{sweeps}{os.sep}"
    for name in sweep_names(sweeps):
        try:
            status = os.stat(folder + name)
        except OSError:  # removed by another process since it was listed
            continue
        entries.append((name, status.st_size, status.st_mtime_ns, status.st_ctime_ns))
    return entries


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


def _load(caches: Path) -> dict[_Entry, SweepRecord]:
    """Return what is remembered of each file, nothing where any of it cannot be so."""
    with suppress(ValueError, RecursionError, TypeError):
        names, sizes, changed, touched, *columns = json.loads(bytes(cached(caches, KIND, KEY) or b"null"))
        if _SWEEPS.fullmatch("\n".join((*names, ""))):
            records = records_of([n[:-3] for n in names], columns, [f"sweeps/{n}" for n in names])
            return dict(zip(zip(names, sizes, changed, touched, strict=True), records, strict=True))
    return {}


def _save(caches: Path, known: dict[_Entry, SweepRecord]) -> None:
    rows = [(*entry, *values_of(record)) for entry, record in known.items()]
    columns = list(zip(*rows, strict=True)) or [()] * (4 + len(CARD_KINDS))
    cache(caches, KIND, KEY, json.dumps(columns, separators=(",", ":")).encode())
    with suppress(OSError):
        (caches / _EARLIER).unlink()
