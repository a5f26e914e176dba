"""The jobs about setups, for Python."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.setup.compare import SetupCompareAnswer
    from dynoan.jobs.setup.listing import SetupListAnswer
    from dynoan.jobs.setup.recall import SetupRecallAnswer
    from dynoan.jobs.setup.record import SetupRecordAnswer


class SetupJobs(Asking):
    """What was on the car, on which surface, and how it went."""

    def record_setup(
        self, car: str | None = None, *, file: str | Path | None = None, surface: str | None = None,
        temperature: float | str | None = None, result: str | None = None, good: bool | None = None,
        remarks: str | None = None, date: str | None = None,
    ) -> SetupRecordAnswer:  # fmt: skip
        """Keep what is on a car now, word for word as its file has it, with how it went.

        Parameters
        ----------
        car
            A name in the library, or a car file's path; or else:
        file
            A setup file, as the phone page saves it.
        surface, result, remarks
            In the team's words.
        temperature
            Air or track, as the team notes it. [°C]
        good
            The team's own verdict; recalling goes by it.
        date
            ISO 8601; by default now, or what the setup file says.

        Raises
        ------
        LookupFault, CallError, QuantityError, LibraryError
            As `dynoan.jobs.setup.record.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> kept = lib.record_setup("kestrel", surface="sticky", temperature="64 °F", good=False, date="2026-01-10")
        >>> kept.setup.name[:18], round(kept.setup.temperature, 1)
        ('2026-01-10-kestrel', 17.8)
        """
        from dynoan.jobs.setup.record import SetupRecordQuestion, answer

        asked = SetupRecordQuestion.asked(
            car, file=file, surface=surface, temperature=temperature, result=result, good=good, remarks=remarks,
            date=date,
        )  # fmt: skip
        return self._ask(answer, asked)

    def setups(self, *, surface: str | None = None, by_surface: bool = False) -> SetupListAnswer:
        """Return the setups kept, oldest first.

        Parameters
        ----------
        surface
            Only those of this surface.
        by_surface
            The season, too: what was changed when, the trials' verdicts, the best supported baseline.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> "2026-03-22-kestrel" in [setup.name for setup in lib.setups(surface="loose").setups]
        True
        """
        from dynoan.jobs.setup.listing import SetupListQuestion, answer

        return self._ask(answer, SetupListQuestion(surface, by_surface))

    def recall(
        self, name: str | None = None, *, surface: str | None = None, car: str | None = None
    ) -> SetupRecallAnswer:
        """Return one setup by name, or the last good one; `car_text` of the answer is its car's file.

        Parameters
        ----------
        name
            A setup's; left out, the last good one of:
        surface, car
            Only setups of these.

        Raises
        ------
        LookupFault, QuantityError
            As `dynoan.jobs.setup.recall.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> last = lib.recall(surface="loose", car="kestrel")
        >>> last.setup.result, last.car_text.splitlines()[1]
        ('2nd of 9', 'wheelbase = "2430 mm"')
        """
        from dynoan.jobs.setup.recall import SetupRecallQuestion, answer

        return self._ask(answer, SetupRecallQuestion(name, surface, car))

    def compare_setups(self, one: str, other: str) -> SetupCompareAnswer:
        """Return every fact that two setups state differently.

        Parameters
        ----------
        one, other
            Their names.

        Raises
        ------
        LookupFault, QuantityError
            As `dynoan.jobs.setup.compare.answer`.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> winter = lib.record_setup("kestrel-winter", date="2026-01-11").setup.name
        >>> found = lib.compare_setups("2026-03-22-kestrel", winter).to_frame()
        >>> found.loc[found["what"] == "front left spring", ["a", "b"]].values.tolist()
        [[45000.0, 52000.0]]
        """
        from dynoan.jobs.setup.compare import SetupCompareQuestion, answer

        return self._ask(answer, SetupCompareQuestion(one, other))
