"""What all answers share, and how a door's values become the parts of a question."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import wraps
from numbers import Real
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar, Protocol

from dynoan.errors import DynoanError, QuantityError
from dynoan.units import Shown, parse

if TYPE_CHECKING:
    from matplotlib.figure import Figure
    from pandas import DataFrame


class Presenter(Protocol):
    """What makes an answer visible; a door brings it along, so that no job knows of pictures or pages."""

    def figure(self, answer: Answer, units: Shown) -> Figure:
        """Return the answer's picture."""
        ...

    def html(self, answer: Answer, units: Shown) -> str:
        """Return the answer's tables as HTML."""
        ...

    def page(self, answer: PageAnswer, units: Shown, form: str) -> str:
        """Return the file an answer is printed, sent or carried as, in the form that a file's ending names."""
        ...

    def save(self, answer: PageAnswer, units: Shown, path: Path, *, force: bool) -> Path:
        """Write that file whole or not at all, over a file of another kind only by force; return where it is."""
        ...

    def sentences(self, answer: Answer, units: Shown) -> list[str]:
        """Return what the answer advises, in words."""
        ...


def unarrayed(value: Any) -> Any:
    """Return plain values with every array as lists and every number of numpy's as Python's own, for JSON."""
    if isinstance(value, Mapping):
        return {key: unarrayed(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return type(value)(map(unarrayed, value)) if type(value) in (list, tuple) else value
    return value.tolist() if hasattr(value, "tolist") else value


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What a job found: figures with bands, verdict, warnings and advice as data. SI; compression positive."""

    job: ClassVar[str] = ""  #: the job's name, which is the command's
    presenter: ClassVar[Presenter | None] = None
    columns: ClassVar[tuple[str, ...] | None] = None  #: of the main table, where it may well be empty
    warnings: tuple[str, ...] = ()
    units: Shown = "metric"  #: what people are shown; the figures here are SI whatever it says

    def __init_subclass__(cls) -> None:
        """See to it that every answer's plain values are Python's own, whatever arrays it holds."""
        super().__init_subclass__()
        if "to_dict" in vars(cls):
            of_cls = vars(cls)["to_dict"]

            @wraps(of_cls)
            def to_dict(self: Answer) -> dict[str, Any]:
                found: dict[str, Any] = unarrayed(of_cls(self))
                return found

            cls.to_dict = to_dict  # type: ignore[method-assign]

    @property
    def no(self) -> bool:
        """Whether the answer is no: not matched, none fits."""
        return False

    @property
    def failures(self) -> tuple[str, ...]:
        """What could not be done, a line each, while the rest was: files that could not be read."""
        return ()

    def to_dict(self) -> dict[str, Any]:
        """Return the result as plain values, as ``--json`` prints it: SI, the unit in the key."""
        raise NotImplementedError

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return the answer's main table: a row each, the unit in the key."""
        raise NotImplementedError

    def to_frame(self) -> DataFrame:
        """Return the answer's main table as a pandas frame, the unit in each column's name."""
        from pandas import DataFrame

        return DataFrame(list(self.rows()), columns=None if self.columns is None else list(self.columns))

    def plot(self) -> Figure:
        """Return the answer's picture as a matplotlib figure, in the units people are shown.

        Raises
        ------
        NotImplementedError
            If this job has no picture, or no door with pictures was opened.
        """
        if self.presenter is None:
            raise NotImplementedError("no pictures here: open the library with dynoan.open")
        return self.presenter.figure(self, self.units)

    def sentences(self) -> list[str]:
        """Return what the answer advises, as sentences in the units people are shown.

        Raises
        ------
        NotImplementedError
            If this job advises nothing, or no door with words was opened.
        """
        if self.presenter is None:
            raise NotImplementedError("no words here: open the library with dynoan.open")
        return self.presenter.sentences(self, self.units)

    def _repr_html_(self) -> str:
        return self.presenter.html(self, self.units) if self.presenter is not None else f"<pre>{self.job}</pre>"


@dataclass(frozen=True, kw_only=True)
class PageAnswer(Answer):
    """An answer that is also a file to print, send or carry: a page that needs no other file."""

    forms: ClassVar[tuple[str, ...]] = ()  #: endings of a file's name that decide its form; empty: a page, whatever

    def page(self, form: str = ".html") -> str:
        """Return the file's text, in the units people are shown.

        Raises
        ------
        NotImplementedError
            If no door with pages was opened.
        CallError
            If there is no such form, or the page would be too large.
        """
        return self._shown_by().page(self, self.units, form)

    def save(self, path: str | Path, *, force: bool = False) -> Path:
        """Write the file, whole or not at all, in the form that its name's ending says; return where it is.

        A file that is there is replaced where it is an earlier output of the same kind, any other only by `force`;
        a file of a library never is.

        Raises
        ------
        NotImplementedError
            If no door with pages was opened.
        CallError
            If it cannot be written, there is no such form, or the page would be too large.
        """
        return self._shown_by().save(self, self.units, Path(path), force=force)

    def _shown_by(self) -> Presenter:
        if self.presenter is None:
            raise NotImplementedError("no pages here: open the library with dynoan.open")
        return self.presenter


@contextmanager
def about(part: str) -> Iterator[None]:
    """Return a context that says of an error raised within that it is about a part of the question."""
    try:
        yield
    except DynoanError as error:
        raise error.again(part=part) from None


def quantity(value: float | str, kind: str, part: str, *, bare: bool = False) -> float:
    """Return a part of a question in SI. [SI unit of its kind]

    Parameters
    ----------
    value
        SI where it is a number, else text with a unit such as "2 in/s".
    kind
        A key of `units.FACTORS`.
    part
        The part's name, which an error is about.
    bare
        Text without a unit is SI too; a time always is, since people everywhere count seconds.

    Raises
    ------
    QuantityError
        If the text is no such quantity.
    """
    if isinstance(value, Real) and not isinstance(value, bool):
        return float(value)
    try:
        return float(value) if (bare or kind == "time") and isinstance(value, str) else parse(value, kind)
    except ValueError:
        pass
    try:
        return parse(value, kind)
    except QuantityError as error:
        raise error.again(part=part) from None


def temperature_of(value: float | str, part: str = "temperature") -> float:
    """Return a temperature from a number in °C or text with a unit. [°C]

    Raises
    ------
    QuantityError
        If it is neither, or not finite.
    """
    degrees = quantity(value, "temperature", part)
    if not math.isfinite(degrees):
        raise QuantityError(f"'{value}' is not a finite number", part=part)
    return degrees
