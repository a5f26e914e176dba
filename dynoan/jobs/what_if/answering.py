"""What if: a job's answer for a car as it is beside the same with keys of its file changed, or for other cars.

A question is another job's question and the cases to lay beside it, all of it data; the car's file is not touched.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import CallError, DynoanError
from dynoan.jobs import choose
from dynoan.jobs.answering import Answer
from dynoan.jobs.carry import answering as carry
from dynoan.jobs.carry.answering import CarryQuestion
from dynoan.jobs.cars import car_or_setup
from dynoan.jobs.choose import ChooseQuestion
from dynoan.jobs.compared_figures import ComparedBlock
from dynoan.jobs.launch import answering as launch
from dynoan.jobs.launch.answering import Watch, unwatched
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.ratio import answering as ratio
from dynoan.jobs.ratio.asked import RatioQuestion
from dynoan.jobs.said_once import once
from dynoan.jobs.what_if.compared import compared
from dynoan.library.car_changes import changed

if TYPE_CHECKING:
    from dynoan.model.car import Car
    from dynoan.workbench import Workbench

AS_IS = "as it is"
MOST_CASES = 12  #: side by side; more nobody reads: common practice, no source
Asked = RatioQuestion | LaunchQuestion | ChooseQuestion | CarryQuestion


@dataclass(frozen=True)
class WhatCase:
    """One case: keys of the car's file with new values as text, or another car or setup by name."""

    changes: tuple[tuple[str, str], ...] = ()  #: key and value, such as ("front.spring", "275 lb/in")
    car: str | None = None  #: a car of the library, a car file's path, or a recorded setup
    label: str = AS_IS

    @classmethod
    def parsed(cls, text: str) -> WhatCase:
        """Return a case from text: "front.spring=275 lb/in", several joined by ";", or the name of a car or setup.

        Raises
        ------
        CallError
            If a part is no such change.
        """
        parts = [part.strip() for part in text.split(";") if part.strip()]
        if len(parts) == 1 and "=" not in parts[0]:
            return cls(car=parts[0], label=parts[0])
        changes = tuple((key.strip(), value.strip()) for key, _, value in (part.partition("=") for part in parts))
        if not changes or not all(key and value for key, value in changes):
            raise CallError(
                f"'{text}' is not like front.spring=275 lb/in, nor the name of a car or setup",
                hint="several changes of one case are joined by ;",
                part="what",
            )
        return cls(changes, label=text.strip())

    @classmethod
    def of(cls, given: str | Mapping[str, str] | WhatCase) -> WhatCase:
        """Return a case from text, from keys with values, or as it is. Errors as of `parsed`."""
        if isinstance(given, WhatCase):
            return given
        if isinstance(given, str):
            return cls.parsed(given)
        return cls(tuple(given.items()), label="; ".join(f"{key}={value}" for key, value in given.items()))

    def on(self, bench: Workbench, car: Car) -> Car:
        """Return the car of this case.

        Raises
        ------
        LookupFault
            If the library knows no such car or setup.
        CallError, QuantityError
            As `library.car_changes.changed`, about the part "what".
        """
        try:
            found = car if self.car is None else car_or_setup(bench, self.car, "what")
            return changed(found, dict(self.changes)) if self.changes else found
        except DynoanError as error:
            raise error.again(part="what") from None


@dataclass(frozen=True)
class WhatIfQuestion:
    """Another job's question, and the cases to lay beside its answer."""

    asked: Asked  #: of `carry`, the other car may be left out: each case is one
    cases: tuple[WhatCase, ...]

    @classmethod
    def of(cls, asked: Asked, what: str | Sequence[str | Mapping[str, str] | WhatCase]) -> WhatIfQuestion:
        """Return the question from cases as people give them.

        Raises
        ------
        CallError
            If a case is none, or there are none or too many.
        """
        given = [what] if isinstance(what, str) else list(what)
        if not 1 <= len(given) <= MOST_CASES:
            raise CallError(f"{len(given)} cases", hint=f"give 1 to {MOST_CASES}", part="what")
        return cls(asked, tuple(WhatCase.of(one) for one in given))


@dataclass(frozen=True)
class WhatCaseFound:
    """One case and what the job answers there."""

    case: WhatCase
    car: Car
    answer: Answer


@dataclass(frozen=True)
class WhatIfAnswer(Answer):
    """What a job answers for each case, the car as it is first (but for `carry`, where each case is a change)."""

    job: ClassVar[str] = "what_if"
    question: WhatIfQuestion
    found: tuple[WhatCaseFound, ...]
    blocks: tuple[ComparedBlock, ...]  #: the figures side by side, a block a surface, corner or place

    @property
    def labels(self) -> tuple[str, ...]:
        """The cases in words, in the order of all figures."""
        return tuple(one.case.label for one in self.found)

    @property
    def heads(self) -> tuple[str, ...]:
        """The values of every figure in words: the cases, of `carry` the car before any change first."""
        return (AS_IS, *self.labels) if isinstance(self.question.asked, CarryQuestion) else self.labels

    @property
    def no(self) -> bool:
        """Whether the answer is no in every case."""
        return all(one.answer.no for one in self.found)

    def to_dict(self) -> dict[str, Any]:
        """Return the first case's result as its own job prints it, and all cases beside it.

        Returns
        -------
        :
            ``what``: label, changes, car and result of each case; ``compared``: blocks of figures, SI, a value a case.
        """
        return self.found[0].answer.to_dict() | {
            "what": [
                {"label": one.case.label, "changes": dict(one.case.changes), "car": one.case.car,
                 "result": one.answer.to_dict()}
                for one in self.found
            ],
            "compared": [block.to_dict(self.heads) for block in self.blocks],
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a figure and case."""
        return [
            {"block": block.title, "figure": figure.key, "case": label, "value": value, "differs": differs}
            for block in self.blocks
            for figure in block.figures
            for label, value, differs in zip(self.heads, figure.values, figure.differs, strict=True)
        ]


def answer(bench: Workbench, question: WhatIfQuestion, watch: Watch = unwatched) -> WhatIfAnswer:
    """Return a job's answers for a car as it is and for each case, side by side.

    Raises
    ------
    LookupFault
        If the library knows no such car, setup or pack.
    CallError, QuantityError
        As of the job asked, or if a case changes no key of a car's file.
    """
    base = bench.library.car(question.asked.car)
    cars = [(case, case.on(bench, base)) for case in question.cases]
    asked = question.asked
    if isinstance(asked, CarryQuestion):
        if asked.other:
            cars = [(WhatCase(car=asked.other, label=asked.other), bench.library.car(asked.other)), *cars]
    else:
        cars = [(WhatCase(), base), *cars]
    found = tuple(WhatCaseFound(case, car, _one(bench, base, car, asked, watch)) for case, car in cars)
    told = once(text for one in found for text in one.answer.warnings)
    return WhatIfAnswer(question, found, compared([one.answer for one in found]), warnings=told)


def _one(bench: Workbench, base: Car, car: Car, asked: Asked, watch: Watch) -> Answer:
    if isinstance(asked, RatioQuestion):
        return ratio.answer_for(bench, car, asked)
    if isinstance(asked, LaunchQuestion):
        return launch.answer_for(bench, car, asked, watch)
    if isinstance(asked, ChooseQuestion):
        return choose.answer_for(bench, car, asked)
    return carry.answer_between(bench, base, car, replace(asked, other=car.name))
