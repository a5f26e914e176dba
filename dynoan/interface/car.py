"""The jobs about the car, for Python."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.carry import CarryAnswer
    from dynoan.jobs.choose import ChooseAnswer
    from dynoan.jobs.ratio import RatioAnswer


class CarJobs(Asking):
    """Ratios, choosing, carrying."""

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
        >>> lib = dynoan.open("demo")
        >>> found = lib.ratio("kestrel", low="2 in/s")
        >>> round(found.corners["fl"].rates.frequency, 2)
        2.1
        >>> list(found.to_frame().columns)[:3]
        ['corner', 'wheel_rate_n_m', 'ride_rate_n_m']
        """
        from dynoan.jobs.ratio import answer
        from dynoan.jobs.ratio.asked import RatioQuestion

        asked = RatioQuestion.asked(
            car, low=low, high=high, body_amplitude=body_amplitude, hop_amplitude=hop_amplitude, sigma=sigma,
            surface=surface, speed=speed,
        )  # fmt: skip
        return self._ask(answer, asked)

    def choose(
        self, car: str, *, axle: str | None = None, corner: str | None = None, per_corner: bool = False,
        compression_low: float | None = None, compression_high: float | None = None,
        rebound_low: float | None = None, rebound_high: float | None = None,
        low: float | str | None = None, high: float | str | None = None,
        rebound_compression: float | None = None, front_rear: float | None = None, like: str | None = None,
        surface: str | None = None, packs: str | Sequence[str] | None = None, once: bool = False, inside: bool = False,
        within: int | None = None, tolerance: float | str = 0.10, count: int = 10,
    ) -> ChooseAnswer:  # fmt: skip
        """Return packs and clicks ranked for the damping ratios that a car wants, from its file or as given.

        Every click of every pack is tried. The miss is the root mean square of how far the ratios are off, as a share
        of each; settings that keep every ratio within the tolerance come first.

        Parameters
        ----------
        car
            A name in the library, or a car file's path.
        axle
            "front" or "rear"; by default both.
        corner
            "fl", "fr", "rl" or "rr": one corner alone.
        per_corner
            Each corner its own clicks, in the same pack; by default left equals right.
        compression_low, compression_high, rebound_low, rebound_high
            Wanted damping ratios at the low and the high velocity; any of them replaces all of the car file's.
        low, high
            Velocities at the shock; by default the targets' own, else 0.05 and 0.25. [m/s]
        rebound_compression
            Rebound over compression, where only one of them has targets.
        front_rear
            Front over rear, where only one axle has targets.
        like
            A recorded setup or another car, whose ratios are wanted.
        surface
            One of the car's surfaces, to propose targets for, in the place of the file's.
        packs
            At hand; by default all of the library.
        once
            Each pack is there only for one axle: choose for both axles together.
        inside
            Stay between the tested clicks of every adjuster.
        within
            Keep the pack, and stay within so many clicks of what is on the car.
        tolerance
            How far each ratio may be off, as a share of it, to fit.
        count
            How many to rank.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.choose.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.choose("kestrel", axle="front", count=3)
        >>> [chosen.choice.fits for chosen in found.best]
        [True]
        >>> found.to_frame()[["where", "rank", "fits"]].values.tolist()[0][:2]
        ['front', 1]
        """
        from dynoan.jobs.choose import ChooseQuestion, Limits, answer

        limits = Limits.asked(packs=packs, once=once, inside=inside, within=within, tolerance=tolerance, count=count)
        asked = ChooseQuestion.asked(
            car, limits, axle=axle, corner=corner, per_corner=per_corner, compression_low=compression_low,
            compression_high=compression_high, rebound_low=rebound_low, rebound_high=rebound_high, low=low, high=high,
            rebound_compression=rebound_compression, front_rear=front_rear, like=like, surface=surface,
        )  # fmt: skip
        return self._ask(answer, asked)

    def carry(
        self, car: str, other: str, *, low: float | str | None = None, high: float | str | None = None,
        per_corner: bool = False, packs: str | Sequence[str] | None = None, inside: bool = False,
        within: int | None = None, tolerance: float | str = 0.10,
    ) -> CarryAnswer:  # fmt: skip
        """Return the clicks on a car after a change that keep the damping ratios it has now.

        Both sides of an axle get the same clicks where they are set alike now.

        Parameters
        ----------
        car
            As it is now: a name in the library, or a car file's path.
        other
            The car after the change of a spring, a weight, a motion ratio or a shock.
        low, high
            Velocities at the shock; by default the targets' own, else 0.05 and 0.25. [m/s]
        per_corner
            Each corner its own clicks, even where left and right are set alike now.
        packs
            That may be used; by default the one on the other car.
        inside
            Stay between the tested clicks of every adjuster.
        within
            Stay within so many clicks of what is on the other car.
        tolerance
            From how far off on a ratio counts as lost, as a share of it.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.carry.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.carry("kestrel", "kestrel")
        >>> found.kept
        True
        >>> round(max(abs(found.to_frame()["lost_pct"])), 6)
        0.0
        """
        from dynoan.jobs.carry import CarryQuestion, answer
        from dynoan.jobs.choose import Limits

        limits = Limits.asked(packs=packs, inside=inside, within=within, tolerance=tolerance, count=1)
        return self._ask(answer, CarryQuestion.asked(car, other, limits, low=low, high=high, per_corner=per_corner))
