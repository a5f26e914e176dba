"""What a search over all clicks of an axle may be after; apart, because the shell's help names them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Objective(NamedTuple):
    """What a search may be after."""

    aim: str  #: figure to make small
    against: str  #: figure it is traded against
    words: str


#: by the name people give
OBJECTIVES: Mapping[str, Objective] = {
    "steadiest": Objective("driven_load_rms_n", "level_nose_rise_rate_m_s", "steadiest load of the driven tyres"),
    "slowest-rise": Objective("level_nose_rise_rate_m_s", "driven_load_rms_n", "slowest rise of the nose"),
    "least-lift": Objective(
        "level_body_lift_m", "driven_load_rms_n", "least lift of the body, over whichever axle rises more"
    ),
}
