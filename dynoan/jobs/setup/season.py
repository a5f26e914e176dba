"""A season on each surface: what was changed when, what followed, and the baseline that is best supported.

Outings are no tests: between two of them the day, the driver and more changed too. What is claimed of a change comes
from trials alone, and only where the trial changed that one thing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dynoan.jobs.setup.plain import setup_row
from dynoan.jobs.trial.changed import differing, stated_values
from dynoan.jobs.trial.judged import JudgedTrial
from dynoan.model.car import CORNER_NAMES
from dynoan.model.setup import Setup

#: how well a baseline is supported, the best first
SUPPORT = ("won a trial", "good more than once", "good once", "nothing says so")


@dataclass(frozen=True)
class SeasonOuting:
    """One outing, what differed from the one before on that surface with that car, and what is known of that."""

    setup: Setup
    changed: tuple[str, ...]  #: from the outing before; empty for the first and where nothing did
    first: bool
    trials: tuple[str, ...]  #: names of trials of exactly this one change on this surface, with their verdicts

    @property
    def claim(self) -> str:
        """What may be said of the change: of one alone what its trial says, of several nothing."""
        if len(self.changed) > 1:
            return f"{len(self.changed)} things changed at once: no cause is claimed"
        if len(self.changed) == 1:
            return "; ".join(self.trials) or "not tested in a trial: no cause is claimed"
        return "" if self.first else "nothing changed"


@dataclass(frozen=True)
class SeasonBaseline:
    """The setup to go back to on a surface, and how well it is supported."""

    setup: Setup
    support: str  #: one of `SUPPORT`
    good: int  #: outings with just these settings that went well
    outings: int  #: outings with just these settings
    won: tuple[str, ...]  #: trials whose better side it is


@dataclass(frozen=True)
class SeasonSurface:
    """All of a season on one surface."""

    surface: str
    outings: tuple[SeasonOuting, ...]  #: oldest first
    trials: tuple[JudgedTrial, ...]
    baseline: SeasonBaseline | None  #: None without any outing but bad ones

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain values."""
        from dynoan.jobs.trial.plain import trial_dict

        base = self.baseline
        return {
            "surface": self.surface,
            "outings": [setup_row(o.setup) | {"changed": list(o.changed), "claim": o.claim} for o in self.outings],
            "trials": [trial_dict(t) for t in self.trials],
            "baseline": None if base is None else {
                "name": base.setup.name, "support": base.support, "good": base.good, "outings": base.outings,
                "won": list(base.won),
            },
        }  # fmt: skip


def season_of(setups: Sequence[Setup], trials: Sequence[JudgedTrial]) -> tuple[SeasonSurface, ...]:
    """Return the season by surface, in the order of their names; setups oldest first."""
    names: dict[str, str] = {}
    for text in [s.surface for s in setups] + [t.trial.surface for t in trials]:
        names.setdefault((text or "").casefold(), text or "")
    return tuple(_surface(names[key], setups, trials) for key in sorted(names))


def _surface(name: str, setups: Sequence[Setup], trials: Sequence[JudgedTrial]) -> SeasonSurface:
    mine = [s for s in setups if (s.surface or "").casefold() == name.casefold()]
    tested = tuple(t for t in trials if (t.trial.surface or "").casefold() == name.casefold())
    last: dict[str, Setup] = {}
    outings = []
    for setup in mine:
        before = last.get(setup.car.name)
        changed = () if before is None else differing(before, setup)
        outings.append(SeasonOuting(setup, changed, before is None, _tested(changed, tested)))
        last[setup.car.name] = setup
    return SeasonSurface(name, tuple(outings), tested, _baseline(mine, tested))


def _tested(changed: Sequence[str], trials: Sequence[JudgedTrial]) -> tuple[str, ...]:
    """Return the verdicts of the trials that changed just that one thing."""
    if len(changed) != 1:
        return ()
    return tuple(
        f"{t.trial.name}: {t.verdict} ({t.trial.a} against {t.trial.b})"
        for t in trials
        if t.changed.one and _in_words(t.changed.what[0]) == changed[0]
    )


def _in_words(what: str) -> str:
    """Return a difference of settings, such as "fl lsr", as one of setups has it: "front left lsr"."""
    where, _, rest = what.partition(" ")
    return f"{CORNER_NAMES.get(where, where)} {rest}"


def _baseline(setups: Sequence[Setup], trials: Sequence[JudgedTrial]) -> SeasonBaseline | None:
    """Return the best supported setup: by a trial won, then by good outings less bad ones, then the latest.

    One that went badly more often than well, and won no trial, is nothing to go back to.
    """
    found = []
    for place, setup in enumerate(setups):
        alike = [s for s in setups if s.car.name == setup.car.name and not differing(s, setup)]
        won = tuple(t.trial.name for t in trials if _is_better_side(setup, t))
        lost = sum(_is_worse_side(setup, t) for t in trials)
        good, bad = sum(s.good is True for s in alike), sum(s.good is False for s in alike)
        net = len(won) - lost
        if net <= 0 and good < bad:
            continue
        found.append(((max(net, 0), good - bad, net, place), SeasonBaseline(
            setup, _support(won, lost, good, bad), good, len(alike), won)))  # fmt: skip
    return max(found, key=lambda f: f[0])[1] if found else None


def _support(won: tuple[str, ...], lost: int, good: int, bad: int) -> str:
    if len(won) > lost:
        return SUPPORT[0]
    if good - bad > 1:
        return SUPPORT[1]
    return SUPPORT[2] if good > bad else SUPPORT[3]


def _is_better_side(setup: Setup, found: JudgedTrial) -> bool:
    sides = {"b better": (found.trial.b, found.trial.a), "a better": (found.trial.a, found.trial.b)}.get(found.verdict)
    return sides is not None and _matches(setup, *sides)


def _is_worse_side(setup: Setup, found: JudgedTrial) -> bool:
    sides = {"b better": (found.trial.a, found.trial.b), "a better": (found.trial.b, found.trial.a)}.get(found.verdict)
    return sides is not None and _matches(setup, *sides)


def _matches(setup: Setup, side: str, other: str) -> bool:
    """Tell whether a setup is a side of a trial: by its name, or because it has all that the trial turned.

    What only the other side states was turned too, and this side does not say what it had: nothing can match it.
    """
    if side.strip() == setup.name:
        return True
    stated, turned = stated_values(side) or {}, stated_values(other) or {}
    return bool(stated) and turned.keys() <= stated.keys() and all(_has(setup, *of) for of in stated.items())


_WHERE: Mapping[str, tuple[str, ...]] = {
    "front": ("fl", "fr"), "rear": ("rl", "rr"), "all": ("fl", "fr", "rl", "rr"),
    "fl": ("fl",), "fr": ("fr",), "rl": ("rl",), "rr": ("rr",),
}  # fmt: skip


def _has(setup: Setup, key: str, value: str) -> bool:
    where, _, what = key.partition(" ")
    corners = [setup.car.corners[c] for c in _WHERE.get(where, ())]
    if not corners or not what:
        return False
    if what == "pack":
        return all(c.pack == value for c in corners)
    return all(str(c.clicks.get(what)) == value for c in corners)
