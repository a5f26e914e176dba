"""What a car's file may leave unsaid about how its sprung mass turns."""

from __future__ import annotations


def estimated_pitch_inertia(*, front: float, rear: float, wheelbase: float) -> float:
    """Return the pitch inertia of a sprung mass about its centre of gravity, estimated. [kg·m²]

    m·a·b: as if the mass sat over the two axles, so that pushing one end leaves the other where it is (dynamic index
    1). Common practice, no source. It decides the pitch frequency, and how quickly the nose comes up in a launch.

    Parameters
    ----------
    front, rear
        Sprung mass that the axles carry. [kg]
    wheelbase
        [m]

    Examples
    --------
    >>> round(estimated_pitch_inertia(front=460.0, rear=420.0, wheelbase=2.43), 1)
    1296.4
    """
    total = front + rear
    return total * (wheelbase * rear / total) * (wheelbase * front / total)
