"""The Python door: a library opened for notebooks and scripts, every job a method.

``lib = dynoan.open("team")``, then ``lib.ratio("kestrel")``. A method returns the answer of its job: a frozen dataclass
with figures in SI, ``to_dict()`` (what ``--json`` prints), ``to_frame()``, ``plot()``, and a short HTML form in a
notebook. Its ``warnings`` hold what the command line would print as warnings. Values may be SI numbers or text with a
unit ("2 in/s").
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from dynoan.jobs.answering import Answer
from dynoan.show import presenting

if TYPE_CHECKING:
    from dynoan.jobs.ratio import RatioAnswer
    from dynoan.workbench import Workbench

Q = TypeVar("Q")
A = TypeVar("A", bound=Answer)


def open_library(path: str | Path | None = None) -> OpenLibrary:
    """Return the library in a folder, ready to be asked.

    Parameters
    ----------
    path
        The library's folder; None finds it as the command line does: DYNOAN_LIBRARY, else upward from here.

    Raises
    ------
    LibraryError
        If there is no library, or a newer program made it.
    """
    from dynoan.workbench import Workbench

    said: list[str] = []
    return OpenLibrary(Workbench.find(None if path is None else Path(path), said.append), said)


class OpenLibrary:
    """A library at hand. Each method is a job of the command line with the same name and the same answer."""

    def __init__(self, bench: Workbench, said: list[str]) -> None:
        self._bench = bench
        self._said = said
        Answer.presenter = presenting

    def __repr__(self) -> str:
        return f"<dynoan library at {self._bench.library.path}>"

    def _ask(self, job: Callable[[Workbench, Q], A], question: Q) -> A:
        self._said.clear()
        found = job(self._bench, question)
        warnings = tuple(dict.fromkeys([*self._said, *found.warnings]))
        return replace(found, warnings=warnings, units=self._bench.library.units)

    def ratio(
        self, car: str, *, low: float | str | None = None, high: float | str | None = None,
        body_amplitude: float | str | None = None, hop_amplitude: float | str | None = None,
        sigma: float | str | None = None, surface: str | None = None, speed: float | str | None = None,
    ) -> RatioAnswer:  # fmt: skip
        """Return wheel rates, ride frequencies, critical damping and damping ratios of all corners of a car.

        Parameters
        ----------
        car
            A name in the library, or a car file's path.
        low, high
            Velocities at the shock; by default the targets' own, else 0.05 and 0.25. [m/s]
        body_amplitude, hop_amplitude
            Of the swings of the equivalent values, at the wheel; by default 0.020 and 0.005. [m]
        sigma
            Standard deviation of a random velocity at the shock; by default 0.1. [m/s]
        surface, speed
            A surface of the car's file and the speed on it, from which sigma follows. [m/s]

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.ratio.answer`.

        Examples
        --------
        >>> lib = getfixture("kestrel_library")
        >>> found = lib.ratio("kestrel", low="2 in/s")
        >>> round(found.corners["fl"].rates.frequency, 2)
        2.09
        >>> list(found.to_frame().columns)[:3]
        ['corner', 'wheel_rate_n_m', 'ride_rate_n_m']
        """
        from dynoan.jobs.ratio import RatioQuestion, answer

        asked = RatioQuestion.asked(
            car, low=low, high=high, body_amplitude=body_amplitude, hop_amplitude=hop_amplitude, sigma=sigma,
            surface=surface, speed=speed,
        )  # fmt: skip
        return self._ask(answer, asked)
