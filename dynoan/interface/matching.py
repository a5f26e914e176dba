"""The jobs that hold shocks and settings against one another, for Python."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.equal_to import EqualToAnswer
    from dynoan.jobs.identify import IdentifyAnswer
    from dynoan.jobs.match import MatchAnswer
    from dynoan.jobs.match.pairs import PairsAnswer


class MatchingJobs(Asking):
    """Stand-ins, matching, pairing, naming; what is named is as for `ShockJobs`."""

    def equal_to(self, setting: str, *among: str) -> EqualToAnswer:
        """Return which clicks of other packs or shocks stand in for a setting, best first; every click is tried.

        Parameters
        ----------
        setting
            One setting, sweep or file.
        *among
            Packs, or shocks as "shock=RR-04"; by default all other packs.

        Returns
        -------
        EqualToAnswer
            ``stand_ins``; the answer is no where none comes within 10 % at every speed.

        Raises
        ------
        LookupFault, CallError
            As `dynoan.jobs.equal_to.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.equal_to("gravel@lsc=8,hsc=8,lsr=8,hsr=8", "gravel")
        >>> found.stand_ins[0].clicks, found.no
        ({'lsc': 8, 'hsc': 8, 'lsr': 8, 'hsr': 8}, False)
        """
        from dynoan.jobs.equal_to import EqualToQuestion, answer

        return self._ask(answer, EqualToQuestion(setting, among))

    def match(self, first: str, second: str, *, tolerance: float | str = 5.0) -> MatchAnswer:
        """Return whether two shocks or settings are a pair within a tolerance, and what to turn so that they are.

        Parameters
        ----------
        first, second
            Where both were tested at several settings, those in common are compared.
        tolerance
            What a pair may differ by. [%]

        Returns
        -------
        MatchAnswer
            ``verdict`` "matched", "not matched" or "cannot tell"; ``to_frame()`` has one row a direction and speed
            [m/s]: the difference, first less second, with its interval [%]; ``advice``, and ``sentences()`` in words.

        Raises
        ------
        LookupFault, CallError, QuantityError
            As `dynoan.jobs.match.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.match("shock=RL-03,pack=gravel", "shock=RR-04,pack=gravel")
        >>> found.verdict, found.no
        ('not matched', True)
        >>> [one.shock for one in found.advice]
        ['RL-03', 'RR-04']
        """
        from dynoan.jobs.match import MatchQuestion, answer

        return self._ask(answer, MatchQuestion.asked(first, second, tolerance))

    def pairs(self, *what: str, tolerance: float | str = 5.0) -> PairsAnswer:
        """Return everything named as the pairs of shocks with the smallest worst difference.

        Parameters
        ----------
        *what
            Several, or settings that several shocks were tested at: "pack=gravel,lsc=10".
        tolerance
            What a pair may differ by. [%]

        Returns
        -------
        PairsAnswer
            ``pairs``, most alike first, and who is ``left_over``.

        Raises
        ------
        LookupFault, CallError, QuantityError
            As `dynoan.jobs.match.pairs.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> [(pair.first, pair.second) for pair in lib.pairs("pack=gravel").pairs]
        [('FL-01', 'FR-02'), ('RL-03', 'RR-04')]
        """
        from dynoan.jobs.match.pairs import PairsQuestion, answer

        return self._ask(answer, PairsQuestion.asked(what, tolerance))

    def identify(
        self, what: str, *, packs: str | Iterable[str] | None = None, shock: str | None = None
    ) -> IdentifyAnswer:
        """Return which known pack and clicks an unknown curve is; every click of every pack is tried.

        Parameters
        ----------
        what
            A rig's file, or a sweep's id.
        packs
            Only these; by default all in the library.
        shock
            The one it is in, where known: clicks are given as it counts.

        Returns
        -------
        IdentifyAnswer
            ``named``, one for each curve of what was named: the verdict "pack", "none of these" or "cannot tell", and
            ``matches`` with clicks and probability, best first.

        Raises
        ------
        LookupFault, CallError
            As `dynoan.jobs.identify.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> (found,) = lib.identify("demo/unlabelled.csv").named
        >>> found.found.verdict, found.matches[0].candidate.pack
        ('pack', 'tarmac')
        """
        from dynoan.jobs.identify import IdentifyQuestion, answer

        return self._ask(answer, IdentifyQuestion.asked(what, packs=packs, shock=shock))
