"""The fitted curves of what is named: knees, slopes, gas, friction and bands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.jobs.answering import Answer
from dynoan.jobs.curve_table import TABLE, Speeds, SpeedsAsked, asked_speeds, beyond, curve_dict, table
from dynoan.jobs.read.options import Stated, read_options, with_layouts
from dynoan.model.importing import ReadOptions
from dynoan.units import enumerated
from dynoan.workbench.resolving import Resolved, resolve_file
from dynoan.workbench.states import ONE_WARMTH

if TYPE_CHECKING:
    from typing import Unpack

    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class CurveQuestion:
    """Whose curves, and at which speeds their tables stand."""

    what: tuple[str, ...]  #: each a rig's file, a sweep's id, or a setting such as "pack=gravel,lsc=6"
    at: Speeds | None = None  #: in both directions [m/s]; None: the usual ones inside the data
    options: ReadOptions = field(default_factory=ReadOptions)  #: what is stated of the files

    @classmethod
    def asked(cls, *what: str, at: SpeedsAsked = None, **stated: Unpack[Stated]) -> CurveQuestion:
        """Return the question from values as people give them: SI numbers, or text with a unit.

        Raises
        ------
        QuantityError
            If a speed is none, or not above zero.
        CallError, QuantityError
            If what is stated of files is not understood: as `reading_options.read_options`.
        """
        return cls(what, asked_speeds(at), read_options(stated))


@dataclass(frozen=True)
class CurveAnswer(Answer):
    """The curves, each with the label it is shown by and the sweeps it rests on."""

    job: ClassVar[str] = "curve"
    columns: ClassVar[tuple[str, ...] | None] = ("what", *TABLE)
    question: CurveQuestion
    found: tuple[Resolved, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan curve --json`` prints it."""
        return {"curves": [{**curve_dict(one.curve, self.question.at), "what": one.label} for one in self.found]}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a curve and signed velocity: damping force with its 95 % band."""
        return [{"what": one.label} | row for one in self.found for row in table(one.curve, self.question.at)]


def answer(bench: Workbench, question: CurveQuestion) -> CurveAnswer:
    """Return the fitted curves of all that is named; sweeps of one setting are pooled.

    Raises
    ------
    LookupFault
        If the library holds nothing of it.
    CallError
        If what is named is not understood.
    ReadError, FitError
        If a file cannot be read, or carries no curve.
    """
    found = tuple(one for what in question.what for one in _named(bench, what, question.options))
    said: dict[str, dict[str, None]] = {}
    for one in found:
        for text in (*one.curve.warnings, *_unlike_warmth(one), *beyond(one.curve, question.at)):
            named = text.startswith(one.curve.what) or len(found) == 1
            said.setdefault(text, {})["" if named else f"{one.label}: "] = None
    told = (_of_all(text, tuple(of), found) for text, of in said.items())
    return CurveAnswer(question, found, warnings=(*_apart(question.what), *told))


def _apart(what: Sequence[str]) -> tuple[str, ...]:
    """Return that parts of one setting were taken for several things, where they look so: commas join them."""
    keys = {one.partition("=")[0] for one in what if one.count("=") == 1 and not set(one) & {"@", ",", "."}}
    if not 1 < len(keys) == len(what):
        return ()
    return (f"{enumerated(what)} were taken as {len(what)} things; of one setting they are joined by commas: "
            f"{','.join(what)}",)  # fmt: skip


def _of_all(text: str, labels: Sequence[str], found: Sequence[Resolved]) -> str:
    """Return a warning with the curve it is of; one of several curves alike is told once."""
    if len(labels) == 1:
        return f"{labels[0]}{text}"
    return f"{'all' if len(labels) == len(found) else f'{len(labels)} of the {len(found)}'} curves: {text}"


def _unlike_warmth(one: Resolved) -> tuple[str, ...]:
    warm = [sweep.temperature for sweep in one.sweeps if sweep.temperature is not None]
    if not warm or max(warm) - min(warm) <= ONE_WARMTH:
        return ()
    return (
        f"runs between {min(warm):.0f} °C and {max(warm):.0f} °C are taken together: warm oil damps less, so this is "
        "the curve of no one warmth; ask for one run by its id (dynoan sweeps), or for any warmth with dynoan predict",
    )


def _named(bench: Workbench, what: str, options: ReadOptions) -> tuple[Resolved, ...]:
    path = Path(what)
    if path.is_file() or path.is_dir():
        return resolve_file(path, with_layouts(options, bench))
    return bench.resolve(what)
