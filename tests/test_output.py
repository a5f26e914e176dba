"""What is written where somebody asked for it: never over what he may miss, and never over a library's own."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import click
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dynoan import output
from dynoan.cli.main import cli
from dynoan.errors import CallError, LibraryError
from dynoan.library import Library
from dynoan.show.plots import saving, style
from tests.library.calling import dynoan, write_run
from tests.library.made import CAR, LAYOUT, made_sweep

PAGE = (
    b'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<meta name="generator" content="dynoan %s">\n'
)


def fill(folder: Path) -> Library:
    """Make a library with a file of every kind, a rig's file beside them, and caches."""
    library = Library.create(folder)
    ids = [library.add(*made_sweep(n)).id for n in range(3)]
    (folder / "cars" / "kestrel.toml").write_text(CAR)
    (folder / "shocks" / "FL-01.toml").write_text("[adjusters.lsc]\nclicks = 20\n[adjusters.lsr]\nclicks = 20\n")
    (folder / "layouts" / "odd.toml").write_text(LAYOUT)
    write_run(folder / "run.csv")
    library.cache("curve", ids[0], b"something reckoned")
    assert dynoan("--library", folder, "setup", "record", "kestrel", "--good", "--date", "2026-05-02").code == 0
    assert dynoan("--library", folder, "trial", "new", "start", "--a", "soft", "--b", "hard").code == 0
    return library


def snapshot(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


# What is known as an earlier output


@pytest.mark.parametrize("suffix", ["png", "svg", "pdf"])
def test_a_picture_is_known_by_its_mark_and_written_again(tmp_path, suffix):
    figure, _ = style.new_figure()
    path = saving.save(figure, tmp_path / f"a.{suffix}")
    assert output.kind_of(path.read_bytes()) == f"{suffix.upper()} picture"
    assert saving.save(figure, path) == path


@pytest.mark.parametrize("suffix", ["png", "svg", "pdf"])
def test_a_picture_of_another_program_stays(tmp_path, suffix):
    from matplotlib.figure import Figure

    path = tmp_path / f"a.{suffix}"
    Figure().savefig(path)
    before = path.read_bytes()
    figure, _ = style.new_figure()
    with pytest.raises(CallError, match="no earlier output"):
        saving.save(figure, path)
    assert path.read_bytes() == before
    saving.save(figure, path, force=True)
    assert path.read_bytes() != before


def test_pages_of_two_kinds_do_not_replace_one_another(tmp_path):
    page = tmp_path / "page.html"
    output.write(page, PAGE % b"report")
    output.write(page, PAGE % b"report" + b"newer")
    with pytest.raises(CallError, match="of this kind") as caught:
        output.write(page, PAGE % b"trackside")
    assert caught.value.need == "force"
    assert page.read_bytes().endswith(b"newer")
    output.write(page, PAGE % b"trackside", force=True)
    assert output.kind_of(page.read_bytes()) == "trackside"


@pytest.mark.parametrize(
    "body", [b"", b"run,pack\n1,gravel\n", b"<!doctype html><title>mine</title>", b"dynoan", b"%PDF-1.4"]
)
def test_what_bears_no_mark_is_replaced_by_force_alone(tmp_path, body):
    path = tmp_path / "x"
    path.write_bytes(body)
    assert output.kind_of(body) is None
    with pytest.raises(CallError):
        output.write(path, body)
    output.write(path, b"new", force=True)
    assert path.read_bytes() == b"new"


def test_a_filled_in_sheet_of_text_is_not_lost(tmp_path):
    sheet = tmp_path / "runs.csv"
    output.write(sheet, b"run,date\n1,\n")
    sheet.write_text("run,date\n1,2026-05-02\n")
    with pytest.raises(CallError):
        output.write(sheet, b"run,date\n1,\n")
    assert "2026" in sheet.read_text()


def test_every_page_the_program_writes_bears_its_mark(tmp_path, monkeypatch):
    library = fill(tmp_path / "lib")
    monkeypatch.chdir(library.path)
    assert dynoan("plan", "new", "--shock", "FL-01", "--sheet", "s.html").code == 0
    assert dynoan("report", "kestrel", "--out", "r.html").code == 0
    kinds = {name: output.kind_of((library.path / name).read_bytes()) for name in ("s.html", "r.html")}
    assert kinds == {"s.html": "plan", "r.html": "report"}
    assert (
        'content="dynoan trackside"' in (Path(style.__file__).parents[1] / "pages/templates/trackside.html").read_text()
    )


# Where nothing is written


def test_folders_devices_and_pipes_are_refused(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "folder").mkdir()
    for path in (tmp_path / "pipe", tmp_path / "folder", Path(os.devnull)):
        with pytest.raises(CallError, match="not a regular file"):
            output.write(path, b"x", force=True)
    assert Path(os.devnull).is_char_device()


def test_a_folder_that_is_not_there_is_named(tmp_path):
    with pytest.raises(CallError, match=r"there is no folder .*none; name a file in a folder that is there"):
        output.write(tmp_path / "none" / "x.html", b"x")


def test_a_link_is_followed_and_stays(tmp_path):
    (tmp_path / "real.html").write_bytes(PAGE % b"report")
    (tmp_path / "link.html").symlink_to("real.html")
    output.write(tmp_path / "link.html", PAGE % b"report" + b"newer")
    assert (tmp_path / "link.html").is_symlink()
    assert (tmp_path / "real.html").read_bytes().endswith(b"newer")


def test_the_mark_is_judged_before_anything_is_reckoned(tmp_path, monkeypatch):
    library = fill(tmp_path / "lib")
    monkeypatch.chdir(library.path)
    monkeypatch.setattr("dynoan.jobs.report.answer", lambda *_: pytest.fail("reckoned first"))
    done = dynoan("report", "--out", "run.csv")
    assert done.code == 2
    assert done.err.endswith("name another, or write over it with --force")


def test_a_full_disk_changes_nothing(tmp_path, monkeypatch):
    page = tmp_path / "page.html"
    output.write(page, PAGE % b"report")

    def full(_handle: int) -> None:
        raise OSError(28, os.strerror(28))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(LibraryError, match="the disk is full; nothing was changed"):
        output.write(page, PAGE % b"report" + b"newer")
    assert snapshot(tmp_path) == {"page.html": PAGE % b"report"}


# A library's own


@pytest.fixture
def library(tmp_path, monkeypatch):
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    library = fill(tmp_path / "lib")
    monkeypatch.chdir(tmp_path)
    return library


@pytest.mark.parametrize("spelling", ["as it is", "upper case", "dots", "absolute", "blank at the end", "decomposed"])
def test_no_spelling_of_a_librarys_file_is_written(library, spelling):
    (library.path / "cars" / "é.toml").write_text(CAR)
    files = [p.relative_to(library.path) for p in library.path.rglob("*") if p.is_file() and p.name != "run.csv"]
    assert len(files) >= 8
    for file in files:
        at = Path("lib") / file
        target = {
            "as it is": at, "upper case": Path("lib") / str(file).upper(), "dots": Path("lib/cars/..") / file,
            "absolute": library.path / file, "blank at the end": Path(f"{at} ."),
            "decomposed": Path("lib") / str(file).replace("é", "e\u0301"),
        }[spelling]  # fmt: skip
        before = snapshot(library.path)
        with pytest.raises(CallError, match="of the library"):
            output.write(target, b"x", force=True)
        assert snapshot(library.path) == before


def test_links_to_a_librarys_file_are_refused(library):
    (sweep,) = sorted((library.path / "sweeps").glob("*.h5"))[:1]
    Path("soft.h5").symlink_to(sweep)
    os.link(sweep, "hard.h5")
    Path("folder").symlink_to(library.path / "cars")
    Path("round").symlink_to("folder")
    for target in ("soft.h5", "hard.h5", "folder/kestrel.toml", "round/new.toml"):
        with pytest.raises(CallError, match="of the library"):
            output.write(Path(target), b"x", force=True, at_hand=[library.path])


def test_a_folder_that_a_library_only_links_to_is_its_own_too(library):
    shutil.move(library.path / "cars", "shared-cars")
    (library.path / "cars").symlink_to(Path("shared-cars").absolute())
    for name in ("kestrel.toml", "new.toml"):
        with pytest.raises(CallError, match="of the library"):
            output.write(Path("shared-cars") / name, b"x", force=True, at_hand=[library.path])


def test_a_new_car_may_be_put_among_the_cars_and_nothing_else(library):
    output.write(library.path / "cars" / "again.toml", CAR.encode(), new_in="cars")
    for name in ("cars/again.toml", "shocks/new.toml", "cars/deeper/x.toml"):
        with pytest.raises(CallError, match="of the library"):
            output.write(library.path / name, b"x", force=True, new_in="cars")


@pytest.mark.parametrize("name", ["dynoan.toml", "Dynoan.TOML", ".lock"])
def test_nothing_makes_a_folder_look_like_a_library(tmp_path, name):
    with pytest.raises(CallError, match="only a library's own"):
        output.write(tmp_path / name, b"x", force=True)


@pytest.fixture(scope="module")
def ground(tmp_path_factory):
    folder = tmp_path_factory.mktemp("anywhere")
    fill(folder / "lib")
    (folder / "linked").symlink_to(folder / "lib" / "sweeps")
    (folder / "soft.png").symlink_to(next((folder / "lib" / "sweeps").iterdir()))
    (folder / "again").symlink_to(folder / "lib")
    os.link(folder / "lib" / "cars" / "kestrel.toml", folder / "hard.html")
    library = folder / "lib"
    own = {n: c for n, c in snapshot(library).items() if not n.startswith(("cache/index", ".lock"))}
    return library, own


LINES = (
    ("report", "kestrel", "--out"), ("setup", "recall", "--to"), ("plan", "new", "--shock", "FL-01", "--sheet"),
    ("read", "run.csv", "--plot"), ("curve", "run.csv", "--plot"), ("ratio", "kestrel", "--plot"),
    ("trackside", "kestrel", "--out"), ("choose", "kestrel", "--plot"), ("health", "FL-01", "--plot"),
    ("guide", "--out"), ("compare", "run.csv", "run.csv", "--plot"), ("match", "run.csv", "run.csv", "--plot"),
    ("predict", "gravel", "--plot"), ("carry", "kestrel", "--what", "front.spring=52 N/mm", "--plot"),
    ("launch", "kestrel", "--plot"), ("travel", "run.csv", "--plot"),
    ("bounce", "run.csv", "--axle", "front", "--plot"),
    ("learn", "run.csv", "--car", "kestrel", "--surface", "loose", "--plot"), ("trial", "show", "start", "--plot"),
)  # fmt: skip
SPELLINGS = (str, str.upper, lambda t: f"./cars/../{t}", lambda t: f"../lib/{t}", lambda t: f"../again/{t}",
             lambda t: t.replace("/", "//"), lambda t: f"{t}.png", lambda t: f"{t}/x.png")  # fmt: skip
ODD = (
    "../soft.png",
    "../hard.html",
    "../linked/new.h5",
    "cars/new.png",
    "layouts/x.svg",
    "cache/index",
    "sweeps",
    ".lock",
    "x.h5",
)


OWN = ("cars/kestrel.toml", "trials/start.toml", "shocks/FL-01.toml", "layouts/odd.toml", "dynoan.toml",
       "setups/2026-05-02-kestrel.toml",
       "sweeps/{sweep}", "cache/curve/{cache}", *ODD)  # fmt: skip
FOLDERS = {"cars", "sweeps", "shocks", "setups", "layouts", "trials"}


#: parameters that name what is read, and folders that become libraries (see below); any other is taken as written
READ_ONLY = ("files", "log", "logs", "trace", "travel", "table", "file", "library", "folder")


def outputs(
    command: click.Command, context: click.Context, path: tuple[str, ...] = ()
) -> Iterator[tuple[str, ...]]:  # fmt: skip
    """Yield the words of each command that takes a path which is not known to be read only, and its option."""
    if isinstance(command, click.Group):
        for name in command.list_commands(context):
            inner = command.get_command(context, name)
            yield from outputs(inner, click.Context(inner, parent=context, info_name=name), (*path, name))
        return
    for option in command.params:
        if isinstance(option.type, click.Path | click.File) and option.name not in READ_ONLY:
            yield (*path, *([option.opts[0]] if isinstance(option, click.Option) else []))


def test_every_command_that_writes_a_file_is_among_those_tried():
    known = list(outputs(cli, click.Context(cli)))
    assert len(known) > 15
    for words in known:
        assert any((line[0], line[-1]) == (words[0], words[-1]) and set(words) <= set(line) for line in LINES), words


@given(
    line=st.sampled_from(LINES), name=st.sampled_from(OWN), spelling=st.sampled_from(SPELLINGS),
    more=st.lists(st.sampled_from(["--force", "--json"]), unique=True),
)  # fmt: skip
@settings(max_examples=max(60, settings().max_examples), deadline=None, suppress_health_check=list(HealthCheck))
def test_no_command_line_changes_a_file_of_the_library(ground, monkeypatch, line, name, spelling, more):
    library, before = ground
    monkeypatch.chdir(library)
    target = spelling(name.format(sweep=os.listdir("sweeps")[0], cache=os.listdir("cache/curve")[0]))
    with suppress(Exception):  # what a command says is held elsewhere; here what it leaves counts
        dynoan(*line, target, *more)
    after = snapshot(library)
    assert {name: after.get(name) for name in before} == before, (line, target, more)
    strangers = {n for n in after if n not in before and n.split("/")[0] in FOLDERS}
    assert all(n.startswith("cars/") and n.endswith(".toml") and line[0] == "setup" for n in strangers), strangers


#: what is called by a name that becomes a file's, and the folder that it may make one in
NAMED = (
    (("new", "car"), (), "cars"), (("new", "shock"), ("--adjusters", "c,r"), "shocks"),
    (("new", "--adjusters", "lsc", "shock"), (), "shocks"), (("trial", "show"), (), ""),
    (("trial", "new"), ("--a", "soft", "--b", "hard"), "trials"),
    (("read", "run.csv", "--column", "force=4", "--save-layout"), (), "layouts"),
    (("setup", "record"), ("--date", "2026-05-02"), "setups"), (("setup", "recall"), (), ""), (("sweeps",), (), ""),
    (("ratio",), (), ""), (("curve",), (), ""), (("setup", "record", "--from"), (), "setups"), (("health",), (), ""),
    (("trial", "run", "start", "--from"), (), ""), (("setup", "compare", "2026-05-02-kestrel"), (), ""),
    (("identify",), (), ""), (("predict",), (), ""),
)  # fmt: skip
HOSTILE = (
    *OWN, "../x", "../../x", "/tmp/x", "a/../../x", "..", ".", "con", "kestrel", "start", "odd", "FL-01", "KESTREL",
    "kestrel.toml", "../lib/cars/kestrel", "x" * 300, "e\u0301", "a\nb", "a\0b", "-x", "%2e%2e%2fx", "\udcff", "~",
    "$HOME", "run.csv", "car kestrel", ".tmp-1-a", "dynoan", "sweeps/x.h5",
)  # fmt: skip


@given(line=st.sampled_from(NAMED), name=st.sampled_from(HOSTILE), more=st.sampled_from([(), ("--json",), ("--csv",)]))
@settings(max_examples=max(100, settings().max_examples), deadline=None, suppress_health_check=list(HealthCheck))
def test_no_name_reaches_another_file(ground, monkeypatch, line, name, more):
    """A name makes a new file in its own folder, or none; nothing that is there changes, and nothing lands beside."""
    library, before = ground
    words, rest, folder = line
    monkeypatch.chdir(library)
    outside, there = {p.name for p in library.parent.iterdir()}, set(snapshot(library))
    with suppress(Exception):
        dynoan(*words, name.format(sweep=os.listdir("sweeps")[0], cache=os.listdir("cache/curve")[0]), *rest, *more)
    after = snapshot(library)
    assert {n: after.get(n) for n in before} == before, (line, name)
    assert {p.name for p in library.parent.iterdir()} == outside, (line, name)
    for new in (n for n in after if n not in there and not n.startswith(("cache/", ".lock"))):
        assert new.split("/")[0] == folder, (line, name, new)
        (library / new).unlink()


@pytest.mark.parametrize("place", ["cars", "sweeps/new", "Cars", "cache/x/y", "../linked/z", "../again/shocks"])
@pytest.mark.parametrize(
    "command",
    [("demo",), ("demo", "--files"), ("open", "--install-shortcut"), ("open", "--no-browser"),
     ("add", "run.csv", "--library"), ("new", "car", "x", "--library"), ("new", "shock", "x", "--library")],
    ids=" ".join,
)  # fmt: skip
def test_no_library_is_made_among_the_files_of_another(ground, monkeypatch, tmp_path, command, place):
    library, before = ground
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.chdir(library)
    done = dynoan(*command, place)
    assert done.code == 2
    assert any(words in done.err for words in ("of the library", "not empty", "is no library")), done.err
    after = snapshot(library)
    assert {name: after.get(name) for name in before} == before
    assert {n for n in after if n not in before and n.split("/")[0] in FOLDERS} == set()
    assert not list(tmp_path.iterdir())
