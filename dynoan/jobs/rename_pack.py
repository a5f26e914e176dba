"""Giving a pack another name, in every sweep, car and setup that names it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError, DynoanError
from dynoan.jobs.answering import Answer
from dynoan.library.names import check_name, printable, unknown

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class RenamePackQuestion:
    """Which pack, its new name, and whether a pack that has that name already is meant to be the same."""

    old: str
    new: str
    merge: bool = False


@dataclass(frozen=True)
class RenamePackAnswer(Answer):
    """What bears the new name now."""

    job: ClassVar[str] = "rename pack"
    columns: ClassVar[tuple[str, ...] | None] = ("file",)
    question: RenamePackQuestion
    sweeps: tuple[str, ...]  #: ids
    files: tuple[str, ...]  #: of cars and setups

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan edit --rename-pack --json`` prints it."""
        return {"old": self.question.old, "new": self.question.new, "sweeps": list(self.sweeps),
                "files": list(self.files)}  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a file that was changed."""
        return [{"file": file} for file in (*(f"sweeps/{s}.h5" for s in self.sweeps), *self.files)]


def answer(bench: Workbench, question: RenamePackQuestion) -> RenamePackAnswer:
    """Rename a pack everywhere and return what bears the new name; asked again, it takes up what was cut short.

    Raises
    ------
    LookupFault
        If no sweep, car or setup names the pack.
    CallError
        If the new name cannot be one, is the old one, or belongs to another pack already.
    LibraryError
        If a file is damaged or cannot be written.
    """
    library, old, new = bench.library, question.old, check_name(question.new, "pack")
    mine = [r.id for r in library.records() if r.pack == old]
    if old == new:
        raise CallError(f"pack {printable(old)} has that name already")
    taken = new in library.packs()
    if taken and mine and not question.merge:
        raise CallError(f"there is a pack {printable(new)} already, and their tests would become one pack's",
                        need="merge")  # fmt: skip
    with library.batch():
        for sweep in mine:
            library.edit(sweep, pack=new)
    files = tuple(f for folder in ("cars", "setups") for f in library.rename_in_texts(folder, "pack", old, new))
    if not mine and not files:
        error = unknown("pack", old, library.packs())
        raise error
    bench.forget()
    return RenamePackAnswer(question=question, sweeps=tuple(mine), files=files, warnings=_unread(bench))


def _unread(bench: Workbench) -> tuple[str, ...]:
    """Return which car files cannot be read after all, so that nobody looks for the pack in vain."""
    said = []
    for name in bench.library.cars():
        try:
            bench.library.car(name)
        except DynoanError as error:
            said.append(printable(str(error)))
    return tuple(said)
