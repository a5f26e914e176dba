"""What a cell of a text table is: a number in some spelling, a missing value, or words."""

from __future__ import annotations

import csv
import math
import re
from typing import Literal

Decimal = Literal[".", ","]

_DIGITS = r"\d+"
_TAIL = r"(?:[eEdD][-+]?\d{1,3})?"
_SIGN = r"[-+−]?"


def _pattern(decimal: str, thousands: str) -> re.Pattern[str]:
    groups = rf"\d{{1,3}}(?:[{thousands}]\d{{3}})+"
    mark = re.escape(decimal)
    return re.compile(rf"{_SIGN}(?:(?:{groups}|{_DIGITS})(?:{mark}\d*)?|{mark}\d+){_TAIL}")


NUMBER: dict[str, re.Pattern[str]] = {
    ".": _pattern(".", ",'’ \u00a0\u202f"),
    ",": _pattern(",", ".'’ \u00a0\u202f"),
}
PLAIN: dict[str, re.Pattern[str]] = {
    mark: re.compile(rf"{_SIGN}(?:{_DIGITS}(?:{re.escape(mark)}\d*)?|{re.escape(mark)}\d+){_TAIL}") for mark in ".,"
}

#: spellings of "no value here", in lower case
MISSING = frozenset(
    "nan -nan +nan na n/a n.a. #n/a #na #nv #wert! #value! #div/0! #ref! null none nil inf -inf +inf infinity -infinity "
    "1.#qnan 1.#ind -1.#ind 1.#inf -1.#inf 1,#qnan - -- --- ---- ----- ------ – — * ** *** **** ***** ****** ? ?? ??? . .. "
    "... x over under overload underload overrange over-range overflow ovl ovld ol o.l. ovr ovrld o/l uberlauf überlauf "
    "überlast ueberlast err error #err fehler invalid bad void missing fail fault open sat saturated clip clipped "
    "hors-limite hors_limite sovraccarico sobrecarga surcharge depassement dépassement fuera out ----.-- --.-- ---.- --.- "
    "#num! empty blank nodata no_data".split()
)
#: of these, the ones that say the measurement was beyond the sensor's range
OVER = frozenset(
    "over overload overrange over-range overflow ovl ovld ol o.l. ovr ovrld o/l uberlauf überlauf überlast ueberlast sat "
    "saturated clip clipped hors-limite hors_limite sovraccarico sobrecarga surcharge depassement dépassement fuera inf -inf".split()
)
#: separator of cells where columns are only set apart by blanks
BLANKS = "blanks"


def is_number(cell: str, decimal: str) -> bool:
    """Whether a cell is a number with this decimal mark, thousands marks allowed."""
    return NUMBER[decimal].fullmatch(cell) is not None


def is_missing(cell: str) -> bool:
    """Whether a cell holds no value: empty, or a marker such as NaN, --- or OVER."""
    return not cell or cell.lower() in MISSING


def number(cell: str, decimal: str) -> float:
    """Return the number in a cell; NaN for a missing value.

    Raises
    ------
    ValueError
        If the cell holds words.
    """
    if is_missing(cell):
        return math.nan
    if NUMBER[decimal].fullmatch(cell) is None:
        raise ValueError(cell)
    bare = (
        re.sub(
            "[,.'’ \u00a0\u202f]"
            if decimal not in cell
            else ("[.'’ \u00a0\u202f]" if decimal == "," else "[,'’ \u00a0\u202f]"),
            "",
            cell,
        )
        if PLAIN[decimal].fullmatch(cell) is None
        else cell
    )
    return float(bare.replace(",", ".").replace("−", "-").replace("d", "e").replace("D", "e"))


def split(line: str, delimiter: str) -> list[str]:
    """Return the cells of a line, stripped and unquoted."""
    if delimiter == BLANKS:
        return line.split()
    if '"' in line:
        try:
            return [
                c.strip().strip('"').strip()
                for c in next(csv.reader([line], delimiter=delimiter, skipinitialspace=True))
            ]
        except (csv.Error, StopIteration):
            pass
    return [cell.strip() for cell in line.split(delimiter)]
