"""What every part of the Python door stands on: asking a job, with its warnings and the library's units."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar, overload

from dynoan.interface.curves import draw_with_pictures
from dynoan.interface.speaking import spoken, to_scripts
from dynoan.jobs.answering import Answer
from dynoan.show import presenting

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

Q = TypeVar("Q")
A = TypeVar("A", bound=Answer)


class Asking:
    """A workbench, and what it warned of while a job was asked."""

    def __init__(self, bench: Workbench, said: list[str]) -> None:
        self._bench = bench
        self._said = said
        Answer.presenter = presenting
        draw_with_pictures()

    def __init_subclass__(cls) -> None:
        for name, member in list(vars(cls).items()):
            if callable(member) and not name.startswith("_"):
                setattr(cls, name, to_scripts(member))

    @overload
    def _spoken(self, text: str) -> str: ...
    @overload
    def _spoken(self, text: None) -> None: ...
    def _spoken(self, text: str | None) -> str | None:
        """Return what a file's error or warning says to a script's author."""
        return None if text is None else spoken(text, self._bench.library.units)

    def _ask(self, job: Callable[[Workbench, Q], A], question: Q) -> A:
        self._said.clear()
        found = job(self._bench, question)
        warnings = tuple(dict.fromkeys(self._spoken(text) for text in (*self._said, *found.warnings)))
        return replace(found, warnings=warnings, units=self._bench.library.units)
