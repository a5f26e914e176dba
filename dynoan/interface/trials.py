"""The jobs about tests at the track, for Python."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.trial.listing import TrialListAnswer
    from dynoan.jobs.trial.new import TrialNewAnswer
    from dynoan.jobs.trial.run import TrialRunAnswer
    from dynoan.jobs.trial.show import TrialShowAnswer


class TrialJobs(Asking):
    """A-B-A runs: planned, noted, judged."""

    def new_trial(
        self, name: str, a: str, b: str, *, less: bool | None = None, unit: str = "s", plan: str = "abba",
        question: str = "", measure: str = "", worth: str | float | None = None, car: str | None = None,
        surface: str | None = None, date: str | None = None, remarks: str = "",
    ) -> TrialNewAnswer:  # fmt: skip
        """Keep a new trial: two settings, driven in turn so that the day's drift can be taken out.

        Parameters
        ----------
        name
            Of the trial.
        a, b
            Setups, clicks such as "rear=@lsr=6", packs, or the team's own words.
        less
            Whether less is better; by default yes for times, and to be said for anything else.
        unit
            Of the results, such as "s", "km/h" or "points"; empty for none.
        plan
            The order of runs.
        worth
            The smallest difference worth knowing, in that unit.
        question, measure, car, surface, remarks
            In the team's words.
        date
            ISO 8601; by default today.

        Raises
        ------
        CallError, QuantityError, LookupFault, LibraryError
            As `dynoan.jobs.trial.new.answer` and `dynoan.jobs.trial.new.TrialNewQuestion.asked`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> planned = lib.new_trial("springs", "front spring=45 N/mm", "front spring=50 N/mm", worth="0.2 s")
        >>> planned.found.next, planned.found.changed.what
        ('a', ('front spring',))
        """
        from dynoan.jobs.trial.new import TrialNewQuestion, answer

        asked = TrialNewQuestion.asked(
            name, a, b, less=less, unit=unit, plan=plan, question=question, measure=measure, worth=worth, car=car,
            surface=surface, date=date, remarks=remarks,
        )  # fmt: skip
        return self._ask(answer, asked)

    def note_run(
        self, name: str, setting: str | None = None, *results: str | float, table: str | Path | None = None,
        column: str | None = None, strike: int | None = None, reason: str = "", date: str | None = None,
        remarks: str = "", sure: bool = False,
    ) -> TrialRunAnswer:  # fmt: skip
        """Note runs of a trial, or strike one out; return the trial as it stands then.

        Parameters
        ----------
        name
            Of the trial.
        setting
            "a" or "b".
        *results
            In the trial's unit, or text with a unit.
        table, column
            A CSV of results in the place of typed ones, and its column.
        strike, reason
            Number of a run, from 1, and why it does not count; it stays on record.
        date
            ISO 8601; by default now.
        remarks
            In the team's words.
        sure
            Note a time or a speed however far it is from the others.

        Raises
        ------
        CallError, QuantityError, LookupFault, ReadError, LibraryError
            As `dynoan.jobs.trial.run.answer` and `dynoan.jobs.trial.run.TrialRunQuestion.asked`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> _ = lib.new_trial("tyres", "old tyres", "new tyres", plan="ababa")
        >>> for setting, seconds in zip("ababab", (4.9, 4.6, 4.95, 4.67, 4.99, 4.71)):
        ...     noted = lib.note_run("tyres", setting, seconds)
        >>> noted.found.verdict, round(noted.found.judged.fit.difference, 2)
        ('b better', -0.31)
        """
        from dynoan.jobs.trial.run import TrialRunQuestion, answer

        asked = TrialRunQuestion.asked(
            name, setting, tuple(str(r) for r in results), table=None if table is None else Path(table), column=column,
            strike=strike, reason=reason, date=date, remarks=remarks, sure=sure,
        )  # fmt: skip
        return self._ask(answer, asked)

    def trial(self, name: str) -> TrialShowAnswer:
        """Return a trial with what its runs tell: ``found.verdict``, the difference with its limits, further runs.

        Raises
        ------
        LookupFault, QuantityError
            As `dynoan.jobs.trial.show.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> _ = lib.new_trial("wings", "wing down", "wing up", unit="km/h", less=False)
        >>> lib.trial("wings").found.verdict
        'cannot tell'
        """
        from dynoan.jobs.trial.show import TrialShowQuestion, answer

        return self._ask(answer, TrialShowQuestion(name))

    def trials(self, *, surface: str | None = None, car: str | None = None) -> TrialListAnswer:
        """Return the trials kept, oldest first, judged.

        Parameters
        ----------
        surface, car
            Only those of these.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> set(lib.trials(surface="nowhere").to_frame().columns) >= {"name", "verdict", "more_runs"}
        True
        """
        from dynoan.jobs.trial.listing import TrialListQuestion, answer

        return self._ask(answer, TrialListQuestion(surface, car))
