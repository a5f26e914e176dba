"""What logged launches tell of a car, as people read it."""

from __future__ import annotations

from dynoan.analysis.learning.judging import LearnedValue
from dynoan.analysis.learning.values import LINKS
from dynoan.cautions import CLOSED_COURSE
from dynoan.jobs.learn import LearnAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import Shown, shown

VERDICTS = {
    "better": "The launch left out is predicted better with what the others tell.",
    "no better": "The launch left out is predicted no better: something else differs, not these values. "
    "Nothing is written.",
    "untried": "Told, but not tried on a launch that was left out.",
    "cannot tell": "Cannot tell whether the car is known better now.",
}
#: what would tell a value that a launch as logged cannot, by the end of its key
ELSEWHERE = {
    "tyre": "no launch tells it well; a pushed corner does: dynoan bounce",
    "mass": "no launch alone: heavier and stiffer alike moves alike; scales under each wheel",
    "spring": "a spring rater, or the travel under a known weight",
    "shock_ratio": "measure shock and wheel travel with the spring out",
    "damping": "a pushed corner: dynoan bounce",
    "pitch_inertia": "a harder launch on smooth ground",
    "cg_height": "a harder launch on smooth ground, or scales with one axle raised",
    "antisquat": "a harder launch on smooth ground, or the points of its links",
    "body": "a harder launch on smooth ground, or the points of the links measured again",
    "grip": "more launches at the tyres' limit",
}
#: where what stands in no car file comes from
_OTHER = {"damping": "the dyno's curve, usual ±", "body": "its points, usual ±"}
_CHANNELS = {"front": "a front shock", "rear": "a rear shock", "acceleration": "acceleration", "speed": "speed"}


def blocks(answer: LearnAnswer, look: Look) -> list[Block]:
    """Return how the logs were understood, the values before and after, what cannot be told, and what was tried."""
    logs = [
        Paragraph(f"{log.launch.name}: {'; '.join(log.understood if look.more else _short(log.understood))}")
        for log in answer.logs
    ]
    values = [_values(answer, look.units), *_remarks(answer), *_untold(answer)]
    return [*logs, *values, _tried(answer, look.units), *_changes(answer), Paragraph(CLOSED_COURSE)]


def _short(lines: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(line.replace(", compression taken as positive", "") for line in lines)


def _values(answer: LearnAnswer, units: Shown) -> Table:
    rows = [_row(v, units, doubted=answer.doubted) for v in answer.values]
    return Table(["value", "before", "from", "these logs say", "told"], rows)


def _remarks(answer: LearnAnswer) -> list[Block]:
    said = [f"surfaces.{answer.question.surface}.grip: what these launches used; tyres not at their limit have more."]
    if any(v.before.key == LINKS for v in answer.values):
        said.append(f"{LINKS}: how much higher the links' ends at the body sit than the file says; measure them again.")
    return [Paragraph(" ".join(said))]


def _row(v: LearnedValue, units: Shown, *, doubted: bool) -> list[str]:
    whence = "the file's ±" if v.before.stated else "usual ±"
    words = whence if v.before.in_file else _OTHER.get(v.before.key.rpartition(".")[2], "estimated, usual ±")
    half = v.before.half_width
    dash = " to " if v.after.low < 0 else "–"
    before = f"{number(v, v.before.value, units)} ± {number(v, half, units)}{_unit(v, units)}"
    if v.short_of_limit:
        return [v.before.key, before, words, f"used some {number(v, v.after.value, units)}", "no"]
    told = "no" if not v.told else "doubtful" if doubted else "yes"
    limits = f"{number(v, v.after.low, units)}{dash}{number(v, v.after.high, units)}"
    return [v.before.key, before, words, f"{number(v, v.after.value, units)} ({limits}){_unit(v, units)}", told]


def number(value: LearnedValue, si: float, units: Shown) -> str:
    """Return a figure of a value as people see it, without its unit."""
    kind = value.before.kind
    if kind == "share":
        return f"{100 * si:.0f}"
    return shown(kind, units).text(si, unit=False) if kind else f"{si:.3f}"


def _unit(value: LearnedValue, units: Shown) -> str:
    kind = value.before.kind
    return " %" if kind == "share" else f" {shown(kind, units).unit}" if kind else ""


def _untold(answer: LearnAnswer) -> list[Block]:
    open_ones = [v for v in answer.values if not v.told]
    if not open_ones:
        return []
    logged = {n for log in answer.launches for n in log.names}
    lacking = " and ".join(words for name, words in _CHANNELS.items() if name not in logged)
    rows = [[v.before.key, _help(v, lacking)] for v in open_ones]
    return [Table(["value", "what would tell it"], rows, "What these logs cannot tell")]


def _help(value: LearnedValue, lacking: str) -> str:
    if value.helped_by == "channels":
        return f"log {lacking} too"
    if value.helped_by == "smooth":
        return "the same on smooth ground"
    if value.helped_by == "both":
        return f"log {lacking} too, on smooth ground" if lacking else "the same on smooth ground"
    return ELSEWHERE[value.before.key.rpartition(".")[2]]


DOUBTED = "Cannot tell: the launch model does not follow these logs, so what it makes of the car is not to be believed."


def _tried(answer: LearnAnswer, units: Shown) -> Paragraph:
    verdict = VERDICTS[answer.verdict]
    if not any(v.told for v in answer.values):
        verdict = "Cannot tell: these logs narrow none of the values."
    if answer.doubted:
        verdict = DOUBTED
    if answer.tried is None:
        return Paragraph(verdict)
    length, tried = shown("length", units), answer.tried
    before, after = length.text(tried.before), length.text(tried.after)
    missed = f"its shocks' travel, evened over half a second, is missed by {before} with the values before"
    least = f"road, sensors and the launch model leave up to some {length.text(tried.floor)} of it whatever the car is"
    return Paragraph(f"{tried.name} left out: {missed}, by {after} with what the other logs tell; {least}. {verdict}")


def _changes(answer: LearnAnswer) -> list[Block]:
    if not answer.changes:
        return []
    if not answer.sound:
        return [Paragraph("Nothing of it is written into the car's file.")]
    title = "Written into the car's file" if answer.written else "With --write the car's file would change so"
    rows = [[f"[{c.table}]" if c.table else "", c.old or "(new)", c.new] for c in answer.changes]
    return [Table(["table", "was" if answer.written else "is", "becomes"], rows, title)]
