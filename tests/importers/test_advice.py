"""What a refusal advises works as it is typed, on that very file: a right reading, or other advice; never the same."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

import dynoan
from dynoan.errors import CallError, DynoanError, ReadError
from dynoan.jobs.read.options import Stated, read_options
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes
from tests.importers.broken import BROKEN
from tests.importers.making import F, T, V, X

CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
_OPTION = re.compile(r"--(column|unit|rate|positive|decimal|dates) ('[^']*'|[^\s;,]+='[^']*'|[^\s;,]+)")
_WAYS = re.compile(r"\bor\b|;")
#: words in advice that stand for something to be filled in
_BLANK = re.compile(r"=(?:NAME|NUMBER|UNIT)\b|'NUMBER |CHANNEL")
MOST_BYTES = 200_000
SPEEDS, COMP, REB = (25, 51, 102, 203, 254), (250, 411, 583, 748, 810), (397, 662, 956, 1230, 1326)
TRACE = [f"{t:.3f},{1e3 * x:.3f},{f:.1f}" for t, x, f in zip(T, X, F, strict=True)]


def table(head: str, *columns, mark: str = ";") -> bytes:
    return "\n".join([head, *(mark.join(map(str, row)) for row in zip(*columns, strict=True))]).encode()


def half(values) -> list[float]:
    return [round(0.5 * v, 1) for v in values]


#: files that leave open what is what, with what settles each by the file's own names
OPEN: dict[str, tuple[bytes, dict[str, str]]] = {
    "places.csv": (
        table("Speed (mm/s);Comp slow (N);Comp fast (N);Reb slow (N);Reb fast (N)",
              SPEEDS, half(COMP), COMP, half(REB), REB),
        {"compression": "Comp fast (N)", "rebound": "Reb fast (N)"}),
    "previous.csv": (
        table("Speed (mm/s);Comp (N);Prev Comp (N);Reb (N);Prev Reb (N)", SPEEDS, COMP, half(COMP), REB, half(REB)),
        {"compression": "Comp (N)", "rebound": "Reb (N)"}),
    "extremes.csv": (
        table("Speed (mm/s);Comp min (N);Comp max (N);Reb min (N);Reb max (N)",
              SPEEDS, half(COMP), COMP, half(REB), REB),
        {"compression": "Comp max (N)", "rebound": "Reb max (N)"}),
    "twice.csv": (
        table("Speed (mm/s);Comp (N);Reb (N);Comp (N)", SPEEDS, COMP, REB, half(COMP)), {"compression": "Comp (N)#1"}),
    "words.csv": (
        table("Speed (mm/s);Qab (N);Zed (N)", SPEEDS, COMP, REB), {"compression": "Qab (N)", "rebound": "Zed (N)"}),
}  # fmt: skip


def advised(error: ReadError) -> list[list[str]]:
    """The options that a refusal names, as they stand: those that stand together, for each of its ways out."""
    ways = [[f"--{name} {value}" for name, value in _OPTION.findall(way)] for way in _WAYS.split(error.said.hint)]
    return [way for way in ways if way]


def options(typed: list[str]):
    stated: Stated = {}
    for text in typed:
        name, value = text[2:].split(" ", 1)
        (value,) = shlex.split(value)
        if name in ("column", "unit"):
            key = {"column": "columns", "unit": "units"}[name]
            stated[key] = [*stated.get(key, []), value]  # type: ignore[literal-required]
        else:
            stated[name] = value  # type: ignore[literal-required]
    return read_options(stated)


def outcome(data: bytes, name: str, typed: list[str]) -> str:
    try:
        read_bytes(data, name, options(typed))
    except DynoanError as error:
        return str(error)
    return ""


def refused() -> dict[str, tuple[str, bytes]]:
    """Files of which many are refused: what leaves things open, broken ones, the corpus without its units and heads."""
    found = {f"open {name}": (name, data) for name, (data, _) in OPEN.items()}
    found |= {f"broken {key}": ("rig.csv", made) for key, (made, _) in BROKEN.items()}
    for path in sorted(CORPUS.iterdir()):
        if path.suffix in (".csv", ".txt", ".dat") and path.stat().st_size < MOST_BYTES:
            found |= _blinded(path)
    return found


def _blinded(path: Path) -> dict[str, tuple[str, bytes]]:
    """The file without brackets, so that units are open, and without its first line."""
    data = path.read_bytes()
    bare = re.sub(rb"[\[(][^\])\n]{1,12}[\])]", b"", data)
    return {f"{path.name} without units": (path.name, bare),
            f"{path.name} without its first line": (path.name, data.partition(b"\n")[2])}  # fmt: skip


def _faults(key: str, name: str, data: bytes) -> list[str]:
    try:
        read_bytes(data, name)
    except ReadError as error:
        return [f"{key}: {typed}: {error}" for typed in advised(error) if outcome(data, name, typed) == str(error)]
    return []


@pytest.mark.parametrize("every", [12, pytest.param(1, marks=pytest.mark.thorough)])
def test_no_advice_brings_the_same_refusal_again(every):
    files = list(refused().items())[::every]
    assert [fault for key, (name, data) in files for fault in _faults(key, name, data)] == []


@pytest.mark.parametrize("name", sorted(OPEN))
def test_the_advised_columns_settle_what_a_file_leaves_open(name):
    data, columns = OPEN[name]
    with pytest.raises(ReadError) as refused:
        read_bytes(data, name)
    assert any(f"--column {channel}=NAME" in refused.value.said.hint for channel in columns)
    seen = [str(refused.value)]
    stated: list[str] = []
    for channel, column in columns.items():
        stated.append(f"--column {shlex.quote(f'{channel}={column}')}")
        said = outcome(data, name, stated)
        assert said == "" or said not in seen
        seen.append(said)
    (sweep,) = read_bytes(data, name, options(stated))
    force = sweep.channels["force"]
    assert (float(force.max()), float(force.min())) == (810.0, -1326.0)


def test_a_time_in_another_unit_than_its_head_says_is_mended_as_advised():
    rows = [f"{1e3 * t:.0f},{1e3 * x:.4f},{1e3 * v:.3f},{f:.1f}" for t, x, v, f in zip(T, X, V, F, strict=True)]
    data = "\n".join(["Time (s),Disp (mm),Velocity (mm/s),Force (N)", *rows]).encode()
    with pytest.raises(ReadError, match="one unit is wrong; give the right one with --unit time=ms") as refused:
        read_bytes(data, "rig.csv")
    (sweep,) = read_bytes(data, "rig.csv", options(advised(refused.value)[0]))
    assert sweep.rate == pytest.approx(500.0)


def test_advice_on_a_rate_leaves_its_number_open():
    data = "\n".join(["Disp (mm),Force (N)", *(row.partition(",")[2] for row in TRACE)]).encode()
    with pytest.raises(ReadError) as refused:
        read_bytes(data, "rig.csv")
    (rate,), (column,) = advised(refused.value)
    assert _BLANK.search(rate)
    assert _BLANK.search(column)
    assert "is not a number" in outcome(data, "rig.csv", [rate])
    (sweep,) = read_bytes(data, "rig.csv", options(["--rate '500 Hz'"]))
    assert sweep.rate == 500.0


def test_commas_between_cells_and_in_numbers_advise_no_column():
    rows = [row.replace(",", ";").replace(".", ",").replace(";", ",") for row in TRACE]
    data = "\n".join(["Tijd (s),Weg (mm),Kracht (N)", *rows]).encode()
    with pytest.raises(ReadError, match="commas may stand both between cells and in numbers: save it with semicolons"):
        read_bytes(data, "commas.csv")


def test_a_script_may_give_what_its_refusal_advises(tmp_path):
    data, columns = OPEN["words.csv"]
    path = tmp_path / "words.csv"
    path.write_bytes(data)
    with pytest.raises(ReadError, match=r'columns=\{"force": "NAME"\}'):
        dynoan.read(path)
    (sweep,) = dynoan.read(path, columns=columns)
    assert float(sweep.channels["force"].min()) == -1326.0
    with pytest.raises(CallError, match="two ways to say one thing"):
        dynoan.read(path, ReadOptions(), columns=columns)
