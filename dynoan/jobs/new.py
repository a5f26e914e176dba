"""A car or shock file to fill in; or everything that is wrong with one that is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from dynoan.errors import CallError, DynoanError
from dynoan.jobs.answering import Answer
from dynoan.jobs.cars import said_of
from dynoan.library.car_names import unknown_names
from dynoan.library.faults import TextFault, key_in, line_of, mended_tables
from dynoan.library.templates import Blank, car_template, shock_template
from dynoan.model.car import AXLES, CORNERS
from dynoan.model.car_doubts import doubts as doubts_of
from dynoan.model.shock import ADJUSTERS, clicks_text

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

FileKind = Literal["car", "shock"]
#: the adjusters of a shock that nothing is known of
USUAL = ("lsc", "hsc", "lsr", "hsr")


@dataclass(frozen=True)
class NewQuestion:
    """Which file, and what is known of it already: text by key, as a file has it ("front.spring": "45 N/mm")."""

    kind: FileKind
    name: str
    values: Mapping[str, str] = field(default_factory=dict)
    adjusters: tuple[str, ...] = ()  #: of a shock; by default those it was tested with

    @classmethod
    def asked(cls, kind: FileKind, name: str, values: Mapping[str, str], adjusters: str | None = None) -> NewQuestion:
        """Return the question from values as people give them: adjusters between commas.

        Raises
        ------
        CallError
            If an adjuster is none.
        """
        named = tuple(a.strip().lower() for a in (adjusters or "").split(",") if a.strip())
        for one in named:
            if one not in ADJUSTERS:
                raise CallError(
                    f"'{one[:40]}' is no adjuster", hint=f"they are {', '.join(ADJUSTERS)}", part="adjusters"
                )
        return cls(kind, name, dict(values), named)


@dataclass(frozen=True)
class NewAnswer(Answer):
    """The file, whether it was written now, and everything that is wrong with it or still to be filled in."""

    job: ClassVar[str] = "new"
    columns: ClassVar[tuple[str, ...] | None] = ("line", "key", "fault")
    question: NewQuestion
    file: str  #: in the library, such as "cars/kestrel.toml"
    written: bool
    faults: tuple[TextFault, ...]
    doubtful: bool = False  #: whether something could be so, but likely is not: the warnings say what

    @property
    def no(self) -> bool:
        """Whether a file that was there already is faulty."""
        return bool(self.faults) and not self.written

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan new --json`` prints it."""
        return {"kind": self.question.kind, "name": self.question.name, "file": self.file, "written": self.written,
                "faults": list(self.rows())}  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a fault."""
        return [{"line": f.line, "key": f.key, "fault": f.text} for f in self.faults]


def known_adjusters(bench: Workbench, name: str) -> dict[str, int]:
    """Return the highest click that each adjuster of a shock was tested at."""
    highest: dict[str, int] = {}
    for record in bench.library.records():
        for adjuster, click in record.clicks.items() if record.shock == name else ():
            highest[adjuster] = max(click, highest.get(adjuster, 0))
    return highest


def is_there(bench: Workbench, kind: FileKind, name: str) -> bool:
    """Return whether the library has such a file, sound or not."""
    return name in bench.library.text_names(f"{kind}s")


def answer(bench: Workbench, question: NewQuestion) -> NewAnswer:
    """Return a file's faults; one that is not there is written first, with what is known filled in.

    Raises
    ------
    CallError
        If the name cannot be that of a file.
    LibraryError
        If the file cannot be written.
    """
    library, kind, name = bench.library, question.kind, question.name
    written = False
    if not is_there(bench, kind, name):
        written = library.write_text_file(f"{kind}s", name, _text(bench, question))
    file = library.text_file_name(f"{kind}s", name)
    faults = library.text_faults(kind, name)
    if kind == "car":
        faults += unknown_names(library.car_text(name), file, library.shocks(), library.packs())
        faults += () if written else _clicks_outside(bench, name)
    ordered = tuple(sorted(faults, key=lambda fault: fault.line or 0))
    doubts = _doubts(bench, name, ordered) if kind == "car" and not written else []
    return NewAnswer(
        question=question, file=file, written=written, faults=ordered, doubtful=bool(doubts), warnings=tuple(doubts)
    )


def _doubts(bench: Workbench, name: str, faults: Sequence[TextFault]) -> list[str]:
    """Return what `ratio` and `launch` would warn of; in a faulty file, of what its faults have no part in."""
    if not faults:
        return said_of(bench, bench.library.car(name))
    car, faulty = bench.library.mended_car(name), {fault.key.rpartition(".")[2] for fault in faults}
    told = doubts_of(car) if car is not None else ()
    return [f"{car.file}: {doubt}" for doubt in told if doubt.key.rpartition(".")[2] not in faulty] if car else []


def _clicks_outside(bench: Workbench, name: str) -> tuple[TextFault, ...]:
    """Return a fault for each setting of a car that its shocks do not have."""
    car, text = bench.library.mended_car(name), bench.library.car_text(name)
    data, found = mended_tables(text, name)[0] or {}, {}
    for corner in car.corners.values() if car is not None else ():
        if not (corner.pack or corner.shock):
            continue  # nothing says which shock's clicks they are
        try:
            shock = bench.corner_shock(corner, corner.pack) if corner.pack else bench.shock(corner.shock)
        except DynoanError:
            continue  # a shock or pack that nobody knows is another fault
        try:
            shock.check(corner.clicks)
        except DynoanError as error:
            key = key_in(data, f"{corner.name}.clicks")
            found[key] = TextFault(line_of(text, key), key, error.text)
    return tuple(found.values())


def _text(bench: Workbench, question: NewQuestion) -> str:
    units = bench.library.units
    if question.kind == "car":
        return car_template(question.name, question.values, units, _examples(bench))
    tested = known_adjusters(bench, question.name)
    adjusters = question.adjusters or tuple(a for a in ADJUSTERS if a in tested) or USUAL
    return shock_template(question.name, question.values, units, adjusters, tested)


def as_here(bench: Workbench, blanks: Sequence[Blank]) -> list[Blank]:
    """Return blanks with examples of the library's own: names of its shocks and packs, how clicks are written."""
    examples = _examples(bench)
    return [replace(blank, metric=examples.get(blank.key, blank.metric)) for blank in blanks]


def _examples(bench: Workbench) -> dict[str, str]:
    """Return what the library's own shocks and packs are called, and how their clicks are written, by a car's keys."""
    shocks, packs = bench.library.shocks(), bench.library.packs()
    names = {c: next((s for s in shocks if s.casefold().startswith(c)), "") for c in CORNERS}
    found = {f"{corner}.shock": name for corner, name in names.items() if name}
    tested = max((r.clicks for r in bench.library.records()), key=len, default={})
    for axle in AXLES:
        found |= {f"{axle}.pack": packs[0]} if packs else {}
        found |= {f"{axle}.clicks": clicks_text(tested)} if tested else {}
    return found
