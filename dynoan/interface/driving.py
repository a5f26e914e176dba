"""The jobs about the car on the move, for Python."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.aim import AimAnswer
    from dynoan.jobs.launch import LaunchAnswer
    from dynoan.jobs.launch.best import BestClicksAnswer
    from dynoan.jobs.launch.holes import HolesAnswer
    from dynoan.model.log import Log


class DrivingJobs(Asking):
    """The launch, and the clicks that do it best."""

    def launch(
        self, car: str, *, surface: str | Sequence[str] = (), setting: str | Sequence[str] = (),
        accel: float | str | None = None, torque: float | str | None = None, trace: str | Path | None = None,
        rise: float | str | None = None, held: float | str | None = None, slip: float | str | None = None,
        time: float | str | None = None, seed: int | None = None,
    ) -> LaunchAnswer:  # fmt: skip
        """Return how a car leaves the line: nose rise, squat, tyre loads, and what the shocks do.

        What is on the car runs first, then each setting, all on the same drive and the same road.

        Parameters
        ----------
        car
            A name in the library, or a car file's path.
        surface
            One or several of the car's file; by default all of them.
        setting
            One or several more to run, such as "rear=gravel@lsc=6,lsr=8"; packs and clicks that are not named stay.
        accel
            A steady acceleration, whatever the grip. [m/s²]
        torque
            At the driven wheels together, limited by the grip. [N·m]
        trace
            A CSV with time and acceleration. Without any of the three: all the grip there is.
        rise
            Time over which the drive comes in, or text such as "0.2 ± 0.05 s"; by default 0.15, and the bands hold
            half to twice as long. [s]
        held
            Torque at the driven wheels together that the brakes hold before the start; by default none. [N·m]
        slip
            The driver lifts so that the driven wheels keep this slip; by default his foot stays down. [1]
        time
            How long to run; by default 3. [s]
        seed
            Another makes another road of the same roughness.

        Returns
        -------
        :
            ``runs``, each with ``metrics``, ``low``, ``high`` (by key, the unit in it) and ``trace``; ``verdicts``.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.launch.answer` and `dynoan.jobs.launch.asked.LaunchQuestion.asked`.
        ReadError
            If the trace is no table with named columns.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.launch("kestrel", surface="loose", setting="rear=@lsc=2,lsr=2")
        >>> [run.label for run in found.runs]
        ['as on the car', 'rear=@lsc=2,lsr=2']
        >>> [verdict.words for verdict in found.verdicts]
        ['Steadiest driven tyres', 'Slowest nose rise', 'Least wheelspin']
        >>> found.runs[0].metrics["level_rear_squat_m"] > found.runs[1].metrics["level_rear_squat_m"]
        True
        """
        from dynoan.jobs.launch import answer
        from dynoan.jobs.launch.asked import LaunchQuestion

        asked = LaunchQuestion.asked(
            car, surface=surface, setting=setting, accel=accel, torque=torque, trace=_log(trace), rise=rise, held=held,
            slip=slip, time=time, seed=seed,
        )  # fmt: skip
        return self._ask(answer, asked)

    def aim(
        self, car: str, aims: str | Sequence[str], *, surface: str | None = None, axle: str | None = None,
        inside: bool = False, **launched: Any,
    ) -> AimAnswer:  # fmt: skip
        """Return the clicks that come nearest to aims for a launch, both axles in turn, and what they cost.

        Parameters
        ----------
        car
            A name in the library, or a car file's path.
        aims
            One or several: "nose slower than 120 mm/s", "front wheels under 50 mm", "rear squat under 20 mm", "least
            wheelspin", "slowest nose", "steadiest".
        surface
            Of the car's file; may be left out where it has one alone.
        axle
            "front" or "rear" alone.
        inside
            Whether every adjuster stays between its tested clicks.
        launched
            What else `launch` takes.

        Returns
        -------
        :
            ``reached`` by aim, ``turned`` by corner, ``worth`` the turn or not, and all figures ``compared``.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.aim.answer` and `dynoan.jobs.aim.asked.AimQuestion.asked`.
        """
        from dynoan.jobs.aim import answer
        from dynoan.jobs.aim.asked import AimQuestion

        asked = AimQuestion.asked(car, aims, axle=axle, inside=inside, surface=surface or (), **launched)
        return self._ask(answer, asked)

    def holes(self, car: str, **launched: Any) -> HolesAnswer:
        """Return the holes of a driven axle's links side by side: instant centre, anti-squat, and the launch with each.

        Parameters
        ----------
        car
            A name in the library, or a car file's path; its file states ``[links]``.
        launched
            What else `launch` takes.

        Returns
        -------
        :
            ``holes``, each with ``links`` over travel and ``antisquat``; ``launches`` side by side.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.launch.holes.answer`.
        """
        from dynoan.jobs.launch.asked import LaunchQuestion
        from dynoan.jobs.launch.holes import HolesQuestion, answer

        return self._ask(answer, HolesQuestion(LaunchQuestion.asked(car, **launched)))

    def best_clicks(
        self, car: str, best: str = "steadiest", *, axle: str | None = None, inside: bool = False,
        surface: str | None = None, setting: str | None = None, accel: float | str | None = None,
        torque: float | str | None = None, trace: str | Path | None = None, rise: float | str | None = None,
        time: float | str | None = None, seed: int | None = None,
    ) -> BestClicksAnswer:  # fmt: skip
        """Return the clicks of an axle, left and right alike, that make a launch best, and what they cost.

        Parameters
        ----------
        car
            A name in the library, or a car file's path.
        best
            "steadiest" load of the driven tyres, "slowest-rise" of the nose, or "least-lift" of the body.
        axle
            "front" or "rear"; by default the driven one.
        inside
            Whether every adjuster stays between its tested clicks.
        surface
            Of the car's file; may be left out where it has one alone.
        setting
            What is on the car in place of what its file says, as for `launch`.
        accel, torque, trace, rise, time, seed
            As for `launch`. [m/s², N·m, -, s, s, -]

        Returns
        -------
        :
            ``best``, the ``trade_off`` line, the whole ``search``, and the ``runs`` as on the car and with the best.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.launch.best.answer` and `dynoan.jobs.launch.best.BestClicksQuestion.asked`.
        ReadError
            If the trace is no table with named columns.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> short = {"surface": "sticky", "time": "0.2 s"}
        >>> found = lib.best_clicks("kestrel", "slowest-rise", axle="front", inside=True, **short)
        >>> found.axle, found.best.standing in ("tested", "between")
        ('front', True)
        >>> found.runs[1].metrics["level_nose_rise_rate_m_s"] <= found.runs[0].metrics["level_nose_rise_rate_m_s"]
        True
        """
        from dynoan.jobs.launch.best import BestClicksQuestion, answer

        asked = BestClicksQuestion.asked(
            car, best, axle=axle, inside=inside, surface=surface or (), setting=setting or (), accel=accel,
            torque=torque, trace=_log(trace), rise=rise, time=time, seed=seed,
        )  # fmt: skip
        return self._ask(answer, asked)


def _log(path: str | Path | None) -> Log | None:
    from dynoan.reading import read_log

    return None if path is None else read_log(path)
