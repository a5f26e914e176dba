"""What is asked of a launch, from values as people give them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from dynoan.jobs.launch.drive import DriveAsked, RunAsked
from dynoan.jobs.launch.settings import LaunchSetting
from dynoan.model.log import Log


def several(value: str | Sequence[str]) -> tuple[str, ...]:
    """Return one name or many as many."""
    return (value,) if isinstance(value, str) else tuple(value)


@dataclass(frozen=True)
class LaunchQuestion:
    """Which car, with which settings, on which surfaces, driven off how."""

    car: str  #: a name in the library, or a car file's path
    surfaces: tuple[str, ...] = ()  #: of the car's file; none named: all of them
    settings: tuple[LaunchSetting, ...] = (LaunchSetting(),)  #: what is on the car first
    run: RunAsked = field(default_factory=RunAsked)

    @classmethod
    def asked(
        cls, car: str, *, surface: str | Sequence[str] = (), setting: str | Sequence[str] = (),
        accel: float | str | None = None, torque: float | str | None = None, trace: Log | None = None,
        rise: float | str | None = None, held: float | str | None = None, slip: float | str | None = None,
        time: float | str | None = None,
        seed: int | None = None,
    ) -> LaunchQuestion:  # fmt: skip
        """Return the question from values as people give them: SI numbers, or text with a unit.

        Raises
        ------
        QuantityError
            If a value is no such quantity.
        CallError
            If a setting is not like "rear=gravel@lsc=6", or two ways of driving off exclude one another.
        """
        settings = (LaunchSetting(), *(LaunchSetting.parsed(text) for text in several(setting)))
        run = RunAsked.asked(DriveAsked.asked(accel, torque, trace, rise, held, slip), time, seed)
        return cls(car, several(surface), settings, run)
