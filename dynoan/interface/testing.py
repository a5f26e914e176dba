"""The jobs about what to test, and what tests of a season say, for Python."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from datetime import date

    from dynoan.jobs.health import HealthAnswer
    from dynoan.jobs.plan import PlanAnswer


class TestingJobs(Asking):
    """The next dyno runs, and a shock against its own earlier tests."""

    __test__ = False  # test collectors shall pass it by

    def plan(self, pack: str, *, runs: int = 4, shock: str | None = None, top: float | str | None = None) -> PlanAnswer:
        """Return which runs of a pack to pay for next, and what each takes off the expected error.

        ``save("runs.html")`` of the answer writes the sheet for the dyno shop; ".txt" and ".csv" do as well.

        Parameters
        ----------
        pack
            Its name; where the library holds no sweep of it, `shock` is needed.
        runs
            How many to plan, 1 to 50.
        shock
            The shock that carries the pack, in whose counting clicks are shown.
        top
            Highest speed to run where the pack is new; by default 0.5. [m/s]

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.plan.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.plan("mixed", runs=2)
        >>> found.plan.error_after < found.plan.error_now
        True
        >>> list(found.to_frame().columns)
        ['run', 'lsc', 'hsc', 'lsr', 'hsr', 'expected_gain_pct', 'error_after_pct', 'speeds_m_s', 'worth_it']
        >>> found.page(".csv").splitlines()[0][:27]
        'run,pack,lsc,hsc,lsr,hsr,pe'
        """
        from dynoan.jobs.plan import PlanQuestion, answer

        return self._ask(answer, PlanQuestion.asked(pack, runs=runs, shock=shock, top=top))

    def health(self, what: str, *, since: date | str | None = None) -> HealthAnswer:
        """Return what changed in a shock from its first tests to its last: force, gas, friction, give, fade.

        Parameters
        ----------
        what
            A shock, or else a pack.
        since
            Tests before this date are left out: a new baseline.

        Raises
        ------
        LookupFault, CallError
            As `dynoan.jobs.health.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.health("RR-04")
        >>> found.health.verdict, found.no
        ('changed', True)
        >>> [f.name for f in found.health.findings]
        ['less rebound force', 'gas lost']
        """
        from dynoan.jobs.health import HealthQuestion, answer

        return self._ask(answer, HealthQuestion.asked(what, since=since))
