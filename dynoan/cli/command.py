"""How a command is made: the options all share, its call at hand, and what it must not write over."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

import click

from dynoan.cli.call import Call
from dynoan.cli.hints import AT_HAND
from dynoan.cli.pictures import check_plot
from dynoan.cli.typed_text import as_typed
from dynoan.errors import CallError

F = TypeVar("F", bound=Callable[..., Any])
#: parameters of commands that name a file to write
OUTPUTS = ("plot", "out", "sheet")


class _Folder(click.Path):
    """A folder; what paths are made of is loaded where one is given: `--help` takes a tenth less without."""

    def coerce_path_result(self, value: str | os.PathLike[str]) -> str | bytes | os.PathLike[str]:
        """Return what was typed as a path."""
        from pathlib import Path

        return Path(value)


def _call(ctx: click.Context) -> Call:
    root = ctx.find_root()
    if root.obj is None:
        root.obj = Call(command="")
    return root.obj  # type: ignore[no-any-return]


def _store(name: str) -> Callable[[click.Context, click.Parameter, Any], None]:
    def keep(ctx: click.Context, _param: click.Parameter, value: Any) -> None:
        if value is not None and value is not False and value != 0:
            setattr(_call(ctx), name, value)

    return keep


def shared_options(function: F) -> F:
    """Add --json, --units, --library, -v and --debug; they may stand before or after the command's name."""
    for option in reversed(
        (
            click.option("--json", is_flag=True, expose_value=False, callback=_store("json"),
                         help="One JSON object on standard output, in SI."),
            click.option("--units", type=click.Choice(["metric", "us"]), expose_value=False, callback=_store("units"),
                         help="Units to show; the library remembers its own."),
            click.option("--library", type=_Folder(), expose_value=False, callback=_store("library"),
                         help="The library's folder; else DYNOAN_LIBRARY, else upward from here."),
            click.option("-v", "--verbose", count=True, expose_value=False, callback=_store("verbose"),
                         help="Show more."),
            click.option("--debug", is_flag=True, expose_value=False, callback=_store("debug"),
                         help="Show the traceback of an error."),
        )
    ):  # fmt: skip
        function = option(function)
    return function


def cluster_option(function: F) -> F:
    """Add --cluster to a command that may have much to fit."""
    return click.option(
        "--cluster", metavar="ADDRESS", expose_value=False, callback=_store("cluster"),
        help="Fit on a Dask cluster, such as tcp://10.0.0.5:8786.",
    )(function)  # fmt: skip


def _csv_option(function: F) -> F:
    """Add --csv to a command that shows a table."""
    return click.option("--csv", is_flag=True, expose_value=False, callback=_store("csv"),
                        help="Print the main table as CSV, in SI, and nothing else.")(function)  # fmt: skip


def _force_option(function: F) -> F:
    """Add --force to a command that writes a file asked for by name."""
    return click.option(
        "--force", is_flag=True, expose_value=False, callback=_store("force"),
        help="Write over a file that is no earlier output of this kind; never over one of the library's.",
    )(function)  # fmt: skip


def _hush() -> None:
    """Let what other libraries log stay with them: a log is not for people, who would take it for an answer."""
    import logging

    root = logging.getLogger()
    if not root.handlers:
        root.addHandler(logging.NullHandler())


def _judge_outputs(call: Call, asked: Mapping[str, Any]) -> None:
    """Refuse a file that must not be written before anything is reckoned for it."""
    from pathlib import Path

    named = {name: path for name in OUTPUTS if isinstance(path := asked.get(name), Path)}
    if named:
        from dynoan.output import judge

        for name, path in named.items():
            judge(path, force=call.force, at_hand=[call.library] if call.library else [])
            if name == "plot":
                check_plot(path)
            if not path.absolute().parent.is_dir():
                raise CallError(
                    f"there is no folder {path.parent}", where=path, hint="name a file in a folder that is there"
                )


def command(**settings: Any) -> Callable[[Callable[..., int]], click.Command]:
    """Make a command: the shared options, and the `Call` as first argument; what it returns is the exit code."""

    def make(function: Callable[..., int]) -> click.Command:
        @click.pass_context
        def run(ctx: click.Context, /, *args: Any, **kwargs: Any) -> int:
            call = _call(ctx)
            call.command = ctx.command_path.removeprefix("dynoan ")
            AT_HAND.set(ctx.command)
            if not call.debug:
                _hush()
            if call.csv and call.json:
                raise CallError("--json and --csv are two forms of one output", hint="leave one out")
            kwargs = as_typed(kwargs, {str(p.name): p for p in ctx.command.params})
            _judge_outputs(call, kwargs)
            return function(call, *args, **kwargs)

        run.__name__ = function.__name__
        run.__doc__ = function.__doc__
        if hasattr(function, "__click_params__"):
            run.__click_params__ = function.__click_params__  # type: ignore[attr-defined]
        asked = {option.name for option in getattr(run, "__click_params__", ())}
        run = run if "out" in asked else _csv_option(run)
        run = _force_option(run) if asked & set(OUTPUTS) else run
        made: click.Command = click.command(**settings)(shared_options(run))
        made.params.sort(key=lambda option: not option.expose_value)  # its own first, then what all commands have
        return made

    return make
