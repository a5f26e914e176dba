"""The jobs about shocks and packs, for Python."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from typing import Unpack

    from dynoan.jobs.compare import CompareAnswer
    from dynoan.jobs.curve import CurveAnswer
    from dynoan.jobs.curve_table import SpeedsAsked
    from dynoan.jobs.equal_to import EqualToAnswer
    from dynoan.jobs.identify import IdentifyAnswer
    from dynoan.jobs.match import MatchAnswer
    from dynoan.jobs.pairs import PairsAnswer
    from dynoan.jobs.predict import ClicksAsked, PredictAnswer
    from dynoan.jobs.reading_options import Stated


class ShockJobs(Asking):
    """Curves, predicting, comparing, stand-ins, matching, pairing, naming.

    What is named is a rig's file, a sweep's id, or a setting: "pack=gravel,lsc=6", "gravel@lsc=6,lsr=8" or
    "shock=RL-02,date=2026".
    """

    def curve(self, *what: str, at: SpeedsAsked = None, **stated: Unpack[Stated]) -> CurveAnswer:
        """Return fitted curves: knees, slopes, gas force, friction and 95 % bands, damping force alone.

        Parameters
        ----------
        *what
            Each may name several settings; sweeps of one setting are pooled.
        at
            Speeds of the table, in both directions: numbers, or text such as "0.025,2 in/s"; by default the usual ones
            inside the data. [m/s]
        **stated
            What wins over what files say, as `read`.

        Returns
        -------
        CurveAnswer
            ``found`` holds a label and a curve each; ``to_frame()`` one row a curve and signed velocity [m/s], with
            force and 95 % band [N].

        Raises
        ------
        LookupFault, CallError, QuantityError, ReadError, FitError
            As `dynoan.jobs.curve.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.curve("demo/unlabelled.csv", at="0.05,0.25")
        >>> frame = found.to_frame()
        >>> list(frame["velocity_m_s"])
        [-0.25, -0.05, 0.05, 0.25]
        >>> bool((frame["low_n"] < frame["force_n"]).all() and (frame["force_n"] < frame["high_n"]).all())
        True
        """
        from dynoan.jobs.curve import CurveQuestion, answer

        return self._ask(answer, CurveQuestion.asked(*what, at=at, **stated))

    def predict(
        self, pack: str, clicks: ClicksAsked = (), *, shock: str | None = None, at: SpeedsAsked = None,
        temperature: float | str | None = None,
    ) -> PredictAnswer:  # fmt: skip
        """Return the curve of a pack at any click, its 95 % band, where it stands, and what a click is worth.

        Parameters
        ----------
        pack
            Its name, or with clicks: "gravel@lsc=6,lsr=8".
        clicks
            As the shock counts: "lsc=6,lsr=8" or a mapping, or several of these; what is left out sits where most tests
            sat.
        shock
            One of the shocks that carry the pack: its own force and its counting.
        at
            Speeds of the table, in both directions; by default the usual ones inside the data. [m/s]
        temperature
            Of the oil, in °C or text with a unit; as tested by default. The band holds what shocks differ by in it.

        Returns
        -------
        PredictAnswer
            ``curves``, each with ``standing`` "tested", "between" or "outside"; ``worth`` of a click by adjuster,
            direction and speed [N, %].

        Raises
        ------
        LookupFault, CallError, QuantityError
            As `dynoan.jobs.predict.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.predict("gravel", ["lsc=5", {"lsc": 20}])
        >>> [curve.standing for curve in found.curves]
        ['between', 'outside']
        >>> stiff, soft = (float(curve(0.05)) for curve in found.curves)
        >>> stiff > soft
        True
        """
        from dynoan.jobs.predict import PredictQuestion, answer

        return self._ask(answer, PredictQuestion.asked(pack, clicks, shock=shock, at=at, temperature=temperature))

    def compare(self, *what: str, at: SpeedsAsked = None) -> CompareAnswer:
        """Return packs, clicks, shocks or dates over one another: forces, differences, crossings, who has a say.

        Parameters
        ----------
        *what
            Two or more; the first is what the others are held against.
        at
            Speeds of the table, in both directions; by default the usual ones inside the data. [m/s]

        Returns
        -------
        CompareAnswer
            ``to_frame()`` has one row a direction and speed [m/s]: the force of each [N], and by how much it differs
            from the first [%].

        Raises
        ------
        LookupFault, CallError, QuantityError
            As `dynoan.jobs.compare.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.compare("gravel@lsc=8,hsc=8", "tarmac@lsc=8,hsc=8", at=0.25)
        >>> row = found.table[0]
        >>> row.direction, row.speed, row.differences[1] > 0
        ('compression', 0.25, True)
        """
        from dynoan.jobs.compare import CompareQuestion, answer

        return self._ask(answer, CompareQuestion.asked(*what, at=at))

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
            As `dynoan.jobs.pairs.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> [(pair.first, pair.second) for pair in lib.pairs("pack=gravel").pairs]
        [('FL-01', 'FR-02'), ('RR-04', 'RL-03')]
        """
        from dynoan.jobs.pairs import PairsQuestion, answer

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
