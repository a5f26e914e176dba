"""Rows of plain numbers to columns, to be compiled: eight digits at a time.

`rows_compiled.ll` beside it is its translation, which `by_machine_code` takes; after a change here it is made anew by
``python -m fixtures.make_machine_code``. Nobody else needs this file, whose import takes longer than most files do.

A number's digits are one integer m and a power of ten e. Where m is at most 2^53 and e at most 22 both are doubles
without rounding, so one division or product is the double nearest to the number, as any parser that rounds correctly
has it (Clinger, How to read floating point numbers accurately, 1990). Everything else is left to others.

Eight characters are looked at as one word of 64 bits (little endian: the first is the lowest byte), as is usual since
Lamport, Multiple byte processing with full-word instructions, 1975.
"""

# mypy: disable-error-code="no-untyped-def, no-untyped-call, untyped-decorator, call-arg, var-annotated"
# ruff: noqa: ANN001, ANN201, ANN202, SIM109

from __future__ import annotations

from typing import Any

import numba
import numpy as np
from llvmlite import ir
from numba import types
from numba.core import cgutils
from numba.extending import intrinsic

_U = np.uint64
_BYTE, _WORD = _U(8), _U(64)
_ONE, _TEN, _EIGHT_DIGITS = _U(1), _U(10), _U(10**8)
_ZEROS = _U(0x3030303030303030)  #: "00000000"
_LOW, _ABOVE_NINE, _HIGH = _U(0x7F7F7F7F7F7F7F7F), _U(0x7676767676767676), _U(0x8080808080808080)
_PAIRS, _FIRST_PAIRS, _LAST_PAIRS = _U(0x000000FF000000FF), _U(100 + (10**6 << 32)), _U(1 + (10**4 << 32))
_LARGEST = _U(2**53)  #: all integers up to it are doubles
_MOST_DIGITS = 19  #: of a number of 64 bits
_TWO_WORDS = 16  #: after so many no further eight fit
_LARGEST_POWER = 22  #: of ten that is a double
_MOST_POWER_DIGITS = 3
_NEWLINE, _RETURN, _TAB, _BLANK, _MINUS, _PLUS, _ZERO = 10, 13, 9, 32, 45, 43, 48
_SMALL_E, _LARGE_E = 101, 69
#: what is found in place of a count of rows
ODD, FULL = -1, -2
SPARE = 16  #: how far behind the last line is looked [bytes]
_OPTIONS: dict[str, Any] = {"nogil": True, "error_model": "numpy"}
_APART = {**_OPTIONS, "no_cpython_wrapper": True, "no_cfunc_wrapper": True}
_INNER = {**_APART, "forceinline": True}


@intrinsic
def _word_at(typing, data, at):
    """Load eight bytes as they stand."""

    def code(context, builder, signature, given):
        array = cgutils.create_struct_proxy(signature.args[0])(context, builder, given[0])
        place = builder.bitcast(builder.gep(array.data, [given[1]]), ir.IntType(64).as_pointer())
        return builder.load(place, align=1)

    return types.uint64(data, types.int64), code


@intrinsic
def _byte_at(typing, data, at):
    """Load a byte; numba's own way would first ask whether the place is counted from the end."""

    def code(context, builder, signature, given):
        array = cgutils.create_struct_proxy(signature.args[0])(context, builder, given[0])
        return builder.zext(builder.load(builder.gep(array.data, [given[1]])), ir.IntType(64))

    return types.int64(data, types.int64), code


@intrinsic
def _zeros_below(typing, word):
    """Count the zero bits below the lowest one."""

    def code(context, builder, signature, given):
        return builder.cttz(given[0], ir.Constant(ir.IntType(1), 0))

    return types.uint64(types.uint64), code


@numba.njit(**_INNER)
def _word(data, at):
    """Return eight characters, each less "0"."""
    return _word_at(data, at) ^ _ZEROS


@numba.njit(**_INNER)
def _no_digits(word):
    """Return a word with the highest bit of each byte set where the character is no digit."""
    return (((word & _LOW) + _ABOVE_NINE) | word) & _HIGH


@numba.njit(**_INNER)
def _value(word, count):
    """Return the number that the first characters of a word are, 1 to 8 digits."""
    word = word << _WORD - _BYTE * count
    word = word * _TEN + (word >> _BYTE)
    pairs = (word & _PAIRS) * _FIRST_PAIRS + ((word >> _U(16)) & _PAIRS) * _LAST_PAIRS
    return pairs >> _U(32)


@numba.njit(**_APART)
def _digits(data, at, number, powers):
    """Return the number with the digits from a place on put behind it, and where they end; -1 if too many."""
    start = at
    while True:
        word = _word(data, at)
        odd = _no_digits(word)
        if odd:
            count = _zeros_below(odd) >> _U(3)
            if count:
                number = number * _U(powers[count]) + _value(word, count)
            return number, at + np.int64(count)
        number = number * _EIGHT_DIGITS + _value(word, _BYTE)
        at += 8
        if at - start > _TWO_WORDS:
            return number, -1


@numba.njit(**_INNER)
def _plain(data, at, decimal, powers):
    """Return digits as one number, how many stand behind the mark, where they end; -1 if none or too many."""
    word = _word(data, at)
    odd = _no_digits(word)
    whole = _zeros_below(odd) >> _U(3)
    if odd and whole and (word >> _BYTE * whole) & _U(255) ^ _U(_ZERO) == _U(decimal):
        below = word & ((_ONE << _BYTE * whole) - _ONE)
        joined = (word ^ below) >> _BYTE >> _BYTE * whole << _BYTE * whole | below
        later = odd & (odd - _ONE)
        if later:
            count = (_zeros_below(later) >> _U(3)) - _ONE
            return _value(joined, count), np.int64(count - whole), at + np.int64(count) + 1
        further = _word(data, at + 8)
        odd = _no_digits(further)
        if odd:
            count = _zeros_below(odd) >> _U(3)
            number = _value(joined, _U(7))
            if count:
                number = number * _U(powers[count]) + _value(further, count)
            return number, np.int64(_U(7) + count - whole), at + 8 + np.int64(count)
    number, end = _digits(data, at, _U(0), powers)
    digits, behind = end - at, 0
    if end >= 0 and _byte_at(data, end) == decimal:
        start = end + 1
        number, end = _digits(data, start, number, powers)
        behind = end - start
    return number, behind, end if 0 < digits + behind <= _MOST_DIGITS else -1


@numba.njit(**_APART)
def _power(data, at, powers):
    """Return the power of ten behind an "e" and where it ends; -1 if there is none."""
    minus = _byte_at(data, at) == _MINUS
    start = at + np.int64(minus or _byte_at(data, at) == _PLUS)
    number, end = _digits(data, start, _U(0), powers)
    if not start < end <= start + _MOST_POWER_DIGITS:
        return 0, -1
    return -np.int64(number) if minus else np.int64(number), end


@numba.njit(**_INNER)
def _past_blanks(data, at, delimiter):
    found = _byte_at(data, at)
    while (found == _BLANK or found == _TAB) and found != delimiter:
        at += 1
        found = _byte_at(data, at)
    return at


@numba.njit(**_INNER)
def _ends_cell(data, at, delimiter):
    found = _byte_at(data, at)
    return found == delimiter or found == _NEWLINE or found == _RETURN


@numba.njit(**_INNER)
def _number(data, at, marks, powers, tens):
    """Return a cell's number, not-a-number where it is empty, and where it ends; -1 where it is neither."""
    delimiter, decimal = marks
    if _ends_cell(data, at, delimiter):
        return np.nan, at
    at = _past_blanks(data, at, delimiter)
    minus = _byte_at(data, at) == _MINUS
    digits, behind, at = _plain(data, at + np.int64(minus), decimal, powers)
    power = -behind
    if at >= 0 and (_byte_at(data, at) == _SMALL_E or _byte_at(data, at) == _LARGE_E):
        more, at = _power(data, at + 1, powers)
        power += more
    if at < 0 or digits > _LARGEST or not -_LARGEST_POWER <= power <= _LARGEST_POWER:
        return 0.0, -1
    number = np.float64(np.int64(digits))
    number = number / tens[-power] if power <= 0 else number * tens[power]
    return -number if minus else number, _past_blanks(data, at, delimiter)


@numba.njit(**_APART)
def _past_cell(data, at, delimiter):
    while not _ends_cell(data, at, delimiter):
        at += 1
    return at


@numba.njit(**_INNER)
def _past_line(data, at):
    """Return where the line after an end of one begins; -1 where none ends there."""
    if _byte_at(data, at) == _NEWLINE:
        return at + 1
    return at + 2 if _byte_at(data, at) == _RETURN and _byte_at(data, at + 1) == _NEWLINE else -1


@numba.njit(**_OPTIONS)
def columns_of_rows(data, stop, delimiter, decimal, wanted, columns, powers, tens, found):
    """Fill columns with the numbers of a body's rows.

    Parameters
    ----------
    data
        The body's bytes, with at least `SPARE` bytes of whatever kind behind `stop`.
    stop
        Where the last line ends, its line end included.
    delimiter, decimal
        The characters between cells and before fractions.
    wanted
        Whether each cell of a row is one to read, 0 or 1; others are passed over.
    columns
        Shape (wanted cells, rows there is room for): what is filled.
    powers, tens
        10^0 to 10^8 as integers, 10^0 to 10^22 as doubles.
    found
        Shape (1,): how many rows are filled already, and are in the end; `ODD` where one is none that is understood
        here, `FULL` if there is no room.
    """
    at, row, last = 0, found[0], len(wanted) - 1
    found[0] = ODD
    while at < stop:
        start = _past_line(data, at)
        if start >= 0:
            at = start  # a blank line
            continue
        if row == columns.shape[1]:
            found[0] = FULL
            return
        column = 0
        for cell in range(last + 1):
            if wanted[cell]:
                number, at = _number(data, at, (delimiter, decimal), powers, tens)
                if at < 0:
                    return
                columns[column, row] = number
                column += 1
            else:
                at = _past_cell(data, at, delimiter)
            if cell < last:
                if _byte_at(data, at) != delimiter:
                    return
                at += 1
        at = _past_line(data, at)
        if at < 0:
            return
        row += 1
    found[0] = row
