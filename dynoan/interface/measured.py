"""The jobs that measure the car itself, for Python."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.bounce import BounceAnswer
    from dynoan.jobs.learn import LearnAnswer


class MeasuredJobs(Asking):
    """A pushed corner, and logged launches."""

    def bounce(
        self, log: str | Path, *, car: str | None = None, corner: str | None = None, axle: str | None = None,
        column: Mapping[str, str] | None = None, scale: str | Mapping[str, str] | None = None,
    ) -> BounceAnswer:  # fmt: skip
        """Return frequency and damping ratio of a pushed corner, held against the prediction for what is on the car.

        Parameters
        ----------
        log
            A CSV with time and shock travel, or a phone's three axes of acceleration.
        car
            Whose prediction to hold it against; None: measure only.
        corner, axle
            What was pushed: "fl", "fr", "rl", "rr", or "front", "rear".
        column, scale
            Which column is which shock's, and its travel per unit, as for `travel`.

        Returns
        -------
        :
            ``measured`` and ``predicted.fit`` with ``frequency`` [Hz] and ``ratio``; ``verdict``.

        Raises
        ------
        CallError, FitError, QuantityError, LookupFault
            As `dynoan.jobs.bounce.answer`.
        ReadError
            If the log is no table with named columns.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.bounce("demo/travel/kestrel_push_front_left.csv", corner="fl")
        >>> round(found.measured.frequency.value, 1), len(found.measured.swings), found.verdict
        (2.0, 3, 'cannot tell')
        """
        from dynoan.jobs.bounce import BounceQuestion, answer
        from dynoan.reading import read_log

        asked = BounceQuestion.asked(read_log(log), car=car, corner=corner, axle=axle, column=column, scale=scale)
        return self._ask(answer, asked)

    def learn(
        self, logs: str | Path | Sequence[str | Path], *, car: str, surface: str,
        corner: Mapping[str, str] | None = None, scale: str | Mapping[str, str] | None = None,
        zero: str | Mapping[str, str] | None = None, write: bool = False,
    ) -> LearnAnswer:  # fmt: skip
        """Return what logged launches tell of a car's uncertain values.

        Parameters
        ----------
        logs
            CSV files, a launch each: time, travel of shocks, acceleration along the car, speed, what there is of them.
        car, surface
            As the car's file has them.
        corner, scale, zero
            Which column is which shock's, its travel per unit and its reading at rest, as for `travel`.
        write
            Whether what is told goes into the car's file, each value with its ±.

        Returns
        -------
        :
            ``values`` with ``before``, ``after`` (limits) and ``told``; ``tried``, the launch left out; ``verdict``.

        Raises
        ------
        CallError, FitError, QuantityError, LookupFault
            As `dynoan.jobs.learn.answer`.
        ReadError
            If a log is no table with named columns.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.learn("demo/travel/kestrel_launch_1.csv", car="kestrel", surface="loose")
        >>> [v.before.key for v in found.values if v.told], found.verdict
        (['links.body'], 'untried')
        """
        from dynoan.jobs.learn import LearnQuestion, answer
        from dynoan.reading import read_log

        paths = [logs] if isinstance(logs, str | Path) else list(logs)
        asked = LearnQuestion.asked(
            [read_log(path) for path in paths], car=car, surface=surface, corner=corner, scale=scale, zero=zero,
            write=write,
        )  # fmt: skip
        return self._ask(answer, asked)
