"""The jobs about shocks and packs, for Python."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from typing import Unpack

    from dynoan.jobs.compare import CompareAnswer
    from dynoan.jobs.curve import CurveAnswer
    from dynoan.jobs.curve_table import SpeedsAsked
    from dynoan.jobs.predict import ClicksAsked, PredictAnswer
    from dynoan.jobs.read.options import Stated


class ShockJobs(Asking):
    """Curves, predicting, comparing.

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
