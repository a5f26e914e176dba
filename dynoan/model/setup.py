"""What was on the car on one day, and how it went."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from dynoan.model.car import Car


@dataclass(frozen=True)
class Setup:
    """Settings at the corners, springs, weights, surface and result of one outing."""

    name: str
    car: Car
    date: str  #: ISO 8601
    surface: str | None = None
    temperature: float | None = None  #: air or track, as the team writes it [°C]
    result: str | None = None  #: such as "good", "bad", a time or a place
    good: bool | None = None  #: the team's own verdict
    remarks: str = ""
    recorded: str = ""  #: when it was kept, ISO 8601; orders outings of one date
    extra: Mapping[str, str] = field(default_factory=dict)  #: whatever else the team writes down
    file: str = ""  #: the file it was read from, for messages
