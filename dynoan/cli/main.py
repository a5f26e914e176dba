"""The commands, by task, each loaded only when it is called; and the one place where an error becomes one line."""

from __future__ import annotations

import contextlib
import gc
import io
import os
import sys
import warnings
from contextvars import copy_context
from importlib import import_module
from typing import TYPE_CHECKING

import click

from dynoan.cli.call import DONE, WRONG, Call
from dynoan.cli.command import shared_options
from dynoan.cli.refusals import refusal
from dynoan.cli.streams import held
from dynoan.units import HINTED
from dynoan.version import __version__

if TYPE_CHECKING:
    from pathlib import Path

#: by task: command, module under dynoan.cli, and its line in the help
TASKS: dict[str, tuple[tuple[str, str, str], ...]] = {
    "Start here": (
        ("demo", "demo", "Make a demo library, run the main job on it, leave a report and a phone page."),
        ("new", "new", "Write a shock or car file to fill in, or name all that is wrong with one."),
        ("guide", "guide", "Read the guide: from a bare shock to a setup in a drawer."),
        ("open", "open", "Open the window: everything in the browser, on this machine."),
    ),
    "Dyno files": (
        ("read", "read", "Show what is in rig files and how it was understood, keeping nothing."),
        ("add", "add", "Keep sweeps in the library."),
        ("sweeps", "sweeps", "List what the library holds."),
        ("edit", "sweeps", "Correct what a kept sweep says of its shock, pack, clicks or date."),
        ("remove", "sweeps", "Take a sweep out of the library."),
        ("check", "sweeps", "Verify every file of the library."),
    ),
    "Shocks and packs": (
        ("curve", "curve", "Fit and show curves: knees, slopes, gas, friction, bands."),
        ("compare", "compare", "Lay packs, clicks or shocks over one another."),
        ("match", "match", "Tell whether two shocks or settings are a pair, and what to turn."),
        ("identify", "identify", "Tell which known pack and clicks an unknown sweep is."),
        ("predict", "predict", "Give the curve at any click, tested or not."),
        ("plan", "plan", "Say which runs to test next, and what each is worth."),
        ("health", "health", "Hold a shock against its own earlier tests."),
    ),
    "The car": (
        ("ratio", "ratio", "Wheel rates, ride frequencies, critical damping and damping ratios of the corners."),
        ("choose", "choose", "Rank packs and clicks for target damping ratios."),
        ("carry", "carry", "Give the clicks that keep the ratios after a change to the car."),
        ("launch", "launch", "Predict how the car leaves the line on a surface."),
        ("travel", "travel", "Show which velocities logged shock travel holds."),
    ),
    "At the track": (
        ("bounce", "bounce", "Measure frequency and damping ratio of a pushed corner, against the prediction."),
        ("learn", "learn", "Say what logged launches tell of the car's uncertain values."),
        ("trial", "trial", "Test a change in A-B-A runs, and learn whether it helped."),
    ),
    "Keeping and showing": (
        ("setup", "setup", "Record, list, compare and recall setups."),
        ("report", "report", "Write one self-contained HTML report."),
        ("trackside", "trackside", "Write one HTML page for the phone in the pits."),
    ),
}
#: commands whose function cannot bear their name
FUNCTIONS = {"open": "open_window"}
WHERE = {name: module for commands in TASKS.values() for name, module, _ in commands}


class LazyGroup(click.Group):
    """A group that knows its commands' names and help lines, and imports a command when it is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names in the order of the help."""
        return list(WHERE)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import the module of a command and return the command."""
        if cmd_name not in WHERE:
            return None
        module = import_module(f"dynoan.cli.{WHERE[cmd_name]}")
        return getattr(module, FUNCTIONS.get(cmd_name, cmd_name))  # type: ignore[no-any-return]

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that was named; the nearest one is named where there is none."""
        if args and args[0] not in WHERE and not args[0].startswith("-"):
            from difflib import get_close_matches

            near = get_close_matches(args[0], WHERE, n=1)
            ctx.fail(f"No such command '{args[0][:60]}'." + (f" Did you mean '{near[0]}'?" if near else ""))
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the commands by task, without importing any."""
        for task, commands in TASKS.items():
            with formatter.section(task):
                formatter.write_dl([(name, text) for name, _, text in commands])


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="dynoan")
@shared_options
@click.pass_context
def cli(ctx: click.Context) -> None:
    """Shock dyno sweeps in, damping curves, damping ratios and the clicks to set out.

    Start with:  dynoan demo      and read:  dynoan guide
    """


def run(words: list[str], *, folder: Path, quiet: bool = False) -> int:
    """Run one command inside this process, as if typed in `folder`; return its exit code."""
    code: int | None
    with contextlib.chdir(folder), contextlib.ExitStack() as stack:
        if quiet:
            for redirect in (contextlib.redirect_stdout, contextlib.redirect_stderr):
                stack.enter_context(redirect(io.StringIO()))
        try:
            code = copy_context().run(cli.main, words, prog_name="dynoan", standalone_mode=False)
        except click.exceptions.Exit as stop:
            code = stop.exit_code
    return code if isinstance(code, int) else 0


def main() -> None:
    """Run the command line; exit 0 done, 1 the answer is no, 2 the call or the input is wrong."""
    # The matrices here are small: threads inside one product cost more than they save, above all on a busy machine.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    words = sys.argv[1:]
    if "--debug" not in words:
        # What other libraries warn of is not for people; processes that are started here are as quiet.
        warnings.simplefilter("ignore")
        os.environ.setdefault("PYTHONWARNINGS", "ignore")
    call = Call(command="", json="--json" in _options(words))
    with held() as (out, err):
        code = copy_context().run(_code, call, debug="--debug" in _options(words))
        out.flush()
        if out.fault is not None:
            code = WRONG
            err.write(f"dynoan: standard output: {out.fault.strerror}; what was printed is not complete\n")
    gc.freeze()  # or the process, as it ends, would go through all that was loaded: a tenth of a short command's time
    sys.exit(code)


def _options(words: list[str]) -> list[str]:
    """Return the words that may be options: those before a bare "--"."""
    return words[: words.index("--")] if "--" in words else words


def _code(call: Call, *, debug: bool) -> int:
    try:
        code = cli.main(prog_name="dynoan", standalone_mode=False, obj=call)
    except click.exceptions.NoArgsIsHelpError as error:
        click.echo(error.format_message())
        return DONE
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except (click.Abort, KeyboardInterrupt):
        said = f"stopped; {call.when_stopped}" if call.when_stopped else "stopped."
        if sys.stderr is not None and sys.stderr.isatty():
            click.echo(err=True)  # "^C", or a question, stands on the line
        click.echo(f"dynoan: {said}", err=True)
        where = f"dynoan {call.command}".strip()
        call.refuse({"kind": "stopped", "text": said, "where": where, "hint": call.when_stopped or None})
        return 130
    except Exception as error:
        if debug and not isinstance(error, click.ClickException):
            raise
        with contextlib.suppress(Exception):  # the library may not have been asked before, or be what is wrong
            HINTED.set(call.shown_units)
        if isinstance(error, click.UsageError) and error.ctx is not None:
            call.command = call.command or error.ctx.command_path.removeprefix("dynoan").strip()
        found = refusal(error, sys.argv[1:], call.command)
        _tell(found.text)
        call.refuse(found.to_dict())
        return WRONG
    return code if isinstance(code, int) else DONE


def _tell(text: str) -> None:
    from dynoan.show.text.printing import say

    say(f"dynoan: {text}", sys.stderr)


__all__ = ["Call", "cli", "main"]
