"""The trials of a library: kept, added to and struck out in, each step durable, two processes at once."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from dynoan.errors import CallError, DynoanError
from dynoan.library import copies, files, marker, names
from dynoan.library.index import Fault
from dynoan.library.tables import written_here
from dynoan.library.text_seals import read_held
from dynoan.library.trial_file import trial_from_text, trial_to_text, with_runs, with_struck
from dynoan.model.trial import Trial, TrialRun

FOLDER = "trials"


class TrialShelf:
    """The folder of trials. What it gives back as kept is on the disk, whole."""

    def __init__(self, library: Path, listed: Callable[[str], tuple[str, ...]]) -> None:
        """Open the trials of the library at a path; `listed` names the text files in one of its folders."""
        self._library = library
        self._listed = listed

    def names(self) -> tuple[str, ...]:
        """Return the names of all trials."""
        return self._listed(FOLDER)

    def trial(self, name: str) -> Trial:
        """Return one trial by its name.

        Raises
        ------
        LookupFault
            If there is none.
        QuantityError
            If its file is wrong anywhere; file and key are named.
        """
        with written_here():
            return trial_from_text(self.text(name), self._shown(name), name)

    def text(self, name: str) -> str:
        """Return the text of a trial's file, or raise `LookupFault`."""
        path = self._path(name)
        if not os.path.lexists(path):
            marker.hold_there(self._library)
            raise names.unknown("trial", name, self.names())
        return read_held(path, self._shown(name), self._library / "cache")

    def readable(self) -> tuple[tuple[Trial, ...], tuple[Fault, ...]]:
        """Return the trials that can be read, oldest first, and what is wrong with the others."""
        found, faults = [], []
        there = self.names()
        for name in there:
            try:
                one = self.trial(name)
                copies.hold_single(name, there, self.trial)
                found.append(one)
            except DynoanError as error:
                faults.append(Fault(self._shown(name), error.within))
        return tuple(sorted(found, key=lambda t: (t.date[:10], t.name))), tuple(faults)

    def keep_new(self, trial: Trial) -> Trial:
        """Keep a new trial under its name, and return it as kept.

        Raises
        ------
        CallError
            If there is one of that name.
        """
        marker.make_folder(self._library, self._library / FOLDER)
        if not files.write_new(self._path(trial.name), trial_to_text(trial).encode()):
            raise CallError(f"there is a trial '{names.printable(trial.name)}'", hint="give the new one another name")
        return self.trial(trial.name)

    def add_runs(self, name: str, runs: tuple[TrialRun, ...]) -> Trial:
        """Put runs behind those of a trial, and return it as kept."""
        return self._changed(name, lambda text: with_runs(text, runs), lambda t: replace(t, runs=(*t.runs, *runs)))

    def strike(self, name: str, place: int, reason: str) -> Trial:
        """Strike a run out (place from 0) with the reason, or count it again where that is empty; return the trial.

        Raises
        ------
        CallError
            If there is no such run.
        """
        if not 0 <= place < (count := len(self.trial(name).runs)):
            raise CallError(f"there is no run {place + 1}", hint=f"{names.printable(name)} has {count}", part="strike")

        def changed(trial: Trial) -> Trial:
            runs = list(trial.runs)
            runs[place] = replace(runs[place], struck=reason)
            return replace(trial, runs=tuple(runs))

        return self._changed(name, lambda text: with_struck(text, place, reason), changed)

    def _changed(self, name: str, edit: Callable[[str], str], wanted: Callable[[Trial], Trial]) -> Trial:
        """Change a trial's text as little as can be: the text is edited, and written anew only where that fails."""
        with files.locked(self._library / files.LOCK):  # or two runs noted at once would lose one
            text = self.text(name)
            with written_here():
                trial = wanted(trial_from_text(text, self._shown(name), name))
            made = edit(text)
            try:
                right = trial_from_text(made, self._shown(name), name) == trial
            except DynoanError:
                right = False
            files.replace(self._path(name), (made if right else trial_to_text(trial)).encode())
        return self.trial(name)

    def _path(self, name: str) -> Path:
        return names.text_file(self._library / FOLDER, name, "trial")

    def _shown(self, name: str) -> str:
        return f"{FOLDER}/{self._path(name).name}"
