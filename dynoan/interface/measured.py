"""The jobs that tell of the car by what was logged on it, for Python."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.bounce import BounceAnswer
    from dynoan.jobs.learn import LearnAnswer
    from dynoan.jobs.travel import TravelAnswer


class MeasuredJobs(Asking):
    """A pushed corner, logged travel, and logged launches."""

    def bounce(
        self, log: str | Path, *, car: str | None = None, corner: str | None = None, axle: str | None = None,
        column: Mapping[str, str] | None = None, scale: str | Mapping[str, str] | None = None,
        time: str | None = None,
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
        time
            The column that is the time; by default told by its name.

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
        >>> found = lib.bounce("demo/travel/kestrel_push_front_left.csv", car="kestrel", corner="fl")
        >>> round(found.measured.frequency.value, 1), len(found.measured.swings), found.verdict
        (2.0, 3, 'differs')
        """
        from dynoan.jobs.bounce import BounceQuestion, answer
        from dynoan.reading import read_log

        asked = BounceQuestion.asked(
            read_log(log), car=car, corner=corner, axle=axle, column=column, scale=scale, time=time
        )
        return self._ask(answer, asked)

    def travel(
        self, log: str | Path, *, car: str | None = None, corner: Mapping[str, str] | None = None,
        scale: str | Mapping[str, str] | None = None, zero: str | Mapping[str, str] | None = None,
        part: Mapping[str, tuple[float, float]] | None = None, window: float | str | None = None,
        time: str | None = None,
    ) -> TravelAnswer:  # fmt: skip
        """Return which velocities logged shock travel holds, and how they fall on the curves of a car.

        Parameters
        ----------
        log
            A CSV with time and the travel of one to four shocks.
        car
            Whose curves to lay under the velocities: a name in the library, or a car file's path.
        corner
            Column names by corner, such as ``{"rl": "POT_3"}``; by default told by their names.
        scale
            Such as "25 mm per V", for all or by corner; minus where the number rises as the shock gets longer.
        zero
            The reading at rest, such as "2.1 V", for all or by corner; by default the median before the start.
        part
            Stretches of the run by name, start and end; by default the launch, found by itself. [s]
        window
            Width of the velocity filter; by default set from the record. [s]
        time
            The column that is the time; by default told by its name.

        Returns
        -------
        :
            ``shocks``, each with its ``travel`` by part and the column it comes from; ``parts_from``.

        Raises
        ------
        ReadError
            If the log is no table with named columns.
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.travel.answer` and `dynoan.jobs.travel.TravelQuestion.asked`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.travel("demo/travel/kestrel_loose_run3.csv", part={"launch": (1.0, 2.5)})
        >>> [shock.corner for shock in found.shocks]
        ['fl', 'fr', 'rl', 'rr']
        >>> list(found.to_frame().columns)[:5]
        ['corner', 'part', 'direction', 'seconds', 'still_share']
        """
        from dynoan.jobs.travel import TravelQuestion, answer
        from dynoan.reading import read_log

        asked = TravelQuestion.asked(
            read_log(log), car=car, corner=corner, scale=scale, zero=zero, part=part, window=window, time=time
        )
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
