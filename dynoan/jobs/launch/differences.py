"""What a setting or a what-if changes of the figures that the road decides: both met the same roads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dynoan.analysis.launch.compare import LaunchRun
from dynoan.analysis.launch.differences import difference
from dynoan.jobs.measures import Measure
from dynoan.model.banded import Banded

Changes = Mapping[str, Banded | None]  #: by a figure's key, SI


@dataclass(frozen=True)
class RunDifference:
    """One run held against the first on its surface."""

    label: str
    surface: str
    against: str  #: label of the first
    roads: int  #: that both met; 0 on a surface without roughness
    changes: Changes

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain values; None where a run has no such figure."""
        figures = {
            key: None if change is None else {"value": change.value, "low": change.low, "high": change.high}
            for key, change in self.changes.items()
        }
        return {"label": self.label, "surface": self.surface, "against": self.against, "roads": self.roads,
                "changes": figures}  # fmt: skip

    @property
    def differs(self) -> bool:
        """Whether anything changes at all."""
        return any(change is not None and (change.low, change.high) != (0.0, 0.0) for change in self.changes.values())


def _changed(key: str) -> Any:
    return lambda changes: changes.get(key)


#: the figures whose differences are told; distances differ by centimetres, so they are told as lengths
CHANGES: tuple[Measure[Changes], ...] = (
    Measure("distance_m", "distance covered", _changed("distance_m"), "length"),
    Measure("wheelspin_s", "time spinning", _changed("wheelspin_s"), unit="s", digits=3),
    Measure("driven_load_rms_n", "unsteadiness of the driven tyres", _changed("driven_load_rms_n"), "force"),
)


def differences(runs: Sequence[LaunchRun], paired: Sequence[bool] = ()) -> tuple[RunDifference, ...]:
    """Return every run on one surface held against the first of them.

    Parameters
    ----------
    runs
        On one surface.
    paired
        Which have the same curves as the first; none do where left out.
    """
    first, *others = runs
    roads = len(first.roads.get("distance_m", ()))
    alike = list(paired[1:]) or [False] * len(others)
    return tuple(
        RunDifference(run.label, run.surface, first.label, roads,
                      {m.key: difference(first, run, m.key, paired=same) for m in CHANGES})
        for run, same in zip(others, alike, strict=True)
    )  # fmt: skip
