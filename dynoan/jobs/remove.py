"""Taking sweeps out of the library for good."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import DynoanError
from dynoan.jobs.answering import Answer

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class RemoveQuestion:
    """Which sweeps."""

    sweeps: tuple[str, ...]  #: ids, or their beginnings


@dataclass(frozen=True)
class RemoveAnswer(Answer):
    """The ids of what was taken out, and what would not go."""

    job: ClassVar[str] = "remove"
    question: RemoveQuestion
    removed: tuple[str, ...]
    failed: tuple[str, ...] = ()  #: a line each

    @property
    def failures(self) -> tuple[str, ...]:
        """Why the others are still there."""
        return self.failed

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan remove --json`` prints it."""
        return {"removed": list(self.removed)} | ({"failed": list(self.failed)} if self.failed else {})

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a sweep taken out."""
        return [{"id": sweep_id} for sweep_id in self.removed]


def answer(bench: Workbench, question: RemoveQuestion) -> RemoveAnswer:
    """Take sweeps out and return which, with the rig's bytes they hold; nothing goes unless all of them are known.

    Raises
    ------
    LookupFault
        If no sweep, or more than one, has an id that begins so.
    DynoanError
        If the one that was named could not be taken out.
    """
    library = bench.library
    ids = dict.fromkeys(library.full_id(sweep) for sweep in question.sweeps)
    removed, failed = [], []
    for sweep_id in ids:
        try:
            library.remove(sweep_id)
            removed.append(sweep_id)
        except DynoanError as error:
            if len(ids) == 1:
                raise
            failed.append(str(error))
    bench.forget()
    return RemoveAnswer(question=question, removed=tuple(removed), failed=tuple(failed))
