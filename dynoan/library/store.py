"""The library: a folder that keeps a team's sweeps, shocks, cars and setups."""

from __future__ import annotations

import datetime
import hashlib
import os
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TypeVar

from dynoan.errors import CallError, DynoanError, LibraryError, LookupFault, QuantityError
from dynoan.library import caching, car_file, checking, files, layout_file, marker, names, setup_file, shock_file
from dynoan.library.car_edit import CornerSetting, LineChange, with_settings
from dynoan.library.faults import TextFault, all_faults
from dynoan.library.incoming import sound_sweep
from dynoan.library.index import Fault, Scan, read_record, scan, sweep_names
from dynoan.library.soundness import hold_sound
from dynoan.library.sweep_file import MAX_CARD, MAX_FILE, Kept, LaterFormat, SweepRecord, decode, encode, read_card
from dynoan.library.tables import read_text
from dynoan.library.trial_store import TrialShelf
from dynoan.model.car import Car
from dynoan.model.dates import iso_date
from dynoan.model.importing import LayoutCard
from dynoan.model.setup import Setup
from dynoan.model.shock import Adjuster, Shock
from dynoan.model.sweep import Sweep
from dynoan.model.trial import Trial
from dynoan.units import Shown

T = TypeVar("T")
COLDEST, HOTTEST = -60.0, 400.0  #: of a shock on a rig, as typed [°C]; common practice, no source
SHORTEST_ID, LONGEST_ID = 10, 64
_ID = re.compile(r"[0-9a-f]{1,64}")


@dataclass(frozen=True)
class Added:
    """The id of a sweep that was given to the library, and whether it was new to it."""

    id: str
    new: bool


class Library:
    """A library's folder. What it reports as kept is on the disk, whole."""

    def __init__(self, path: Path) -> None:
        """Open the library at `path`; `LookupFault` where there is none."""
        self.path = path
        self._marker = marker.read(path)
        self._sweeps = path / "sweeps"
        self._batch = False
        self._tidied = False

    @property
    def units(self) -> Shown:
        """The units the team wants to see."""
        return self._marker.units

    @property
    def team(self) -> str:
        """The team's name, empty where none is given."""
        return self._marker.team

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
            error.need = error.need if given else "library"
            raise

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

    # Sweeps

    def records(self) -> tuple[SweepRecord, ...]:
        """Return every sweep in the library, in order of id, from the cached index where that is fresh.

        Files that cannot be listed are left out; `faults` names them.
        """
        return self._scanned().records

    def faults(self) -> tuple[Fault, ...]:
        """Return the sweep files that cannot be listed, and why."""
        return self._scanned().faults

    def _scanned(self) -> Scan:
        self._be_there()
        return scan(self._sweeps, self.path / "cache")

    def _be_there(self) -> None:
        if not (self.path / marker.NAME).is_file():
            raise LibraryError(f"{self.path}: the library is gone (unplugged, or moved?); bring it back and try again")

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
            raise LibraryError(f"{sweep.source.name}: its bytes do not match its SHA-256; read the file again")
        sound = sound_sweep(sweep)
        self._be_there()
        if not self._sweeps.exists():  # a sync tool may drop empty folders
            files.make_folder(self._sweeps)
        data: bytes | None = None
        for sweep_id in _ids(sound):
            path = self._sweeps / f"{sweep_id}.h5"
            if not path.exists():
                if data is None:
                    data = encode(Kept(sound, original, _now()))
                if files.write_new(path, data, sync=not self._batch):
                    return Added(sweep_id, new=True)
            if self._holds(path, sound):
                return Added(sweep_id, new=self._mended(path, sound, original))
        raise LibraryError(f"{sweep.source.name}: no free id is left for it")  # 2^256 ids: not in this universe

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
                files.replace(path, encode(Kept(sweep, original, _now())))
                return True
        return False

    @contextmanager
    def batch(self) -> Iterator[None]:
        """Add many sweeps with one sync of the folder at the end; they are durable when the block is left."""
        self._batch = True
        try:
            yield
        finally:
            self._batch = False
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
            if not COLDEST <= temperature <= HOTTEST:
                raise QuantityError(f"{temperature:g} °C is no shock's; check the number and its unit",
                                    part="temperature")  # fmt: skip
            changes["temperature"] = temperature
        path = self._find(sweep_id)
        with files.locked(self.path / files.LOCK):  # or two edits at once would undo one another
            kept = self._kept(path)
            sweep = sound_sweep(replace(kept.sweep, **changes))  # type: ignore[arg-type]
            data = encode(replace(kept, sweep=sweep))
            files.replace(path, data)
        return read_card(data[:MAX_CARD], f"sweeps/{path.name}", path.stem)

    def remove(self, sweep_id: str) -> None:
        """Take a sweep out of the library for good."""
        path = self._find(sweep_id)
        with files.locked(self.path / files.LOCK):  # or an edit under way would bring it back
            if not files.remove(path):
                raise LookupFault(f"sweep {path.stem} is no longer in the library; another process took it out")

    def check(self) -> checking.CheckReport:
        """Verify every file of the library: seals, formats, and the text that people edit."""
        self._be_there()
        return checking.check(self)

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
                raise LookupFault(f"'{wanted}' begins {len(found)} ids ({some}, …); give more of it")
        raise LookupFault(f"no sweep '{names.printable(sweep_id[:40])}' in the library; see: dynoan sweeps")

    def _read(self, path: Path) -> bytes:
        try:
            return files.read_bounded(path, MAX_FILE)
        except LibraryError:
            if not path.exists():
                raise LookupFault(f"sweep {path.stem} is no longer in the library; see: dynoan sweeps") from None
            raise

    def _kept(self, path: Path) -> Kept:
        return decode(self._read(path), f"sweeps/{path.name}")

    def verify(self, name: str) -> Kept:
        """Return the whole content of a sweep file by its file name, every checksum held."""
        return self._kept(self._sweeps / name)

    # Text that people edit

    def shock(self, name: str) -> Shock:
        """Return a shock from its file; without one, its adjusters are taken from the clicks it was tested at.

        Raises
        ------
        LookupFault
            If there is neither a file nor a sweep of that shock.
        """
        if self.has_shock_file(name):
            return self._text("shocks", name, shock_file.shock_from_text)
        tested = [r.clicks for r in self.records() if r.shock == name]
        if not tested:
            raise names.unknown("shock", name, self.shocks())
        last: dict[str, int] = {}
        for clicks in tested:
            for adjuster, click in clicks.items():
                last[adjuster] = max(last.get(adjuster, 0), click)
        return Shock(name, tuple(Adjuster(adjuster, click) for adjuster, click in last.items()), stated=False)

    def has_shock_file(self, name: str) -> bool:
        """Tell whether a file states this shock's adjusters; a name no file can have has none."""
        try:
            return os.path.lexists(self._text_file("shocks", name))
        except CallError:
            return False

    def shocks(self) -> tuple[str, ...]:
        """Return the names of all shocks that have a file or a sweep."""
        return tuple(sorted({*self.text_names("shocks"), *(r.shock for r in self.records() if r.shock)}))

    def packs(self) -> tuple[str, ...]:
        """Return the names of all packs that have a sweep."""
        return tuple(sorted({r.pack for r in self.records() if r.pack}))

    def car(self, name: str) -> Car:
        """Return a car by its name, or by the path of a car file (a name that ends in ".toml").

        Raises
        ------
        LookupFault
            If there is none.
        QuantityError
            If its file is wrong anywhere; file, key and what would be right are named.
        """
        if name.endswith(".toml"):
            return car_file.car_from_text(read_text(Path(name), name), name)
        return self._text("cars", name, car_file.car_from_text)

    def car_text(self, name: str) -> str:
        """Return the text of a car's file."""
        return read_text(Path(name), name) if name.endswith(".toml") else self._text("cars", name, _as_it_is)

    def cars(self) -> tuple[str, ...]:
        """Return the names of all cars."""
        return self.text_names("cars")

    def text_faults(self, kind: str, name: str) -> tuple[TextFault, ...]:
        """Return everything that is wrong with the file of a "car" or a "shock", empty where it is sound.

        Raises
        ------
        LookupFault
            If there is no such file.
        """
        readers: dict[str, tuple[Callable[[Mapping[str, Any], str, str], object], Mapping[str, Any]]] = {
            "car": (car_file.car_from_data, car_file.STAND_INS),
            "shock": (shock_file.shock_from_data, shock_file.STAND_INS),
        }
        read, stand_ins = readers[kind]
        return self._text(
            f"{kind}s", name,
            lambda text, file, known: all_faults(text, file, lambda data: read(data, file, known), stand_ins),
        )  # fmt: skip

    def write_text_file(self, folder: str, name: str, text: str) -> bool:
        """Write a new text file of "cars" or "shocks"; return False, and change nothing, where there is one."""
        files.make_folder(self.path / folder)
        return files.write_new(self._text_file(folder, name), text.encode())

    def text_file_name(self, folder: str, name: str) -> str:
        """Return where in the library a text file lies, such as "cars/kestrel.toml"."""
        return f"{folder}/{self._text_file(folder, name).name}"

    def layouts(self) -> tuple[LayoutCard, ...]:
        """Return the team's own descriptions of stubborn rig files."""
        return tuple(self.layout(name) for name in self.text_names("layouts"))

    def readable_layouts(self) -> tuple[tuple[LayoutCard, ...], tuple[Fault, ...]]:
        """Return the descriptions of rig files that can be read, and what is wrong with the others."""
        return self._readable("layouts", self.layout)

    def save_layout(self, name: str, text: str) -> Path:
        """Keep a description of a rig file under a new name; return its file.

        Raises
        ------
        LibraryError
            If one of that name is there, or the name cannot be a file's.
        QuantityError
            If the text describes no layout.
        """
        path = self._text_file("layouts", name)
        layout_file.layout_from_text(text, f"layouts/{path.name}", name)
        files.make_folder(path.parent)
        if not files.write_new(path, text.encode()):
            raise LibraryError(f"layouts/{path.name}: is there already; take another name, or edit that file")
        return path

    def layout(self, name: str) -> LayoutCard:
        """Return one such description by its name."""
        return self._text("layouts", name, layout_file.layout_from_text)

    def setups(self) -> tuple[Setup, ...]:
        """Return all setups, oldest first."""
        return tuple(sorted((self.setup(name) for name in self.text_names("setups")), key=_outing))

    def readable_setups(self) -> tuple[tuple[Setup, ...], tuple[Fault, ...]]:
        """Return the setups that can be read, oldest first, and what is wrong with the others."""
        found, faults = self._readable("setups", self.setup)
        return tuple(sorted(found, key=_outing)), faults

    def setup(self, name: str) -> Setup:
        """Return one setup by its name."""
        return self._text("setups", name, setup_file.setup_from_text)

    def setup_text(self, name: str) -> str:
        """Return the text of a setup's file."""
        return self._text("setups", name, _as_it_is)

    def record_setup(self, setup: Setup, car_text: str | None = None) -> Setup:
        """Keep a setup under a name made of its date and car; return it under that name."""
        setup = replace(setup, recorded=setup.recorded or _now())
        stem = f"{setup.date[:10]}-{names.file_name(setup.car.name, 'car')}"
        files.make_folder(self.path / "setups")
        for number in range(1, 100_000):
            name = stem if number == 1 else f"{stem}-{number}"
            data = setup_file.setup_to_text(replace(setup, name=name), car_text).encode()
            if files.write_new(self.path / "setups" / f"{name}.toml", data):
                return self.setup(names.name_of(name))
        raise LibraryError(f"{stem}: too many setups of one day")

    @property
    def trials(self) -> TrialShelf:
        """The tests at the track."""
        return TrialShelf(self.path, self.text_names)

    def trial(self, name: str) -> Trial:
        """Return one trial by its name."""
        return self.trials.trial(name)

    def edit_setup(self, setup: Setup) -> Setup:
        """Write a kept setup anew with other facts, its car word for word; return it as it is kept.

        Raises
        ------
        LookupFault
            If there is no setup of its name.
        """
        path = self._text_file("setups", setup.name)
        with files.locked(self.path / files.LOCK):
            car_text = setup_file.car_text_of(self.setup_text(setup.name), f"setups/{path.name}")
            files.replace(path, setup_file.setup_to_text(setup, car_text).encode())
        return self.setup(setup.name)

    def write_settings(self, car: str, settings: Mapping[str, CornerSetting]) -> tuple[LineChange, ...]:
        """Write packs and clicks into a car's file, every other line as it is; return the lines that changed.

        Raises
        ------
        LookupFault
            If there is no such car.
        LibraryError
            If its file cannot be changed safely or written; nothing is changed then.
        """
        by_path = car.endswith(".toml")
        path = Path(car) if by_path else self._text_file("cars", car)
        with files.locked(self.path / files.LOCK):
            text = read_text(path, car) if by_path else self.car_text(car)
            made, changes = with_settings(text, car if by_path else f"cars/{path.name}", settings)
            if changes:
                files.replace(path, made.encode())
        return changes

    def renamed_texts(self, folder: str, key: str, old: str, new: str) -> dict[str, str]:
        """Return the texts of a folder, by name, that another value of a key would change, with that value in them."""
        line = re.compile(rf"""(?m)^(\s*(?:[\w.]+\.)?{key}\s*=\s*)(["']){re.escape(old)}\2""")
        quoted = '"' + new.replace("\\", "\\\\").replace('"', '\\"') + '"'
        changed = {}
        for name in self.text_names(folder):
            path = self._text_file(folder, name)
            text = read_text(path, f"{folder}/{path.name}")
            if (found := line.sub(lambda match: match[1] + quoted, text)) != text:
                changed[name] = found
        return changed

    def rename_in_texts(self, folder: str, key: str, old: str, new: str) -> tuple[str, ...]:
        """Write another value for a key wherever it stands in the texts of a folder; return the files that changed."""
        with files.locked(self.path / files.LOCK):
            changed = {self._text_file(folder, n): t for n, t in self.renamed_texts(folder, key, old, new).items()}
            for path, text in changed.items():
                files.replace(path, text.encode())
        return tuple(f"{folder}/{path.name}" for path in changed)

    def _text_file(self, folder: str, name: str) -> Path:
        return self.path / folder / f"{names.file_name(name, folder[:-1])}.toml"

    def _text(self, folder: str, name: str, make: Callable[[str, str, str], T]) -> T:
        path = self._text_file(folder, name)
        if not os.path.lexists(path):
            known = self.text_names(folder)
            raise names.unknown(folder[:-1], name, known)
        shown = f"{folder}/{path.name}"
        return make(read_text(path, shown), shown, name)

    def _readable(self, folder: str, read: Callable[[str], T]) -> tuple[tuple[T, ...], tuple[Fault, ...]]:
        """Return what can be read of a folder of texts, and what is wrong with the others."""
        found, faults = [], []
        for name in self.text_names(folder):
            try:
                found.append(read(name))
            except DynoanError as error:
                file = f"{folder}/{self._text_file(folder, name).name}"
                faults.append(Fault(file, str(error).removeprefix(file).lstrip(": ,")))
        return tuple(found), tuple(faults)

    def text_names(self, folder: str) -> tuple[str, ...]:
        """Return the names of what lies in "cars", "shocks", "setups", "trials" or "layouts"."""
        try:
            found = os.listdir(self.path / folder)
        except OSError:
            return ()
        files.sweep_temporary(self.path / folder, found)
        return tuple(sorted(names.name_of(n[:-5]) for n in found if n.endswith(".toml") and not n.startswith(".")))

    # Derived results

    def cached(self, kind: str, key: str) -> bytes | None:
        """Return what `cache` kept, None where it is gone or damaged."""
        return caching.cached(self.path / "cache", kind, key)

    def cache(self, kind: str, key: str, data: bytes) -> None:
        """Keep a derived result; it may be gone at any time."""
        if not self._tidied:
            caching.tidy(self.path / "cache")
            self._tidied = True
        caching.cache(self.path / "cache", kind, key, data)


def _ids(sweep: Sweep) -> Iterator[str]:
    """Yield the ids a sweep may have: what it came from, as short as other sweeps allow."""
    digest = hashlib.sha256(f"{sweep.source.sha256}\n{sweep.source.part}".encode("utf-8", "surrogatepass")).hexdigest()
    for length in range(SHORTEST_ID, LONGEST_ID + 1, 2):
        yield digest[:length]


def _outing(setup: Setup) -> tuple[str, ...]:
    """Order setups by day, then by when they were recorded."""
    return setup.date[:10], setup.recorded, setup.date, setup.name


def _as_it_is(text: str, _file: str, _name: str) -> str:
    return text


def _now() -> str:
    return datetime.datetime.now(datetime.UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
