"""A car's launch as a short table: a column a surface."""

from __future__ import annotations

from dataclasses import dataclass

from dynoan.jobs.launch import LaunchAnswer
from dynoan.jobs.launch.figures import BY_KEY
from dynoan.show.text.launch import BAND_COVERS, banded, head
from dynoan.show.text.launch_levers import sentences
from dynoan.show.text.restated import restated
from dynoan.show.text.sentences import capital
from dynoan.units import Shown

#: what is looked at first; the command shows more
KEYS = (
    "level_nose_rise_m", "level_nose_rise_rate_m_s", "level_rear_squat_m", "driven_load_least_n", "driven_load_rms_n",
    "front_wheel_lift_s", "acceleration_end_m_s2",
)  # fmt: skip

TAKEN = "Taken for granted, what counts most first"


@dataclass(frozen=True)
class LaunchCell:
    """One figure on one surface, and its band where it shows."""

    value: str
    band: str


@dataclass(frozen=True)
class LaunchRow:
    """One figure with its unit, on each surface."""

    name: str
    cells: tuple[LaunchCell, ...]


@dataclass(frozen=True)
class LaunchFigures:
    """A launch as words: a column a surface, a row a figure, what decides, what was taken for granted."""

    surfaces: tuple[str, ...]
    rows: tuple[LaunchRow, ...]
    decides: tuple[str, ...]  #: a sentence a surface on which the wheels spin
    covers: str  #: what the bands hold
    granted: tuple[str, ...]  #: what was taken for granted, a sentence each, what counts most first


def launch_figures(answer: LaunchAnswer, units: Shown) -> LaunchFigures:
    """Return the figures of a car as it is, a column a surface."""
    measures = [BY_KEY[key] for key in KEYS]
    rows = tuple(LaunchRow(capital(head(m, units)), tuple(_cell(banded(m, run, units)) for run in answer.runs))
                 for m in measures)  # fmt: skip
    surfaces = tuple(run.surface or run.label for run in answer.runs)
    granted = tuple(f"{capital(note)}." for note in answer.assumptions)
    decides, granted = (
        tuple(restated(text, units) for text in texts) for texts in (sentences(answer.levers, units), granted)
    )
    return LaunchFigures(surfaces, rows, decides, restated(f"The {BAND_COVERS}.", units), granted)


def _cell(text: str) -> LaunchCell:
    value, _, band = text.partition(" (")
    return LaunchCell(value, band.rstrip(")"))
