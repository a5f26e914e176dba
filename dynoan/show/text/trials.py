"""Trials as people read them: results in the team's unit, the verdict in a sentence, how to go on."""

from __future__ import annotations

import re

from dynoan.analysis.trials.assumptions import LEVEL, POWER
from dynoan.jobs.trial.judged import JudgedTrial
from dynoan.model.results import result_factor
from dynoan.model.trial import Trial
from dynoan.show.text.blocks import Table
from dynoan.show.text.signs import percent

_HELD = percent(1 - LEVEL)
_NAMED = 4  #: trials that a line names


def amount(trial: Trial, value: float, *, signed: bool = False, unit: bool = True) -> str:
    """Return a result in the trial's unit, to as many places as results were typed; a signed difference to one more."""
    places = max((_places(run.text) for run in trial.runs if not run.struck), default=1) + signed
    shown = value / result_factor(trial.unit)
    text = f"{shown:+.{places}f}" if signed else f"{shown:.{places}f}" if _shows(shown, places) else f"{shown:.2g}"
    return f"{text} {trial.unit}".rstrip() if unit else text


def _shows(value: float, places: int) -> bool:
    """Tell whether a value keeps two figures when it is written to so many places."""
    return value == 0 or abs(value) >= 10.0 ** (1 - places)


def _places(text: str) -> int:
    found = re.search(r"[.,](\d+)", text)
    return min(len(found[1]), 6) if found else 0


def runs_table(trial: Trial) -> Table:
    """Return the runs as a table, one struck out with its reason."""
    unit = f" [{trial.unit}]" if trial.unit else ""
    rows = [
        [str(n), run.setting, amount(trial, run.result, unit=False), run.date[:16].replace("T", " "),
         " ".join(filter(None, (f"struck out: {run.struck}" if run.struck else "", run.remarks)))]
        for n, run in enumerate(trial.runs, 1)
    ]  # fmt: skip
    return Table(["run", "setting", f"{trial.measure or 'result'}{unit}", "when", "remarks"], rows)


def settings_line(trial: Trial) -> str:
    """Return what a and b are, and which way is better."""
    better = "less" if trial.less else "more"
    return f"a: {trial.a}\nb: {trial.b}\n{trial.measure or 'result'}: {better} is better"


def verdict_line(found: JudgedTrial) -> str:
    """Return the verdict with its limits, in a sentence."""
    trial, judged = found.trial, found.judged
    if judged is None or judged.fit.difference is None:
        return "Cannot tell yet: a and b must be run in turn, so that the day's drift can be told from the difference."
    if judged.found is None:
        seen = amount(trial, judged.fit.difference, signed=True)
        return f"Cannot tell yet: b differs from a by {seen}, but so few runs do not show how much runs scatter."
    limits = judged.found
    span = f"{amount(trial, limits.low, signed=True, unit=False)} to {amount(trial, limits.high, signed=True)}"
    by = amount(trial, limits.difference, signed=True)
    told = f"b differs from a by {by} ({span} on {_HELD} of such days), drift taken out"
    words = {"b better": "b is better", "a better": "a is better", "cannot tell": "Cannot tell"}
    return f"{words[judged.verdict]}: {told}."


def onward_lines(found: JudgedTrial) -> list[str]:
    """Return what ranks say, whether the difference matters, and which runs are next."""
    lines = [text for text in (_ranks(found), _lent(found), _matters(found)) if text]
    if found.verdict == "cannot tell":
        lines.append(_more(found))
    return lines


def _ranks(found: JudgedTrial) -> str:
    ranks = None if found.judged is None else found.judged.ranks
    if ranks is None:
        return ""
    if ranks.least > LEVEL:
        return (
            "By the order of the results alone so few runs cannot tell anything: chance would part a and b as "
            f"clearly as can be on {_share(ranks.least)} of days."
        )
    return (
        "By the order of the results alone, chance would part a and b so clearly on "
        f"{_share(ranks.p)} of days (rank test, p {ranks.p:.2g})."
    )


def _share(value: float) -> str:
    """Return a share in percent to two figures, such as "2.9 %", never with a power of ten."""
    return f"{float(f'{100 * value:.2g}'):g} %"


def _lent(found: JudgedTrial) -> str:
    if found.lent is None or not found.lent_by:
        return ""
    names = ", ".join(found.lent_by[:_NAMED]) + (
        f" and {len(found.lent_by) - _NAMED} more" if len(found.lent_by) > _NAMED else ""
    )
    return f"How runs scatter is taken from earlier trials too, {amount(found.trial, found.lent.sd)} a run: {names}."


def _matters(found: JudgedTrial) -> str:
    worth = found.trial.worth
    if not found.below_worth or worth is None:
        return ""
    return f"Whichever way it is, the difference is below the {amount(found.trial, worth)} worth knowing."


def _more(found: JudgedTrial) -> str:
    go_on = f"Next run: {found.next}."
    if found.below_worth:
        return f"More runs are not worth it. {go_on}"
    aim = "tell how runs scatter"
    if found.sought is not None:
        what = "worth knowing" if found.trial.worth is not None else "seen so far"
        aim = f"find a difference of {amount(found.trial, found.sought)} ({what}) on {percent(POWER)} of days"
    if found.more_runs is None:
        return f"No number of runs that a day holds would {aim}. {go_on}"
    return f"{found.more_runs} more run{'s' * (found.more_runs != 1)} would {aim}. {go_on}"
