"""What every test begins with."""

from __future__ import annotations

import contextlib
import gc
import importlib
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from _pytest.runner import runtestprotocol

# Before numpy: as the program itself has it. On a busy machine the threads of small products wait for one another.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
# Workers, and the many programs that tests start, would each compile all they import: see below too.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

from dynoan import batch
from dynoan.cli.hints import AT_HAND
from dynoan.units import HINTED
from tests.once import remembered

sys.dont_write_bytecode = False


@pytest.hookimpl(tryfirst=True)
def pytest_configure() -> None:
    """Look at 40 examples of a property whose test states no number; `--hypothesis-profile long` looks for longer.

    Hypothesis is imported here first, where compiled code is kept: pytest rewrites the assertions of all of it.
    """
    from hypothesis import settings

    settings.register_profile("every run", max_examples=40)
    settings.register_profile("long", max_examples=1000)
    settings.load_profile("every run")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: Any, log: Any) -> Any:
    """Deal each worker a row of whole files, so that what a file makes once is made once; who is done takes over."""
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log) if config.getoption("dist") == "load" else None


def pytest_sessionstart(session: pytest.Session) -> None:
    """Let every second worker of a whole run begin with the last files, so that each is compiled by one of them."""
    here = Path(__file__).parent
    odd = int(os.environ.get("PYTEST_XDIST_WORKER", "gw0").removeprefix("gw")) % 2
    if odd and [Path(place).resolve() for place in session.config.args] == [here]:
        files = sorted(here.rglob("test_*.py"), reverse=True)
        for path in files[: len(files) // 2]:
            with contextlib.suppress(Exception, pytest.skip.Exception):  # it is told of where the file is collected
                importlib.import_module(".".join(path.relative_to(here.parent).with_suffix("").parts))


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Iterator[None]:
    """Search for nothing to throw away while tests are made, which live as long as the run, and seldom later."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()  # with the few megabytes among it that nobody holds: to find those takes half a second
        gc.set_threshold(20_000, 20, 100)
        gc.enable()


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_protocol(item: pytest.Item, nextitem: pytest.Item | None) -> bool | None:
    """Let a worker tell of a fixture only where it failed: it is two of three reports, and nobody reads them."""
    if "PYTEST_XDIST_WORKER" not in os.environ or item.config.option.durations is not None:
        return None
    item.ihook.pytest_runtest_logstart(nodeid=item.nodeid, location=item.location)
    for report in runtestprotocol(item, log=False, nextitem=nextitem):
        if report.when == "call" or not report.passed:
            item.ihook.pytest_runtest_logreport(report=report)
    item.ihook.pytest_runtest_logfinish(nodeid=item.nodeid, location=item.location)
    return True


@pytest.fixture(autouse=True, scope="session")
def _share_of_the_cores() -> Iterator[None]:
    """Beside other workers of the run a command started in this process has its share of the cores and no more."""
    with pytest.MonkeyPatch.context() as patch:
        share = max(1, batch.cores() // int(os.environ.get("PYTEST_XDIST_WORKER_COUNT", "1")))
        for place in (batch, batch.sharing, batch.workers):  # each looks it up where it stands
            patch.setattr(place, "cores", lambda: share)
        yield


@pytest.fixture(autouse=True, scope="session")
def _no_wait_for_the_disk() -> Iterator[None]:
    """Nobody pulls the plug on a test: what was written is there for all who look, whether the disk has it yet or not.

    Tests of what happens as a disk refuses, or a program dies, put their own in its place, before or instead of it.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda handle: os.fstat(handle) and None)  # one that is not open is refused as ever
        yield


@pytest.fixture(autouse=True, scope="session")
def _reckoned_once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with remembered(tmp_path_factory.getbasetemp()):
        yield


@pytest.fixture(autouse=True)
def _no_command_before() -> Iterator[None]:
    """Commands called inside this process leave the units of their library behind, and which of them was run."""
    units, command = HINTED.set("metric"), AT_HAND.set(None)
    yield
    HINTED.reset(units)
    AT_HAND.reset(command)
