"""The texts of a library that people edit: cars, shocks, setups, layouts, trials."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any, TypeAlias

from dynoan.errors import CallError, DynoanError, LibraryError
from dynoan.library import car_file, car_keys, files, layout_file, marker, names, setup_file, shock_file
from dynoan.library.car_edit import CornerSetting, LineChange, with_settings
from dynoan.library.car_learned import NewValue, with_learned
from dynoan.library.faults import TextFault, all_faults, mended
from dynoan.library.folder import now
from dynoan.library.index import Fault
from dynoan.library.tables import written_here
from dynoan.library.text_folder import TextFolder
from dynoan.library.toml_text import read_text
from dynoan.library.trial_store import TrialShelf
from dynoan.model.car import Car
from dynoan.model.importing import LayoutCard
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial
from dynoan.units import Shown

#: of a car's text and its name for messages: the text anew, and the lines that differ
_Change: TypeAlias = Callable[[str, str], tuple[str, tuple[LineChange, ...]]]


class TextShelf(TextFolder):
    """The texts in a library's folder, a file each."""

    def has_shock_file(self, name: str) -> bool:
        """Tell whether a file states this shock's adjusters; a name no file can have has none."""
        try:
            return os.path.lexists(self._text_file("shocks", name))
        except CallError:
            return False

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
            return car_file.car_from_text(read_text(Path(name), name), name, units=self.usual_units)
        return self._text("cars", name, partial(car_file.car_from_text, units=self.usual_units))

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
            "car": (car_file.car_from_data, car_keys.STAND_INS),
            "shock": (shock_file.shock_from_data, shock_file.STAND_INS),
        }
        read, stand_ins = readers[kind]
        return self._text(
            f"{kind}s", name,
            lambda text, file, known: all_faults(text, file, lambda data: read(data, file, known), stand_ins),
        )  # fmt: skip

    def mended_car(self, name: str) -> Car | None:
        """Return a car as far as its file can be understood, faulty values put right or left as they are; None if not.

        Raises
        ------
        LookupFault
            If there is no such file.
        """
        return self._text("cars", name, partial(_mended_car, units=self.usual_units))

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
        marker.make_folder(self.path, path.parent)
        if not files.write_new(path, text.encode()):
            raise LibraryError(
                "is there already", where=f"layouts/{path.name}", hint="take another name, or edit that file"
            )
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
        with written_here():
            return self._text("setups", name, partial(setup_file.setup_from_text, units=self.usual_units))

    def setup_text(self, name: str) -> str:
        """Return the text of a setup's file."""
        return self._text("setups", name, _as_it_is)

    def record_setup(self, setup: Setup, car_text: str | None = None) -> Setup:
        """Keep a setup under a name made of its date and car; return it under that name."""
        setup = replace(setup, recorded=setup.recorded or now())
        stem = f"{setup.date[:10]}-{names.file_name(setup.car.name, 'car')}"
        marker.make_folder(self.path, self.path / "setups")
        for number in range(1, 100_000):
            name = stem if number == 1 else f"{stem}-{number}"
            data = setup_file.setup_to_text(replace(setup, name=name), car_text).encode()
            if files.write_new(self.path / "setups" / f"{name}.toml", data):
                return self.setup(names.name_of(name))
        raise LibraryError("too many setups of one day", where=stem)

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
        return self._changed_car(car, partial(with_settings, settings=settings), write=True)

    def write_learned(self, car: str, values: Mapping[str, NewValue], *, write: bool) -> tuple[LineChange, ...]:
        """Return the lines of a car's file that values with their ± would change; with `write` they are.

        Raises
        ------
        LookupFault
            If there is no such car.
        QuantityError
            If its file cannot be changed safely; nothing is changed then.
        """
        return self._changed_car(car, partial(with_learned, values=values), write=write)

    def _changed_car(self, car: str, change: _Change, *, write: bool) -> tuple[LineChange, ...]:
        """Return the lines of a car's file that a change of its text touches; with `write` they are written."""
        by_path = car.endswith(".toml")
        path = Path(car) if by_path else self._text_file("cars", car)
        with files.locked(self.path / files.LOCK):
            text = read_text(path, car) if by_path else self.car_text(car)
            made, changes = change(text, car if by_path else f"cars/{path.name}")
            if write and changes:
                files.replace(path, made.encode())
        return changes


def _outing(setup: Setup) -> tuple[str, ...]:
    """Order setups by day, then by when they were recorded."""
    return setup.date[:10], setup.recorded, setup.date, setup.name


def _as_it_is(text: str, _file: str, _name: str) -> str:
    return text


def _mended_car(text: str, file: str, name: str, *, units: Shown) -> Car | None:
    data, _ = mended(text, file, lambda data: car_file.car_from_data(data, file, name), car_keys.STAND_INS)
    try:
        return None if data is None else car_file.stated_car(data, file, name, units=units)
    except DynoanError:
        return None
