"""``trials/NAME.toml``: a test at the track, as text that people can read and edit.

::

    question = "does less rear rebound get off the line quicker?"
    a = "rear=@lsr=6"
    b = "rear=@lsr=10"
    better = "less"
    unit = "s"
    plan = "abba"

    [[run]]
    setting = "a"
    result = "4.83 s"
    date = "2026-05-02T10:12"

    [[run]]
    setting = "b"
    result = "5.90 s"
    struck = "missed the start"

Runs stand in the order they were driven. One struck out stays, with its reason.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from dynoan.errors import QuantityError
from dynoan.library.tables import TomlTable
from dynoan.library.toml_text import parse_toml
from dynoan.model.dates import iso_date
from dynoan.model.results import result_of
from dynoan.model.trial import SIDES, Trial, TrialRun

KEYS = ("question", "a", "b", "better", "unit", "plan", "measure", "worth", "car", "surface", "date", "remarks", "run")
RUN_KEYS = ("setting", "result", "date", "struck", "remarks")
MOST_RUNS = 500
LONGEST = {"question": 500, "remarks": 20_000, "struck": 500}
_HEAD = re.compile(r"\s*\[\[\s*run\s*\]\]")


def plan_of(text: str) -> str:
    """Return an order of runs such as "abba" without dashes; `QuantityError` where it is none."""
    plan = re.sub(r"[\s\-,–]+", "", text).lower()
    if not 2 <= len(plan) <= 40 or set(plan) != {"a", "b"}:
        raise QuantityError(
            f"'{text[:60]}' is no order of runs", hint="write it like abba: each of a and b once at least"
        )
    return plan


def trial_from_text(text: str, file: str, name: str) -> Trial:
    """Return the trial that a file describes.

    Raises
    ------
    QuantityError
        If the text is not TOML, or a key is unknown, missing, or its value impossible; file and key are named.
    """
    facts = TomlTable(parse_toml(text, file), file, KEYS)
    unit = facts.text("unit", 30) or ""
    better = facts.choice("better", ("less", "more"))
    if better is None:
        raise facts.fault("better", "missing", hint='write better = "less" for times, better = "more" for speeds')
    return Trial(
        name=name, a=_wanted(facts, "a"), b=_wanted(facts, "b"), less=better == "less", unit=unit,
        plan=_plan(facts), question=facts.text("question", LONGEST["question"]) or "",
        measure=facts.text("measure") or "", worth=_worth(facts, unit), car=facts.text("car"),
        surface=facts.text("surface"), date=_date(facts), remarks=facts.text("remarks", LONGEST["remarks"]) or "",
        runs=_runs(facts, unit), file=file,
    )  # fmt: skip


def trial_to_text(trial: Trial) -> str:
    """Return a trial as the text of its file, without the runs where it has none."""
    import tomli_w

    unit = f" {trial.unit}".rstrip()
    facts: dict[str, Any] = {
        "question": trial.question, "a": trial.a, "b": trial.b, "better": "less" if trial.less else "more",
        "unit": trial.unit, "measure": trial.measure, "plan": trial.plan,
        "worth": "" if trial.worth is None else f"{_number(trial.worth, trial.unit)}{unit}",
        "car": trial.car, "surface": trial.surface, "date": trial.date, "remarks": trial.remarks,
    }  # fmt: skip
    head = "".join(tomli_w.dumps({key: value}) for key, value in facts.items() if value)
    text = head + "".join(run_text(run) for run in trial.runs)
    if replace(trial_from_text(text, "trial", trial.name), file=trial.file) != trial:
        raise QuantityError(
            "it cannot be kept as text word for word", where=f"trial {trial.name}", hint="use plainer words"
        )
    return text


def run_text(run: TrialRun) -> str:
    """Return a run as the piece of a trial's file it is."""
    import tomli_w

    facts = {"setting": run.setting, "result": run.text, "date": run.date, "struck": run.struck, "remarks": run.remarks}
    return "\n[[run]]\n" + tomli_w.dumps({key: value for key, value in facts.items() if value})


def with_runs(text: str, runs: tuple[TrialRun, ...]) -> str:
    """Return a trial's text with runs behind it; the team's own words and comments stay."""
    return text.rstrip("\n") + "\n" + "".join(run_text(run) for run in runs)


def with_struck(text: str, place: int, reason: str) -> str:
    """Return a trial's text with the run at a place (from 0) struck out, or counted again where no reason is given."""
    import tomli_w

    lines = text.splitlines(keepends=True)
    heads = [n for n, line in enumerate(lines) if _HEAD.match(line)]
    at = heads[place]
    end = heads[place + 1] if place + 1 < len(heads) else len(lines)
    body = [line for line in lines[at + 1 : end] if not re.match(r"\s*struck\s*=", line)]
    told = [tomli_w.dumps({"struck": reason})] if reason else []
    return "".join([*lines[:at], lines[at].rstrip("\n") + "\n", *told, *body, *lines[end:]])


def _number(value: float, unit: str) -> str:
    from dynoan.model.results import result_factor

    return f"{value / result_factor(unit):.12g}"


def _wanted(facts: TomlTable, key: str) -> str:
    text = facts.text(key, 500)
    if not text or not text.strip():
        raise facts.fault(key, "missing", hint=f'say what {key} is, such as {key} = "rear=@lsr=6"')
    return text


def _plan(facts: TomlTable) -> str:
    try:
        return plan_of(facts.text("plan") or "abba")
    except QuantityError as error:
        raise error.again(where=facts.where("plan")) from None


def _worth(facts: TomlTable, unit: str) -> float | None:
    text = facts.text("worth", 60)
    if text is None:
        return None
    try:
        worth = result_of(text, unit)
    except QuantityError as error:
        raise error.again(where=facts.where("worth")) from None
    if worth <= 0:
        raise facts.fault("worth", f"'{text}' is no difference", hint="write a number above zero")
    return worth


def _date(facts: TomlTable) -> str:
    date = facts.text("date")
    return "" if date is None else iso_date(date, facts.where("date"))


def _runs(facts: TomlTable, unit: str) -> tuple[TrialRun, ...]:
    found = facts.data.get("run", [])
    if not isinstance(found, list) or len(found) > MOST_RUNS:
        raise facts.fault("run", f"wanted at most {MOST_RUNS} pieces that begin with [[run]]")
    return tuple(_run(TomlTable(run, facts.file, RUN_KEYS, f"run {n}"), unit) for n, run in enumerate(found, 1))


def _run(run: TomlTable, unit: str) -> TrialRun:
    setting = run.choice("setting", SIDES)
    text = run.text("result", 60)
    if setting is None or text is None:
        raise run.fault("setting" if setting is None else "result", "missing", hint="a run has a setting and a result")
    try:
        result = result_of(text, unit)
    except QuantityError as error:
        raise error.again(where=run.where("result")) from None
    return TrialRun(
        "a" if setting == "a" else "b", result, text, _date(run), run.text("struck", LONGEST["struck"]) or "",
        run.text("remarks", LONGEST["remarks"]) or "",
    )  # fmt: skip
