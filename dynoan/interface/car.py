"""The jobs about the car, for Python."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.ratio import RatioAnswer


class CarJobs(Asking):
    """Ratios, choosing, carrying, the launch, logged travel."""

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
        from dynoan.jobs.ratio import RatioQuestion, answer

        asked = RatioQuestion.asked(
            car, low=low, high=high, body_amplitude=body_amplitude, hop_amplitude=hop_amplitude, sigma=sigma,
            surface=surface, speed=speed,
        )  # fmt: skip
        return self._ask(answer, asked)
