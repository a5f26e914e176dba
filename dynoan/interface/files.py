"""The jobs about dyno files, for Python."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from typing import Unpack

    from dynoan.jobs.add import AddAnswer
    from dynoan.jobs.check import CheckAnswer
    from dynoan.jobs.edit import EditAnswer
    from dynoan.jobs.read import ReadAnswer
    from dynoan.jobs.read.options import Stated
    from dynoan.jobs.remove import RemoveAnswer
    from dynoan.jobs.sweeps import SweepsAnswer


class FileJobs(Asking):
    """Reading, keeping, listing, correcting sweeps."""

    def read(self, *paths: str | Path, **stated: Unpack[Stated]) -> ReadAnswer:
        """Return what is in rig files and how it was understood, with the team's own layouts, keeping nothing.

        A file that cannot be read does not hide the others: `failures` of the answer says why.

        Parameters
        ----------
        *paths
            The files.
        **stated
            What wins over the files: ``shock``, ``pack``, ``clicks`` ("lsc=6,lsr=8" or a mapping), ``positive``
            ("compression" or "rebound", the direction a file counts positive), ``units`` and ``columns`` by channel
            ({"force": "lbf"}), ``rate`` [Hz], ``delimiter``, ``decimal``, ``dates``
            ("day-first" or "month-first").

        Raises
        ------
        CallError, QuantityError
            If a stated value cannot be, or a layout of the library is wrong.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.read("demo/unlabelled.csv", shock="FL-01", clicks="lsc=4")
        >>> found.sweeps[0].shock, found.sweeps[0].clicks, found.sweeps[0].rate
        ('FL-01', {'lsc': 4}, 250.0)
        >>> lib.read("demo/dynoan.toml").failures[0][:31]
        'dynoan.toml: no table of number'
        """
        from dynoan.jobs.read import ReadQuestion, answer

        found = self._ask(answer, ReadQuestion.asked(*paths, **stated))
        return replace(found, files=tuple(replace(file, error=self._spoken(file.error)) for file in found.files))

    def add(
        self, *paths: str | Path, workers: int | None = None, cluster: str | None = None, **stated: Unpack[Stated]
    ) -> AddAnswer:
        """Keep the sweeps in rig files in the library, with the files' own bytes; what is kept already adds nothing.

        A file that cannot be kept does not hinder the others: `failures` of the answer says why.

        Parameters
        ----------
        *paths
            The files.
        workers
            Processes to read with; by default this one, or all cores where that pays. With more than one, a script
            must keep its own work under ``if __name__ == "__main__":``.
        cluster
            Address of a Dask scheduler whose workers read instead, such as "tcp://10.0.0.5:8786".
        **stated
            What wins over the files, as `read`.

        Raises
        ------
        CallError, QuantityError
            If a stated value cannot be, or a layout of the library is wrong.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> lib.add("demo/dyno/FR-02_gravel_lsc10_hsc10_lsr10_hsr10.csv").new  # the demo kept it before
        0
        """
        from dynoan.jobs.add import AddQuestion, answer

        found = self._ask(answer, AddQuestion.asked(*paths, workers=workers, cluster=cluster, **stated))
        return replace(found, failed=tuple(replace(file, error=self._spoken(file.error)) for file in found.failed))

    def sweeps(self, *filters: str) -> SweepsAnswer:
        """Return the sweeps the library holds: all, or those that fit every filter.

        Parameters
        ----------
        *filters
            KEY=VALUE with shock, pack, date, or an adjuster (lsc, hsc, lsr, hsr, c, r, cr). Clicks are as each shock's
            file counts them.

        Raises
        ------
        CallError
            If a filter is none.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> [record.source for record in lib.sweeps("shock=RR-04", "date=2025").records]
        ['RR-04_gravel_lsc10_hsc10_lsr10_hsr10_2025.csv']
        >>> lib.sweeps("pack=mixed").to_frame()["clicks"].nunique() > 1
        True
        """
        from dynoan.jobs.sweeps import SweepsQuestion, answer

        return self._ask(answer, SweepsQuestion.asked(*filters))

    def edit(
        self, *sweeps: str, shock: str | None = None, pack: str | None = None,
        clicks: str | Mapping[str, int] | None = None, date: str | None = None, temperature: float | str | None = None,
    ) -> EditAnswer:  # fmt: skip
        """Correct what kept sweeps say of themselves; their ids, channels and the rig's own bytes stay as they are.

        Parameters
        ----------
        *sweeps
            Ids, or beginnings of ids.
        shock, pack, date
            What is right; empty text takes a fact away.
        clicks
            As the shock counts, "lsc=6" or a mapping; adjusters not named keep theirs, empty takes all away.
        temperature
            Stated for the run. [°C]

        Raises
        ------
        LookupFault, CallError, QuantityError, LibraryError
            As `dynoan.jobs.edit.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> kept = lib.add("demo/unlabelled.csv", shock="FL-01", pack="tarmac", clicks="lsc=3")
        >>> right = lib.edit(kept.sweeps[0].record.id, clicks="lsr=4", temperature="95 °F").record
        >>> right.clicks, round(right.temperature)
        ({'lsc': 3, 'lsr': 4}, 35)
        >>> lib.remove(right.id).removed == (right.id,)
        True
        """
        from dynoan.jobs.edit import EditQuestion, answer

        asked = EditQuestion.asked(*sweeps, shock=shock, pack=pack, clicks=clicks, date=date, temperature=temperature)
        return self._ask(answer, asked)

    def remove(self, *sweeps: str) -> RemoveAnswer:
        """Take sweeps out of the library for good, with the rig's bytes they hold; all of those named, or none.

        Parameters
        ----------
        *sweeps
            Ids, or beginnings of ids.

        Raises
        ------
        LookupFault
            If no sweep, or more than one, has an id that begins so.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> kept = lib.add("demo/unlabelled.csv").sweeps[0].record
        >>> lib.remove(kept.id[:6]).removed == (kept.id,)
        True
        """
        from dynoan.jobs.remove import RemoveQuestion, answer

        return self._ask(answer, RemoveQuestion(sweeps))

    def check(self) -> CheckAnswer:
        """Verify every file of the library: checksums, formats, and the text that people edit.

        Examples
        --------
        >>> dynoan.open("demo").check().faults
        ()
        """
        from dynoan.jobs.check import CheckQuestion, answer

        return self._ask(answer, CheckQuestion())
