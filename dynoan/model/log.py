"""What a logger on the car wrote: columns of numbers over time."""

from __future__ import annotations

import re
from dataclasses import dataclass

from dynoan.errors import CallError, QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.units import example, factor


@dataclass(frozen=True)
class LogColumn:
    """One column of numbers."""

    name: str  #: without its unit
    unit: str  #: as it stands in the file, empty where there is none
    values: FloatArray  #: in that unit, shape (n,)
    file: str  #: the file's name, for messages

    @property
    def place(self) -> str:
        """File and column, for messages."""
        return f"{self.file}: column '{self.name}'"

    def si(self, kind: str) -> FloatArray:
        """Return the values in SI, shape (n,). [SI unit of the kind]

        Parameters
        ----------
        kind
            Of quantity, a key of `dynoan.units.FACTORS`.

        Raises
        ------
        QuantityError
            If the column has no unit of that kind.
        """
        unit = example(kind).split(" ", 1)[1]
        if not self.unit:
            raise QuantityError(
                f"{self.place} states no unit", hint=f"write it in the header, such as '{self.name} [{unit}]'"
            )
        try:
            return self.values * factor(self.unit, kind)
        except QuantityError:
            raise QuantityError(
                f"'{self.unit}' is no unit of {kind}", where=self.place, hint=f"wanted one such as '{unit}'"
            ) from None


@dataclass(frozen=True)
class Log:
    """A log as it was read: nothing calibrated, nothing left out."""

    path: str  #: as it was given
    columns: tuple[LogColumn, ...]  #: one at least

    @property
    def file(self) -> str:
        """The file's name."""
        return self.columns[0].file

    @property
    def names(self) -> str:
        """The names of all columns, for messages."""
        return ", ".join(c.name for c in self.columns)

    def named(self, name: str) -> LogColumn:
        """Return the column of that name; case, blanks, underscores and the unit do not matter.

        Raises
        ------
        CallError
            If there is none, with the names there are.
        """
        for column in self.columns:
            if _plain(name) in (_plain(column.name), _plain(f"{column.name} [{column.unit}]")):
                return column
        raise CallError(f"no column '{name}'", where=self.file, hint=f"it has {self.names}")


def like(columns: tuple[LogColumn, ...], pattern: str) -> LogColumn | None:
    """Return the first column whose name, in lower case with single blanks, has a match of a pattern; or None."""
    return next((c for c in columns if re.search(pattern, _plain(c.name))), None)


def _plain(text: str) -> str:
    return re.sub(r"[\s_\-.]+", " ", text).strip().lower()
