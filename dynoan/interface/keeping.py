"""The jobs that keep and show, for Python."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.report import ReportAnswer
    from dynoan.jobs.trackside import TracksideAnswer


class KeepingJobs(Asking):
    """The report, the phone page."""

    def report(
        self, *what: str, title: str = "", launch: bool = True, travel: Sequence[str | Path] = (),
        corner: Mapping[str, str] | None = None, scale: str | Mapping[str, str] | None = None,
        zero: str | Mapping[str, str] | None = None, part: Mapping[str, tuple[float, float]] | None = None,
        window: float | str | None = None, time: str | None = None,
    ) -> ReportAnswer:  # fmt: skip
        """Return everything about cars, packs or shocks, as parts and as one self-contained HTML page.

        ``page()`` of the answer is the page's text and ``save("report.html")`` writes it, in the units the library
        shows; its parts are the answers of other jobs, such as ``parts.cars[0].ratio``.

        Parameters
        ----------
        *what
            Names of cars, packs or shocks; "car=NAME" where a name could be several. None: the whole library.
        title
            The heading; by default what the report is about.
        launch
            With how the cars leave the line.
        travel
            Logs of shock travel of the one car named, as `travel` reads them.
        corner, scale, zero, part, window, time
            What the columns of these logs do not say, the same for all of them, as for `travel`.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.report.answer` and, of logs, as `travel`; `page` and `save` raise CallError where the page
            would be over 5 MB.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.report("mixed", title="Mixed in May")
        >>> found.to_dict()["packs"]
        ['mixed']
        >>> "<title>Mixed in May</title>" in found.save("mixed.html").read_text()
        True
        """
        from dynoan.jobs.report import ReportQuestion, answer
        from dynoan.jobs.travel import TravelQuestion
        from dynoan.reading import read_log

        told: dict[str, Any] = {"corner": corner, "scale": scale, "zero": zero, "part": part, "window": window}
        logs = [TravelQuestion.asked(read_log(path), **told, time=time) for path in travel]
        return self._ask(answer, ReportQuestion.asked(*what, title=title, launch=launch, travel=logs))

    def trackside(self, car: str, *, packs: str | Sequence[str] = (), launch: bool = True) -> TracksideAnswer:
        """Return what goes on the phone: a car, its packs at every click, the ranked choices, the last setups.

        ``page()`` of the answer is the page's text and ``save("kestrel.html")`` writes it.

        Parameters
        ----------
        car
            A name in the library, or a car file's path.
        packs
            Those to hold; none named: every tested pack.
        launch
            With how the car leaves the line.

        Raises
        ------
        LookupFault, CallError
            As `dynoan.jobs.trackside.answer`; `page` and `save` raise CallError where the page would be over 2 MB.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.trackside("kestrel", packs="gravel,mixed")
        >>> list(found.maps), len(found.choices)
        (['gravel', 'mixed'], 10)
        >>> found.page().startswith("<!doctype html>")
        True
        """
        from dynoan.jobs.trackside import TracksideQuestion, answer

        return self._ask(answer, TracksideQuestion.asked(car, packs=packs, launch=launch))
