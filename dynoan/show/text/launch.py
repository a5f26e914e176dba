"""What `launch` found, as people read it in a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.analysis.launch.compare import LaunchRun
from dynoan.cautions import SHORT
from dynoan.jobs.launch import LaunchAnswer, LaunchVerdict
from dynoan.jobs.launch.figures import BY_KEY, FIGURES, Figures
from dynoan.jobs.launch.not_in_file import COMES_IN, RISE_KEY, STUCK_KEY
from dynoan.jobs.measures import Measure
from dynoan.model.car import AXLES
from dynoan.show.text import launch_differences, launch_levers, lettered
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import Shown

#: what the band of a figure covers
BAND_COVERS = (
    "bands hold what is open of the damping curves (their 95 % bands, low and high, front and rear in turn), of the "
    "seals' friction where the dyno told it and of where it let the car stand, of what is taken for granted below with "
    "its bounds, and of the values that the car's file gives with ± (cars drawn from them), the squares added"
)


#: what is no key of a car's file, as people read it
SAID_OF = {
    RISE_KEY: "how the drive comes in (--rise)",
    **{f"{axle}.{STUCK_KEY}": f"where friction let the {axle} stand" for axle in AXLES},
}
#: a name of a run that is wider than this makes its column wider than its figures do: a letter stands there instead
WIDEST_NAME = 24


def blocks(answer: LaunchAnswer, look: Look) -> list[Block]:
    """Return the figures of the runs side by side, their bands, which is best, and what was taken for granted."""
    names = [run.label for run in answer.runs]
    return [
        *lettered.legend(names, _heads(names)),
        figures(answer.runs, look, _titled(answer)),
        *changes(answer, look),
        *(Paragraph(sentence(v)) for v in answer.verdicts),
        *deciding(answer, look),
        Paragraph(f"The {BAND_COVERS}."),
        *granted(answer.assumptions),
        Paragraph(SHORT),
    ]


def granted(notes: Sequence[str]) -> list[Block]:
    """Return what was taken for granted, with the shell's option where one takes its place."""
    return [Paragraph(f"Taken for granted: {note}{' (--rise)' if COMES_IN in note else ''}.") for note in notes]


def deciding(answer: LaunchAnswer, look: Look) -> list[Block]:
    """Return what decides where the wheels spin, and what to measure first."""
    return [*launch_levers.blocks(answer.levers, look), *measure_first(answer, look.units)]


def changes(answer: LaunchAnswer, look: Look) -> list[Block]:
    """Return what each setting changes against what is on the car, a table a surface."""
    found, out = answer.differences, []
    heads = dict(zip((run.label for run in answer.runs), _heads([run.label for run in answer.runs]), strict=True))
    for runs in answer.by_surface:
        here = [one for one in found if one.surface == runs[0].surface]
        by_letter = heads[runs[0].label] != runs[0].label
        labels = [heads[run.label] if by_letter else run.setting or run.label for run in runs]
        out += launch_differences.blocks(here, labels, look)
    return out


def _heads(labels: Sequence[str]) -> list[str]:
    """Return what stands over the runs' columns: their names, or letters where one is wider than its figures."""
    wide = len(labels) > 1 and max(map(len, labels)) > WIDEST_NAME
    return lettered.heads(labels, wide=wide)


def measure_first(answer: LaunchAnswer, units: Shown) -> list[Block]:
    """Return which value of the car to measure first, with what it moves; nothing where nothing is unsure."""
    found = answer.measure_first
    rows = []
    for one in found:
        measure = BY_KEY[one.figure]
        ends = [measure.display(units).text(value, unit=False) for value in (one.low, one.high)]
        moved = f"{ends[0]} / {ends[1]} {measure.unit_text(units)}"
        rows.append([one.surface, SAID_OF.get(one.key, one.key), measure.words, moved])
    table = Table(["surface", "measure first", "it moves", "by, at its lower / upper end"], rows,
                  "What is unsure and counts most")  # fmt: skip
    return [table] if rows else []


def _titled(answer: LaunchAnswer) -> str:
    surfaces = dict.fromkeys(run.surface for run in answer.runs)
    return f"{answer.question.car} leaves the line on {' and on '.join(surfaces)}"


def figures(runs: Sequence[LaunchRun], look: Look, title: str = "") -> Table:
    """Return the figures of runs side by side, each with its band where the band shows."""
    wanted = [m for m in FIGURES if look.more or m.terminal == "always"]
    rows = [[head(m, look.units), *(banded(m, run, look.units) for run in runs)] for m in wanted]
    if not look.more:  # what no run can tell, or no car here has, is not worth a line
        rows = [row for row in rows if any(cell != "–" for cell in row[1:])]
    return Table(["", *_heads([run.label for run in runs])], rows, title, alike=True)


def head(measure: Measure[Figures], units: Shown) -> str:
    """Return a figure's name with its unit, such as "distance covered [m]"."""
    return f"{measure.words} [{measure.unit_text(units)}]"


def banded(measure: Measure[Figures], run: LaunchRun, units: Shown) -> str:
    """Return a figure with its band, such as "17.3 (16.9 to 17.8)"; without where the band does not show."""
    value, low, high = (measure.text(of, units) for of in (run.metrics, run.low, run.high))
    return value if low == high or "–" in (value, low, high) else f"{value} ({low} to {high})"


def with_unit(measure: Measure[Figures], of: Figures, units: Shown) -> str:
    """Return a figure with its unit, "–" where the run cannot tell."""
    text = measure.text(of, units)
    return text if text == "–" else f"{text} {measure.unit_text(units)}"


#: why no setting tells where the driven wheels spin all the while
SPUN = (
    "The engine has far more than this surface holds, so the wheels spin nearly all the while, whatever the shocks do: "
    "a lighter foot decides (--slip 0.15 for a driver who lifts, or --torque), not clicks."
)


def sentence(found: LaunchVerdict) -> str:
    """Return which run is best in a figure, or that the bands cannot tell."""
    if found.verdict == "no difference" and found.spun_through:
        return f"{found.words}: no difference. {SPUN}"
    if found.verdict == "no difference":
        return f"{found.words}: no difference."
    if found.verdict == "best":
        return f"{found.words}: {found.best}."
    return (
        f"{found.words}: cannot tell; {found.best} comes out best, but {found.next} is no further off than roads and "
        "damping curves leave open."
    )
