"""What if, for Python: a job's answer beside the same with keys of the car's file changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from dynoan.errors import CallError
from dynoan.interface.asking import Asking

if TYPE_CHECKING:
    from dynoan.jobs.what_if import Asked, WhatIfAnswer

JOBS = ("ratio", "launch", "choose", "carry")


class WhatIfJobs(Asking):
    """Cases side by side."""

    def what_if(self, job: str, car: str, what: str | Sequence[str | Mapping[str, str]], **asked: Any) -> WhatIfAnswer:
        """Return what a job answers for a car as it is and for each case; the car's file is not touched.

        Parameters
        ----------
        job
            "ratio", "launch", "choose" or "carry", where each case is the change to carry over.
        car
            A name in the library, or a car file's path.
        what
            One or several cases: "front.spring=275 lb/in", several changes joined by ";", the same as a dictionary of
            keys and values, or another car or recorded setup by name.
        asked
            What else the job takes, as its own method does.

        Raises
        ------
        LookupFault, QuantityError, CallError
            As `dynoan.jobs.what_if.answer` and the job's own question.

        Examples
        --------
        >>> lib = dynoan.open("demo")
        >>> found = lib.what_if("ratio", "kestrel", ["front.spring=52 N/mm", {"fl.mass": "250 kg"}])
        >>> found.labels
        ('as it is', 'front.spring=52 N/mm', 'fl.mass=250 kg')
        >>> [f.key for f in found.blocks[2].figures if not f.same]  # the rear left corner does not care
        []
        """
        from dynoan.jobs.what_if import WhatIfQuestion, answer

        return self._ask(answer, WhatIfQuestion.of(_question(job, car, asked), what))


def _question(job: str, car: str, asked: Mapping[str, Any]) -> Asked:
    from dynoan.jobs.carry import CarryQuestion
    from dynoan.jobs.choose import ChooseQuestion
    from dynoan.jobs.launch.asked import LaunchQuestion
    from dynoan.jobs.ratio.asked import RatioQuestion

    makers: dict[str, Callable[..., Asked]] = {
        "ratio": RatioQuestion.asked, "launch": LaunchQuestion.asked, "choose": ChooseQuestion.asked,
        "carry": lambda name, **more: CarryQuestion.asked(name, "", **more),
    }  # fmt: skip
    if job not in makers:
        raise CallError(f"'{job}' is not one of {', '.join(JOBS)}", part="job")
    return makers[job](car, **asked)
