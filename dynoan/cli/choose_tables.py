"""What `dynoan choose` found, as tables for people, as JSON, and as what to draw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dynoan.cli.call import Call
from dynoan.cli.choose_inputs import counted
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import DIRECTIONS
from dynoan.model.shock import clicks_text
from dynoan.units import shown as shown_unit

if TYPE_CHECKING:
    from dynoan.analysis.choosing.aims import Group
    from dynoan.analysis.choosing.choice import Choice, Reached
    from dynoan.analysis.choosing.choose import Plan, Rules
    from dynoan.model.car import Car, Corner
    from dynoan.model.curve import Curve
    from dynoan.model.shock import Shock
    from dynoan.workbench import Workbench

KEYS = tuple((d, at) for d in DIRECTIONS for at in ("low", "high"))
Ranked = Sequence[tuple["Plan", ...]]


@dataclass(frozen=True)
class Shown:
    """What is needed to show choices: who asked, whose clicks, which rules."""

    call: Call
    bench: Workbench
    car: Car
    rules: Rules

    def shocks(self, choice: Choice) -> dict[str, Shock]:
        """Return by corner whose counting the clicks of a choice use."""
        names = dict.fromkeys(r.corner for r in choice.reached)
        return {name: self.bench.corner_shock(self.car.corners[name], choice.pack) for name in names}

    def clicks(self, choice: Choice) -> dict[str, dict[str, int]]:
        """Return the clicks of a choice by corner, as each corner's shock counts."""
        return {name: shock.to_counted(choice.clicks) for name, shock in self.shocks(choice).items()}

    def clicks_text(self, choice: Choice) -> str:
        """Return the clicks of a choice as text; by corner where the shocks count differently."""
        each = self.clicks(choice)
        if len({clicks_text(c) for c in each.values()}) == 1:
            return clicks_text(next(iter(each.values())))
        return "; ".join(f"{name} {clicks_text(c)}" for name, c in each.items())

    def json(self, ranked: Ranked) -> list[dict[str, Any]]:
        """Return all choices, best first."""
        rows = []
        for rank in range(max(len(plans) for plans in ranked)):
            for plans in ranked:
                if rank < len(plans):
                    rows += [self._choice_json(choice, rank + 1) for choice in plans[rank].choices]
        return rows

    def _choice_json(self, choice: Choice, rank: int) -> dict[str, Any]:
        clicks = self.clicks(choice)
        return {
            "where": choice.where,
            "rank": rank,
            "pack": choice.pack,
            "clicks": next(iter(clicks.values())),
            "clicks_by_corner": clicks,
            "clicks_from_closed": dict(choice.clicks),
            "ratio": _ratios_json(choice, "value"),
            "low": _ratios_json(choice, "low"),
            "high": _ratios_json(choice, "high"),
            "miss": choice.miss,
            "miss_low": choice.miss_low,
            "miss_high": choice.miss_high,
            "fits": choice.fits,
            "fits_for_sure": choice.sure,
            "standing": choice.standing,
            "limits": dict(choice.ends),
            "per_click": {n: _nested(per) for n, per in self.per_click(choice).items()},
            "wanted": [_reached_json(r) for r in choice.reached],
        }

    def per_click(self, choice: Choice) -> dict[str, dict[Any, float]]:
        """Return the change of each ratio by one click up, as the first corner's shock counts."""
        shock = next(iter(self.shocks(choice).values()))
        soft = {a.name for a in shock.adjusters if a.counted == "from soft"}
        return {n: {k: -v if n in soft else v for k, v in per.items()} for n, per in choice.sensitivity.items()}

    def drawings(self, groups: Sequence[Group], ranked: Ranked) -> list[Drawing]:
        """Return what to draw: for each place what is on the car and the best choice, at the first corner."""
        best = {c.where: c for plans in ranked for c in plans[0].choices}
        return [self._drawing(best[place.name], place.aims[0].corner) for group in groups for place in group.places]

    def _drawing(self, choice: Choice, corner: Corner) -> Drawing:
        clicks = self.clicks(choice)[corner.name]
        chosen = self.bench.corner_curve(self.car, corner, clicks=clicks, pack=choice.pack)
        lines = [(f"best: {chosen.what}", corner, chosen)]
        if corner.pack:
            now = self.bench.corner_curve(self.car, corner)
            lines.insert(0, (f"now: {now.what}", corner, now))
        signs = {"compression": 1.0, "rebound": -1.0}
        own = [r.wanted for r in choice.reached if r.corner == corner.name]
        wanted = tuple((signs[w.direction] * w.velocity, w.ratio) for w in own)
        title = f"{self.car.name}, {choice.where}" + (
            "" if choice.where == corner.name else f" ({CORNER_NAMES[corner.name]} drawn)"
        )
        return Drawing(title, tuple(lines), wanted)


@dataclass(frozen=True)
class Drawing:
    """One panel of the picture."""

    title: str
    lines: tuple[tuple[str, Corner, Curve], ...]
    wanted: tuple[tuple[float, float], ...]  #: (signed velocity [m/s], ratio)


def show(shown: Shown, ranked: Ranked) -> None:
    """Print the ranking, and what stands behind the best of each place; nothing with --json."""
    if shown.call.json:
        return
    for plans in ranked:
        _show_ranking(shown, plans)
        for choice in plans[0].choices:
            _show_best(shown, choice)


def _show_ranking(shown: Shown, plans: tuple[Plan, ...]) -> None:
    from dynoan.show.text.tables import table

    several = len(plans[0].choices) > 1
    columns = [
        "",
        "where",
        "pack",
        "clicks",
        "comp low",
        "comp high",
        "reb low",
        "reb high",
        "miss %",
        "fits",
        "ground",
    ]
    rows = [
        [str(i + 1), c.where, c.pack, shown.clicks_text(c), *(f"{c.ratio[k].value:.2f}" for k in KEYS),
         f"{100 * c.miss:.1f}", _fits(c), c.standing]
        for i, plan in enumerate(plans) for c in plan.choices
    ]  # fmt: skip
    where = "each plan" if several else plans[0].choices[0].where
    shocks = [s for c in plans[0].choices for s in shown.shocks(c).values()]
    table(columns, rows, title=f"Best for {where} ({counted(shocks)})")
    shown.call.say()


def _fits(choice: Choice) -> str:
    return "yes" if choice.sure else "likely" if choice.fits else "no"


def _show_best(shown: Shown, choice: Choice) -> None:
    from dynoan.show.text.tables import table

    velocity = shown_unit("velocity", shown.call.shown_units)
    slack = shown.rules.tolerance
    rows = []
    for r in choice.reached:
        at = velocity.text(r.wanted.velocity, unit=False)
        limits = f"{r.ratio.low:.2f}–{r.ratio.high:.2f}"
        rows.append([CORNER_NAMES[r.corner], r.wanted.direction, at, f"{r.wanted.ratio:.2f}", f"{r.ratio.value:.2f}",
                     limits, f"{100 * r.off:+.0f}", _verdict(r, slack)])  # fmt: skip
    columns = ["corner", "direction", velocity.unit, "wanted", "gives", "95 % limits", "off %", ""]
    table(columns, rows, title=f"{choice.where}: {choice.pack} {shown.clicks_text(choice)}")
    per = shown.per_click(choice)
    rows = [[name, *(_step(per[name][k]) for k in KEYS), choice.ends.get(name, "")] for name in per]
    shown.call.say()
    table(["one click up", "comp low", "comp high", "reb low", "reb high", "stands at"], rows)
    shown.call.say()


def _verdict(reached: Reached, slack: float) -> str:
    mark = "beyond the data" if reached.ratio.extrapolated else ""
    return mark if abs(reached.off) <= slack + 1e-6 else ", ".join(filter(None, ("out of tolerance", mark)))


def _step(change: float) -> str:
    return "0" if abs(change) < 5e-4 else f"{change:+.3f}"


def _ratios_json(choice: Choice, what: str) -> dict[str, Any]:
    values = {k: float(getattr(choice.ratio[k], what)) for k in KEYS}
    return _nested(values) | {"mean": sum(values.values()) / len(values)}


def _nested(flat: dict[Any, float]) -> dict[str, Any]:
    return {d: {at: flat[d, at] for at in ("low", "high")} for d in DIRECTIONS}


def _reached_json(reached: Reached) -> dict[str, Any]:
    w, r = reached.wanted, reached.ratio
    return {"corner": reached.corner, "direction": w.direction, "velocity_m_s": w.velocity, "wanted": w.ratio,
            "ratio": r.value, "low": r.low, "high": r.high, "extrapolated": bool(r.extrapolated)}  # fmt: skip
