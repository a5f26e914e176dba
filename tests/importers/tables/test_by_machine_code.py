"""Rows by compiled code: what arrow makes of them, to the last bit, or left to arrow.

Arrow rounds to the nearest double; the way by one division is Clinger's (How to read floating
point numbers accurately, 1990).
"""

from __future__ import annotations

import llvmlite
import numpy as np
import pyarrow as pa
import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.grid import CellGrid
from importers.tables import by_machine_code, numbers
from importers.tables.by_arrow import WantedColumns, arrow_table, column_floats
from importers.tables.by_machine_code import kept, plain_columns

AGAIN = "python -m fixtures.make_machine_code"
of_newer = pytest.mark.skipif(
    tuple(int(part) for part in llvmlite.__version__.split(".")[:2]) < (0, 45), reason="its LLVM reads other pointers"
)
SAMPLES = st.one_of(
    st.floats(-1e6, 1e6).map(lambda x: f"{x:.4f}"),
    st.floats(-1e6, 1e6).map(lambda x: f"{x:.9f}"),
    st.floats(-1e12, 1e12).map(lambda x: f"{x:.6E}"),
    st.floats(allow_nan=False, allow_infinity=False).map(repr),
    st.integers(-(10**25), 10**25).map(str),
    st.integers(0, 99999).map(lambda i: f"{i:08d}"),
    st.text("0123456789.eE+-", max_size=14),
    st.sampled_from(
        ["", "-", ".", "-.5", "5.", "1e", "+1.5", " 2.5", "2.5\t", "1 2", "--3", "nan", "inf", "1,5", "0x1F"]
    ),
)
USUAL = ["12", "-3.25", "1999.9990", "0.00000001", "123456789.123456", "1.5e3", "-2E-05", "007", ".5", "5.", "-0.0",
         "9007199254740992", "1e22", "1.0E+00", " 4.5 "]  # fmt: skip
OTHERS = ["+1", "1.2.3", "1e", "--1", "1-", "x", "nan", "-", ".", "−5", "1e400", "1e-300", "1e0001", "1 5", "1\r2",
          '"5"', "9007199254740993", "1" * 20, "9" * 23, "1" * 30, "0.12345678901234567"]  # fmt: skip


def by_arrow(body: bytes, grid: CellGrid, wanted: list[bool]) -> np.ndarray | None:
    """The wanted columns, shape (wanted, rows); None where arrow refuses the body."""
    columns = WantedColumns(tuple(i for i, want in enumerate(wanted) if want))
    try:
        table = arrow_table(body, grid, columns)
    except pa.ArrowInvalid:
        return None
    return np.array([column_floats(table.column(str(i)))[0] for i in columns.numeric])


def grid_of(width: int, delimiter: str = ",", decimal: str = ".") -> CellGrid:
    return CellGrid(delimiter, decimal, width, (True,) * width)


def same_bits(a: np.ndarray, b: np.ndarray) -> bool:
    """Whether arrays are the same to the last bit, any not-a-number being one."""
    bits = [np.where(np.isnan(x), np.nan, x).view(np.uint64) for x in (a, b)]
    return a.shape == b.shape and bool((bits[0] == bits[1]).all())


class TestKeptTranslation:
    def test_it_is_of_the_source_as_it_stands(self):
        first = kept().path.read_text(encoding="utf-8").splitlines()[0]
        assert first == f"; {kept().seal}", f"rows_compiled.py changed: {AGAIN}"

    def test_it_holds_nothing_of_one_machine(self):
        text = kept().path.read_text(encoding="utf-8")
        assert not any(word in text for word in ("target ", "x86", "NRT_", "attributes", "_ZN", "/work", "/home"))

    @of_newer
    def test_it_can_be_used_here(self):
        assert by_machine_code.compiled() is not None

    def test_it_looks_behind_the_last_line_as_far_as_the_source_says(self):
        from importers.tables import rows_compiled

        assert by_machine_code._SPARE == rows_compiled.SPARE


@of_newer
class TestTheSameNumbers:
    @given(
        st.lists(st.tuples(SAMPLES, SAMPLES, SAMPLES), min_size=1, max_size=6),
        st.sampled_from(["\n", "\r\n"]),
        st.sampled_from([("\t", "."), (";", ","), (",", ".")]),
        st.booleans(),
        st.lists(st.booleans(), min_size=3, max_size=3),
    )
    def test_of_any_cells(self, rows, end, marks, ended, wanted):
        text = end.join(marks[0].join(row) for row in rows).replace(".", marks[1])
        body = (text + end if ended else text).encode()
        wanted = wanted if any(wanted) else [True] * 3
        found = plain_columns(body, marks, wanted)
        if found is not None:
            arrows = by_arrow(body, grid_of(3, *marks), wanted)
            assert arrows is not None
            assert same_bits(found, arrows)

    @given(st.integers(0, 2**53), st.integers(0, 22), st.booleans())
    def test_of_every_number_that_it_takes(self, digits, behind, minus):
        cell = f"{'-' if minus else ''}{digits:0{behind + 1}d}"
        cell = f"{cell[: len(cell) - behind]}.{cell[len(cell) - behind :]}"
        found = plain_columns(f"{cell}\n".encode(), (",", "."), [True])
        # Python's float rounds correctly, too.
        assert found is None if len(cell) > 21 else found is None or found[0, 0] == float(cell)

    @pytest.mark.parametrize("cell", USUAL)
    def test_of_the_usual_ones_none_is_left_to_arrow(self, cell):
        found = plain_columns(f"{cell},1\n".encode(), (",", "."), [True, True])
        assert found is not None
        assert same_bits(found, np.array([[float(cell)], [1.0]]))

    @pytest.mark.parametrize("cell", OTHERS)
    def test_what_else_stands_in_a_cell_is_left_to_arrow(self, cell):
        assert plain_columns(f"{cell},1\n".encode(), (",", "."), [True, True]) is None

    def test_rows_of_another_width_are_left_to_arrow(self):
        for body in (b"1,2\n3\n", b"1,2\n3,4,5\n", b"1,2\n \n", b"1\n"):
            assert plain_columns(body, (",", "."), [True, True]) is None

    def test_empty_cells_and_blank_lines(self):
        found = plain_columns(b"\n1,,3\r\n\r\n,5,\n\n", (",", "."), [True] * 3)
        assert same_bits(found, np.array([[1, np.nan], [np.nan, 5], [3, np.nan]]))

    def test_words_in_columns_that_nobody_wants(self):
        body = "Pumpe läuft,1.5,a b\nx\t,2.5,\n".encode()
        assert same_bits(plain_columns(body, (",", "."), [False, True, False]), np.array([[1.5, 2.5]]))

    def test_longer_bodies_than_the_copy_of_the_last_lines(self):
        rows = np.arange(30_000).reshape(-1, 3) / 8
        body = "".join(",".join(map(str, row)) + "\n" for row in rows.tolist()).encode()
        assert same_bits(plain_columns(body, (",", "."), [True] * 3), rows.T)
        assert same_bits(plain_columns(body.rstrip(), (",", "."), [True] * 3), rows.T)

    def test_blank_lines_ask_for_no_room(self, monkeypatch):
        asked = []
        monkeypatch.setattr(by_machine_code.np, "empty", lambda shape: asked.append(shape) or np.zeros(shape))
        body = b",".join([b"1"] * 50) + b"\n" * 100_000
        assert plain_columns(body, (",", "."), [True] * 50).shape == (50, 1)
        assert asked[0][1] < 2100

    def test_as_many_rows_as_bytes_allow(self):
        assert plain_columns(b",\n" * 3000, (",", "."), [True, True]).shape == (2, 3000)
        assert plain_columns(b",\n,", (",", "."), [True, True]).shape == (2, 2)

    def test_a_line_longer_than_what_is_looked_at(self):
        assert plain_columns(b"1," * 9000 + b"1\n", (",", "."), [True] * 9001) is None


class TestLongBodies:
    """`numbers.parse_rows` takes it for long bodies alone, and what it leaves goes to arrow piece by piece."""

    @pytest.fixture
    def rows(self) -> np.ndarray:
        rng = np.random.default_rng(3)
        return np.round(rng.normal(0, 300, (120_000, 3)), 4)

    @pytest.fixture(params=[True, False])
    def swift(self, request, monkeypatch) -> bool:
        monkeypatch.setattr(numbers, "at_hand", lambda size: request.param)
        return request.param

    def test_alike_by_either(self, rows, swift):
        lines = [",".join(map(repr, row)) for row in rows.tolist()]
        lines[100_000] = "1.5,,+2.5"  # its piece is arrow's
        body = ("\n".join(lines) + "\n").encode()
        wanted = rows.copy()
        wanted[100_000] = 1.5, np.nan, 2.5
        try:
            parsed = numbers.parse_rows(body, grid_of(3), WantedColumns((0, 1, 2)))
        except numbers.NotATable:
            pytest.fail("refused")
        assert parsed.rows == len(rows)
        assert same_bits(np.array([parsed.values[i] for i in range(3)]), wanted.T)
        assert parsed.extents[0].high == rows[:, 0].max()
        assert np.isnan(parsed.extents[1].high)

    def test_a_word_is_refused_by_either(self, rows, swift):
        body = ("\n".join(",".join(map(repr, row)) for row in rows.tolist()) + "\nall,ended,here\n").encode()
        with pytest.raises(numbers.NotATable):
            numbers.parse_rows(body, grid_of(3), WantedColumns((0, 1, 2)))

    def test_made_once_so_much_was_parsed_that_it_is_worth_it(self, monkeypatch):
        made = []
        monkeypatch.setattr(by_machine_code, "made_here", lambda code: made.append(code.entry))
        monkeypatch.setattr(by_machine_code._Parsed, "size", 0)
        by_machine_code.compiled.cache_clear()
        try:
            assert not any(by_machine_code.at_hand(1 << 20) for _ in range(3))
            assert made == []
            assert not by_machine_code.at_hand(1 << 20)  # as it cannot be made
            assert not by_machine_code.at_hand(1 << 30)
            assert made == ["columns_of_rows"]
        finally:
            by_machine_code.compiled.cache_clear()
