"""Rig files into the library, with the files' own bytes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import DynoanError, QuantityError
from dynoan.jobs.answering import Answer
from dynoan.jobs.keeping import KeptSweep, keep_sweeps, told_together
from dynoan.jobs.kept import record_dict, record_row
from dynoan.jobs.read.options import Stated, read_options
from dynoan.jobs.read.understanding import Sharing, fetched, understood
from dynoan.library import Library
from dynoan.library.names import printable
from dynoan.model.importing import ReadOptions
from dynoan.model.sweep import Sweep, units_of
from dynoan.units import Shown

if TYPE_CHECKING:
    from typing import Unpack

    from dynoan.workbench import Workbench
    from dynoan.workbench.fitting_jobs import Progress

MOST_WORKERS = 256


@dataclass(frozen=True)
class AddQuestion:
    """Which files, what is stated of all of them, and who reads them."""

    paths: tuple[Path, ...]
    options: ReadOptions = field(default_factory=ReadOptions)
    sharing: Sharing = field(default_factory=Sharing)

    @classmethod
    def asked(
        cls, *paths: str | Path, workers: int | None = None, cluster: str | None = None, **stated: Unpack[Stated]
    ) -> AddQuestion:
        """Return the question from values as people give them.

        Raises
        ------
        CallError, QuantityError
            As `reading_options.read_options`, or if there cannot be so many workers.
        """
        if workers is not None and not 1 <= workers <= MOST_WORKERS:
            raise QuantityError(f"{workers} processes cannot be", hint=f"wanted 1 to {MOST_WORKERS}", part="workers")
        return cls(tuple(map(Path, paths)), read_options(stated), Sharing(workers, cluster))


@dataclass(frozen=True)
class NewLibrary:
    """A new or empty folder that becomes a library once there is something to keep in it."""

    folder: Path
    units: Shown | None = None  #: that the library will show; those of its first file where nobody says
    progress: Progress = lambda _label, _done, _all: None


@dataclass(frozen=True)
class NotKept:
    """A file of which not all could be kept, and the one line that says why."""

    path: Path
    error: str


@dataclass(frozen=True)
class AddAnswer(Answer):
    """What the library holds of the files now, and which it does not."""

    job: ClassVar[str] = "add"
    question: AddQuestion
    sweeps: tuple[KeptSweep, ...]
    failed: tuple[NotKept, ...]
    made: Path | None = None  #: the library that was made for them
    units_of_files: bool = False  #: whether it shows the units of its first file, as nobody said which

    @property
    def new(self) -> int:
        """How many sweeps the library did not hold before."""
        return sum(sweep.new for sweep in self.sweeps)

    @property
    def failures(self) -> tuple[str, ...]:
        """Of each file that was not kept whole, why."""
        return tuple(printable(" ".join(f.error.split())) for f in self.failed)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan add --json`` prints it."""
        kept = [
            record_dict(s.record)
            | {"path": str(s.path), "new": s.new, "completed": list(s.completed), "warnings": s.remarks}
            for s in self.sweeps
        ]
        return {"sweeps": kept, "failed": [{"path": str(f.path), "error": f.error} for f in self.failed]}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a sweep the library holds of the files."""
        return [record_row(s.record) | {"path": str(s.path), "new": s.new} for s in self.sweeps]


def answer(place: Workbench | NewLibrary, question: AddQuestion) -> AddAnswer:
    """Keep what is in the files and return what was new; one that cannot be read does not keep the others out.

    What is reported as kept is on the disk. A sweep that is kept already is not added again.

    Parameters
    ----------
    place
        The library, or a folder that becomes one as soon as a file is understood.

    Raises
    ------
    LibraryError
        If the folder cannot become a library.
    CallError
        If the cluster cannot be reached.
    """
    library = None if isinstance(place, NewLibrary) else place.library
    options = question.options if isinstance(place, NewLibrary) else replace(question.options, layouts=place.layouts())
    kept: list[KeptSweep] = []
    failed: list[NotKept] = []
    with ExitStack() as stack:  # leaving it syncs the folder: nothing is reported as kept before
        if library is not None:
            stack.enter_context(library.batch())
        for path, found in understood(question.paths, options, question.sharing, place.progress):
            if found.error is None and library is None:
                library = _made(place, found.sweeps)
                stack.enter_context(library.batch())
            error = found.error or _keep(library, path, found.sweeps, kept)
            if error is not None:
                failed.append(NotKept(path, error))
    made = unsaid = None
    if not isinstance(place, NewLibrary):
        place.forget()
    elif library is not None:
        made, unsaid = place.folder, place.units is None
    return AddAnswer(
        question=question, sweeps=tuple(kept), failed=tuple(failed), made=made, units_of_files=bool(unsaid),
        warnings=told_together(kept),
    )  # fmt: skip


def _made(place: Workbench | NewLibrary, first: Sequence[Sweep]) -> Library:
    assert isinstance(place, NewLibrary)
    return Library.open_or_create(place.folder, units=place.units or units_of(first) or "metric")


def _keep(library: Library | None, path: Path, sweeps: Sequence[Sweep], kept: list[KeptSweep]) -> str | None:
    """Keep the sweeps of one file; return the one line that says why not, if so."""
    assert library is not None
    try:
        _, original = fetched(path)
    except DynoanError as error:
        return str(error)
    return keep_sweeps(library, path, sweeps, original, kept)
