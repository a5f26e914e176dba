"""What a cell of a text table is: a number in some spelling, a missing value, or words."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence

from importers.patterns import regex

_DIGITS = r"\d+"
_TAIL = r"(?:[eEdD][-+]?\d{1,3})?"
_SIGN = r"[-+−]?"


def _pattern(decimal: str, thousands: str) -> re.Pattern[str]:
    groups = "|".join(rf"[1-9]\d{{0,2}}(?:{re.escape(group)}\d{{3}})+" for group in thousands)
    mark = re.escape(decimal)
    return regex(rf"{_SIGN}(?:(?:{groups}|{_DIGITS})(?:{mark}\d*)?|{mark}\d+){_TAIL}")


NUMBER: dict[str, re.Pattern[str]] = {
    ".": _pattern(".", ",'’ \u00a0\u202f\u2009"),
    ",": _pattern(",", ".'’ \u00a0\u202f\u2009"),
}
PLAIN: dict[str, re.Pattern[str]] = {
    mark: regex(rf"{_SIGN}(?:{_DIGITS}(?:{re.escape(mark)}\d*)?|{re.escape(mark)}\d+){_TAIL}") for mark in ".,"
}


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


#: spellings of "beyond the sensor's range", in lower case
OVER = _words(
    "-inf clip clipped depassement dépassement fuera hors-limite hors_limite inf o.l. o/l ol over over-range "
    "overflow overload overrange ovl ovld ovr ovrld sat saturated sobrecarga sovraccarico surcharge uberlauf "
    "ueberlast überlast überlauf ovf ovfl ovrflw ovrng oor sat. satt. saturation sättigung gesättigt saturé saturado "
    "saturato railed offscale off-scale out-of-range"
) | {"over range", "out of range", "off scale", "over load", "fuera de rango", "fuori scala", "hors gamme"}
#: spellings of "no value here", in lower case
MISSING = (
    OVER
    | _words(
        "#div/0! #err #n/a #na #num! #nv #ref! #value! #wert! * ** *** **** ***** ****** +inf +nan - -- --- ---- "
        "----- ------ ----.-- ---.- --.- --.-- -1.#ind -1.#inf -infinity -nan . .. ... 1,#qnan 1.#ind 1.#inf 1.#qnan "
        "n.v. n.d. k.a. "
        "? ?? ??? bad blank empty err error fail fault fehler infinity invalid missing n.a. n/a na nan nil no_data "
        "nodata none null open out under underload void x – — n.m. n.b. #name? #name #null! #value #num #ref #calc! "
        "#bezug! #zahl! err! error! err: inv novalue no-data no_value null! dropout missed lost n/d n/v s/d unk unknown"
    )
    | {"no data", "no value", "no reading", "no signal", "not measured", "not available", "not recorded"}
)
#: a value beyond a limit, or an overload with a sign: ">900", "+OL"
_BEYOND = regex(r"[<>≥≤]\s*[-+−]?\d[\d.,]*|[-+−]\s?(?:ol|ovl|ovr|ovld|over|overload|overrange)", re.IGNORECASE)
#: a cell too narrow for its number, as a spreadsheet shows it
_HASHES = regex(r"#{2,}")
#: separator of cells where columns are only set apart by blanks
BLANKS = "blanks"


def is_number(cell: str, decimal: str) -> bool:
    """Whether a cell is a number with this decimal mark, thousands marks allowed."""
    return NUMBER[decimal].fullmatch(cell) is not None


def is_any_number(cell: str) -> bool:
    """Whether a cell is a number with either decimal mark.

    >>> is_any_number("1.250,5"), is_any_number("1,250.5"), is_any_number("12 N")
    (True, True, False)
    """
    return is_number(cell, ".") or is_number(cell, ",")


def are_numbers(cells: Sequence[str], width: int) -> bool:
    """Whether cells are a row of so many numbers, with either decimal mark each."""
    return len(cells) == width and all(map(is_any_number, cells))


def is_missing(cell: str) -> bool:
    """Whether a cell holds no value: empty, or a marker such as NaN, --- or OVER."""
    return not cell or cell.lower() in MISSING or _HASHES.fullmatch(cell) is not None or is_beyond(cell)


def is_beyond(cell: str) -> bool:
    """Whether a cell says that the value was beyond what can be measured: OVER, +OL, >900."""
    return cell.lower() in OVER or _BEYOND.fullmatch(cell) is not None


def split_cells(line: str, delimiter: str) -> list[str]:
    """Return the cells of a line, stripped and unquoted."""
    if delimiter == BLANKS:
        return line.split()
    if '"' in line:
        try:
            cells = next(csv.reader([line], delimiter=delimiter, skipinitialspace=True))
            return [cell.strip().strip('"').strip() for cell in cells]
        except (csv.Error, StopIteration):
            pass
    return [cell.strip() for cell in line.split(delimiter)]
