"""Aims for a launch as people word them: "nose slower than 120 mm/s", "least wheelspin", and the question they make."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from dynoan.errors import CallError
from dynoan.jobs.answering import quantity
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.model.arrays import FloatArray
from dynoan.model.car import AXLES

#: what people call a figure that is to be small: pattern, key, kind of quantity; the first that fits is meant, so the
#: narrower stand first
NAMES: tuple[tuple[str, str, str], ...] = (
    (r"nose.*(slow|fast|speed|rate)|(slow|fast)\w* (nose|rise)", "level_nose_rise_rate_m_s", "velocity"),
    (r"front wheel", "front_wheel_height_m", "length"),
    (r"nose|front rise", "level_nose_rise_m", "length"),
    (r"rear.*lift|least lift", "level_rear_lift_m", "length"),
    (r"squat", "level_rear_squat_m", "length"),
    (r"spin", "wheelspin_s", "time"),
    (r"stead", "driven_load_rms_n", "force"),
    (r"load", "driven_load_least_n", "force"),
    (r"distance|far", "distance_m", "length"),
)
_BELOW = (
    r"\b(?:slower|lower|less|under|below|no (?:faster|higher|more|longer)|at most|shorter)(?:\s+than)?\s+"
    r"(?P<value>\d.*)$"
)
_LEAST = r"^\s*(?:least|lowest|slowest|steadiest|steady|shortest|as little|as slow)"


@dataclass(frozen=True)
class LaunchAim:
    """One aim: a figure to keep under a limit, or to make as small as can be."""

    text: str
    key: str  #: of the figure
    limit: float | None = None  #: SI; None for the least there is

    @classmethod
    def parsed(cls, text: str) -> LaunchAim:
        """Return an aim from words.

        Raises
        ------
        CallError
            If the words name no figure, or neither a limit nor "least".
        QuantityError
            If the limit is no such quantity.
        """
        low = text.strip().lower()
        found = next(((key, kind) for pattern, key, kind in NAMES if re.search(pattern, low)), None)
        below = re.search(_BELOW, low)
        if found is None or not (below or re.search(_LEAST, low)):
            raise CallError(
                f"'{text}' is no aim",
                hint=(
                    "write one like 'nose slower than 120 mm/s', 'front wheels under 50 mm', 'rear squat under 20 "
                    "mm', 'least wheelspin', 'slowest nose' or 'steadiest'"
                ),
                part="aim",
            )
        return cls(text.strip(), found[0], quantity(below["value"], found[1], "aim") if below else None)

    def missed(self, values: FloatArray) -> FloatArray:
        """Return by what share of the limit values lie above it, 0 where they keep it; of their shape. [1]"""
        assert self.limit is not None
        return np.asarray(np.maximum(values / max(self.limit, 1e-9) - 1.0, 0.0))


@dataclass(frozen=True)
class AimQuestion:
    """Which launch, and what is wanted of it."""

    launch: LaunchQuestion
    aims: tuple[LaunchAim, ...]
    axles: tuple[str, ...] = AXLES  #: whose clicks may be turned
    inside: bool = False  #: keep every adjuster between its tested clicks

    @classmethod
    def asked(
        cls, car: str, aim: str | Sequence[str], *, axle: str | None = None, inside: bool = False, **launched: Any
    ) -> AimQuestion:
        """Return the question from values as people give them; `launched` as in `LaunchQuestion.asked`.

        Raises
        ------
        CallError, QuantityError
            As `LaunchAim.parsed` and `LaunchQuestion.asked`.
        """
        texts = [aim] if isinstance(aim, str) else list(aim)
        aims = tuple(LaunchAim.parsed(text) for text in texts)
        if not aims:
            raise CallError("name an aim", part="aim")
        return cls(LaunchQuestion.asked(car, **launched), aims, (axle,) if axle else AXLES, inside)
