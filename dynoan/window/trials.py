"""Trials in the log book: planned, their runs noted, struck out and counted again."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import quote

from dynoan.errors import CallError
from dynoan.jobs.trial import new as trial_new
from dynoan.jobs.trial import run as trial_run
from dynoan.jobs.undo import text_place

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.window.desk import Desk


def plan_trial(desk: Desk, form: FormData, _: Request) -> str:
    """Keep a new trial."""
    given = {str(k): str(v).strip() for k, v in form.items()}
    less = {"less": True, "more": False}.get(given.get("better", ""))
    asked = trial_new.TrialNewQuestion.asked(
        given.get("name", ""), given.get("a", ""), given.get("b", ""), less=less, unit=given.get("unit", "s"),
        plan=given.get("plan") or "abba", measure=given.get("measure", ""), surface=given.get("surface") or None,
    )  # fmt: skip
    with desk.bench() as bench, desk.change("a trial planned") as made:
        found = trial_new.answer(bench, asked)
        made.add(text_place("trials", found.found.trial.name))
    desk.say(f"Trial {found.found.trial.name} is planned.", undo=True)
    return f"/log?trial={quote(found.found.trial.name)}#trials"


def note(desk: Desk, form: FormData, _: Request) -> str:
    """Note a run of a trial."""
    name, setting, result = (str(form.get(k, "")).strip() for k in ("trial", "setting", "result"))
    with desk.bench() as bench, desk.change(f"a run of {name} noted", [text_place("trials", name)]):
        asked = trial_run.TrialRunQuestion.asked(name, setting, [result], sure=True)  # it is said, and can be undone
        found = trial_run.answer(bench, asked)
    for text in found.warnings:
        desk.say(text)
    desk.say("Noted.", undo=True)
    return f"/log?trial={quote(name)}#trials"


def strike(desk: Desk, form: FormData, _: Request) -> str:
    """Strike a run of a trial out with its reason, or count it again."""
    name, run, reason = (str(form.get(k, "")).strip() for k in ("trial", "run", "reason"))
    if not run.isdecimal():
        raise CallError("there is no such run")
    words = f"run {run} of {name} struck out" if reason else f"run {run} of {name} counted again"
    with desk.bench() as bench, desk.change(words, [text_place("trials", name)]):
        trial_run.answer(bench, trial_run.TrialRunQuestion.asked(name, strike=int(run), reason=reason))
    desk.say(f"{words[:1].upper()}{words[1:]}.", undo=True)
    return f"/log?trial={quote(name)}#trials"
