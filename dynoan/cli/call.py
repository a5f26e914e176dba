"""What every command shares: the options, the output as one JSON object or as text, and the exit codes."""

from __future__ import annotations

import json
import math
import sys
import time
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, is_dataclass, replace
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.streams import shows
from dynoan.errors import DynoanError
from dynoan.units import HINTED, Shown
from dynoan.version import __version__

if TYPE_CHECKING:
    from pathlib import Path

    from dynoan.jobs.answering import Answer, PageAnswer
    from dynoan.library import Library
    from dynoan.workbench import Workbench

DONE, NO, WRONG = 0, 1, 2


@dataclass
class Call:
    """One call of the command line: what was asked of all commands, and the warnings so far."""

    command: str
    json: bool = False
    units: Shown | None = None
    of_files: Shown | None = None  #: what rig files asked about are in: shown where nobody says which units
    library: Path | None = None
    verbose: int = 0
    debug: bool = False
    warnings: list[str] = field(default_factory=list)
    begun: float | None = None  #: when long work began [s]
    cluster: str | None = None  #: address of a Dask scheduler that fits what is not fitted yet
    bench: Workbench | None = None  #: the library, once it was opened
    printed: bool = False  #: whether the one JSON object is out
    csv: bool = False  #: whether people get the main table as CSV in SI, and nothing else
    force: bool = False  #: whether a file may be written over that is no earlier output of the same kind
    when_stopped: str = ""  #: what to say of the work done where Ctrl-C comes

    def warn(self, text: str) -> None:
        """Keep a warning for the JSON object; people see it at once on standard error."""
        if text not in self.warnings:
            self.warnings.append(text)
            self.note(f"warning: {text}")

    def say(self, text: str = "", *, typed: bool = False) -> None:
        """Print text for people, command lines to be copied whole where they are `typed`; nothing with --json."""
        if not self.json:
            from dynoan.show.text.printing import say

            say(text, sys.stdout, typed=typed)

    def note(self, text: str) -> None:
        """Print progress or a remark on standard error; nothing with --json."""
        if not self.json:
            from dynoan.show.text.printing import say
            from dynoan.show.text.restated import restated

            say(restated(text, self.units or HINTED.get()), sys.stderr)

    def progress(self, label: str, done: int, how_many: int) -> None:
        """Show how far long work is, on standard error where a person looks on, once it has taken a second."""
        if self.json or how_many < 2 or not sys.stderr.isatty():
            return
        self.begun = self.begun or time.monotonic()
        if time.monotonic() - self.begun > 1.0:
            shown = f"{label}: {done} of {how_many}"  # over the one before, which may be longer
            click.echo(f"\r{shown:<40}" + ("\n" if done == how_many else ""), nl=False, err=True)

    def result(self, result: Mapping[str, Any], code: int = DONE, failures: Sequence[str] = ()) -> int:
        """Print the one JSON object where --json was given; return the exit code.

        Where a part failed, an "error" stands beside what the others came to: whoever looks for it finds it.
        """
        self._print_object({"result": result, **({"error": self._of_parts(failures)} if failures else {})})
        return code

    def _of_parts(self, failures: Sequence[str]) -> dict[str, Any]:
        more = f" (and {len(failures) - 1} more)" if failures[1:] else ""
        return {"kind": "part", "text": f"{failures[0]}{more}", "where": f"dynoan {self.command}", "hint": None}

    def refuse(self, error: Mapping[str, Any]) -> None:
        """Print the one JSON object where --json was given and a call went wrong."""
        self._print_object({"error": error})

    def _print_object(self, content: Mapping[str, Any]) -> None:
        if not self.json or self.printed:
            return
        self.printed = True
        body = plain({"dynoan": __version__, "command": self.command, **content, "warnings": self.warnings})
        text = json.dumps(body, ensure_ascii=False, allow_nan=False)
        click.echo(text if shows(text) else json.dumps(body, allow_nan=False))

    def show(self, answer: Answer, plot: Path | None = None, written: Mapping[str, Any] | None = None) -> int:
        """Show what a job answered: warnings, text or JSON, and its picture where asked; return the exit code.

        `written` stands in the JSON result beside the answer: what the shell itself did with it.
        """
        from dynoan.jobs.answering import Answer
        from dynoan.show import presenting

        Answer.presenter = presenting
        answer = replace(answer, units=self.shown_units)
        for text in answer.warnings:
            self.warn(text)
        if self.csv and not self.json:
            click.echo(presenting.csv(answer), nl=False)
        elif not self.json:
            from dynoan.show.text.blocks import Look
            from dynoan.show.text.printing import write

            write(presenting.blocks(answer, Look(self.shown_units, bool(self.verbose))))
        if plot is not None:
            from dynoan.show.plots.saving import save

            self.note(f"picture: {save(answer.plot(), plot, force=self.force)}")
        for text in answer.failures if self.json else ():
            click.echo(f"dynoan: {text}", err=True)
        code = WRONG if answer.failures else NO if answer.no else DONE
        return self.result(answer.to_dict() | dict(written or {}) if self.json else {}, code, answer.failures)

    def write_page(self, answer: PageAnswer, out: Path) -> int:
        """Write the file an answer is printed, sent or carried as, with all warnings so far; return its bytes."""
        from dynoan.show.presenting import save

        for text in answer.warnings:
            self.warn(text)
        told = replace(answer, warnings=tuple(self.warnings))
        return save(told, self.shown_units, out, force=self.force).stat().st_size

    def workbench(self, *, needed: bool = True) -> Workbench:
        """Open the library found from --library, DYNOAN_LIBRARY or the current folder upward.

        Not `needed`, it is looked for once something of it is asked for: files alone need none.
        """
        if self.bench is None:
            from dynoan.workbench import Workbench

            self.bench = Workbench(self._find, self.warn, self.progress, self.cluster)
            self.bench.asked = self.units
        if needed:
            self.bench.library  # noqa: B018
        return self.bench

    def _find(self) -> Library:
        from dynoan.library import Library

        found = Library.find(self.library)
        found.read_in = self.units
        self.units = self.units or found.units
        HINTED.set(self.units)
        return found

    @property
    def shown_units(self) -> Shown:
        """The units to show: --units, else those of the library found from here, else of the files, else metric."""
        if self.units is None:
            from dynoan.library import Library

            with suppress(DynoanError):
                self.units = Library.find(self.library).units
            HINTED.set(self.units or self.of_files or "metric")
        return self.units or self.of_files or "metric"


def plain(value: Any) -> Any:
    """Return a value as JSON types: arrays as lists, not-a-number and infinities as null."""
    if isinstance(value, Mapping):
        return {str(k): plain(v) for k, v in value.items()}
    if isinstance(value, str) or value is None or isinstance(value, bool):
        return value
    if hasattr(value, "tolist"):
        return plain(value.tolist())
    if isinstance(value, Sequence | set | frozenset):
        return [plain(v) for v in value]
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if is_dataclass(value) and not isinstance(value, type):
        return plain(vars(value))
    return value if isinstance(value, int) else str(value)
