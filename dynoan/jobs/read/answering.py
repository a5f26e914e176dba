"""What is in rig files and how it was understood, keeping nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError, DynoanError, LookupFault
from dynoan.jobs.answering import Answer
from dynoan.jobs.read.layout import save_layout
from dynoan.jobs.read.options import Stated, read_options, with_layouts
from dynoan.library.disk_faults import way_to
from dynoan.model.importing import ReadOptions
from dynoan.model.record_motion import Peaks, peaks, velocity
from dynoan.model.shock import clicks_text
from dynoan.model.sweep import Sweep
from dynoan.reading import read as read_file

if TYPE_CHECKING:
    from typing import Unpack

    from dynoan.model.arrays import FloatArray
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class ReadQuestion:
    """Which files, and what is stated of them."""

    paths: tuple[Path, ...]
    options: ReadOptions = field(default_factory=ReadOptions)
    layout: str | None = None  #: the name under which what is stated is kept as a layout of the library
    tolerant: bool = True  #: a fault of the program is told of its file, so that the others are read; else it is raised

    @classmethod
    def asked(cls, *paths: str | Path, save_layout: str | None = None, **stated: Unpack[Stated]) -> ReadQuestion:
        """Return the question from values as people give them.

        Raises
        ------
        CallError, QuantityError
            As `reading_options.read_options`.
        """
        return cls(tuple(map(Path, paths)), read_options(stated), save_layout)


@dataclass(frozen=True)
class SweepRead:
    """One sweep, and what is seen of it at once."""

    sweep: Sweep
    velocity: FloatArray | None  #: [m/s], derived where none was recorded; None where it cannot be
    peaks: Mapping[str, Peaks]  #: by direction, as read: gas force still in

    @classmethod
    def of(cls, sweep: Sweep) -> SweepRead:
        """Return what is to be told of a sweep."""
        return cls(sweep, velocity(sweep), peaks(sweep))

    def to_dict(self) -> dict[str, Any]:
        """Return the sweep as plain values, as the JSON of `read` has it."""
        sweep = self.sweep
        sides = {way: {"peak_velocity_m_s": p.velocity, "peak_force_n": p.force} for way, p in self.peaks.items()}
        channels = {
            channel: {"column": d.column, "unit": d.unit, "sign": d.sign, "evidence": d.evidence}
            for channel, d in sweep.decisions.items() if channel in sweep.channels
        }  # fmt: skip
        return {
            "layout": sweep.layout, "shock": sweep.shock, "pack": sweep.pack, "clicks": dict(sweep.clicks),
            "samples": sweep.samples, "rate_hz": sweep.rate, **sides, "channels": channels, "part": sweep.source.part,
            "importer": sweep.source.importer, "date": sweep.date, "temperature_c": sweep.temperature,
            "gas_pressure_pa": sweep.gas_pressure, "rod_m": sweep.rod, "stroke_m": sweep.stroke,
            "gas_removed": sweep.gas_removed, "counted": dict(sweep.counted), "facts": dict(sweep.facts),
            "warnings": list(sweep.warnings),
        }  # fmt: skip

    def row(self, path: Path) -> dict[str, Any]:
        """Return the sweep as a row of a table."""
        sweep = self.sweep
        return {
            "path": str(path), "part": sweep.source.part, "layout": sweep.layout, "shock": sweep.shock,
            "pack": sweep.pack, "clicks": clicks_text(sweep.clicks), "samples": sweep.samples, "rate_hz": sweep.rate,
            **{f"{way}_peak_velocity_m_s": peak.velocity for way, peak in self.peaks.items()},
            **{f"{way}_peak_force_n": peak.force for way, peak in self.peaks.items()},
            "date": sweep.date, "temperature_c": sweep.temperature, "gas_pressure_pa": sweep.gas_pressure,
            "rod_m": sweep.rod, "stroke_m": sweep.stroke,
        }  # fmt: skip


@dataclass(frozen=True)
class FileRead:
    """One file: its sweeps, or the one line that says why there are none."""

    path: Path
    sweeps: tuple[SweepRead, ...] = ()
    error: str | None = None


@dataclass(frozen=True)
class ReadAnswer(Answer):
    """What is in each file, in the order asked. Channels of sweeps are SI, compression positive."""

    job: ClassVar[str] = "read"
    question: ReadQuestion
    files: tuple[FileRead, ...]
    layout: Path | None = None  #: the layout that was kept

    @property
    def sweeps(self) -> tuple[Sweep, ...]:
        """All sweeps of all files."""
        return tuple(found.sweep for file in self.files for found in file.sweeps)

    @property
    def failures(self) -> tuple[str, ...]:
        """Of each file that could not be read, why."""
        return tuple(file.error for file in self.files if file.error is not None)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan read --json`` prints it."""
        files = [{"path": str(f.path), "error": f.error, "sweeps": [s.to_dict() for s in f.sweeps]} for f in self.files]
        return {"files": files} | ({} if self.layout is None else {"layout": str(self.layout)})

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a sweep."""
        return [found.row(file.path) for file in self.files for found in file.sweeps]


def answer(bench: Workbench | None, question: ReadQuestion) -> ReadAnswer:
    """Return what is in the files; one that cannot be read does not hide the others.

    Parameters
    ----------
    bench
        The library whose layouts describe stubborn files; None where none is at hand.

    Raises
    ------
    CallError
        If a layout is to be kept and cannot be: of more than one file, or of nothing stated.
    LibraryError
        If there is a layout of that name, or no library.
    ReadError
        If the layout could not know such a file.
    """
    options = with_layouts(question.options, bench)
    files = tuple(_file(path, options, question.tolerant) for path in question.paths)
    said = tuple(w for file in files for w in _warnings(file))
    return ReadAnswer(question=question, files=files, layout=_kept_layout(bench, question, files), warnings=said)


def _kept_layout(bench: Workbench | None, question: ReadQuestion, files: tuple[FileRead, ...]) -> Path | None:
    """Keep the layout that is asked for; None where none is, or the file could not be read."""
    if question.layout is None or any(file.error is not None for file in files):
        return None
    if len(files) != 1:
        raise CallError(f"{len(files)} files: a layout is made from one", part="save_layout")
    if bench is None:
        raise LookupFault("a layout is kept in a library", need="library")
    return save_layout(bench, question.layout, files[0].path, question.options)


def _file(path: Path, options: ReadOptions, tolerant: bool) -> FileRead:
    try:
        return FileRead(path, tuple(map(SweepRead.of, read_file(path, options))))
    except DynoanError as error:
        text = " ".join(str(error).split())
    except MemoryError:
        text = f"{path.name}: not enough memory to read this file; split it"
    except FileNotFoundError:
        text = f"{path}: no such file; {way_to(path)}"
    except OSError as error:
        text = f"{path}: {error.strerror or error}"
    except Exception as error:
        if not tolerant:
            raise
        text = f"{path.name}: a fault of the program ({type(error).__name__}: {error})"
    return FileRead(path, error=text)


def _warnings(file: FileRead) -> list[str]:
    """Return what is doubtful of each sweep, with the file and its part in front."""
    return [
        f"{file.path.name}{f' ({sweep.source.part})' if sweep.source.part else ''}: {warning}"
        for sweep in (found.sweep for found in file.sweeps)
        for warning in sweep.warnings
    ]
