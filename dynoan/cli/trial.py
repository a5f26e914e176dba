"""``dynoan trial``: tests at the track. Plan the runs, note the results, learn whether the change helped."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command


@click.group(epilog='Example:  dynoan trial new start --a "rear=@lsr=6" --b "rear=@lsr=10" --measure "time to 30 m"')
def trial() -> None:
    """Test a change at the track in A-B-A runs, and learn whether it helped. Closed courses only."""


@command(
    name="new",
    short_help="Plan a trial: what is compared, in which order, measured how.",
    epilog='Example:  dynoan trial new start --a "rear=@lsr=6" --b "rear=@lsr=10" --surface loose --worth "0.1 s"',
)
@click.argument("name")
@click.option("--a", "a", required=True, help='The setting as it is: a setup, clicks such as "rear=@lsr=6", or words.')
@click.option("--b", "b", required=True, help="The setting that is tried.")
@click.option("--plan", default="abba", show_default=True, help="The order of runs, such as aba or abbabaab.")
@click.option("--less-is-better/--more-is-better", "less", default=None, help="Times: less. Say it for anything else.")
@click.option("--unit", default="s", show_default=True, help="Of the results, such as s, km/h or points.")
@click.option("--measure", default="", help='Such as "time to 30 m".')
@click.option("--worth", help='The smallest difference worth knowing, such as "0.1 s".')
@click.option("--question", default="", help="What is asked, in your words.")
@click.option("--car", help="The car.")
@click.option("--surface", help="What is driven on, in the team's words.")
@click.option("--date", help="When; today where left out.")
@click.option("--remarks", default="", help="Anything else worth keeping.")
def new(call: Call, name: str, **asked: Any) -> int:
    """Plan the trial NAME: settings a and b, driven in turn so that the day's drift can be taken out."""
    from dynoan.jobs.trial.new import TrialNewQuestion, answer

    return call.show(answer(call.workbench(), TrialNewQuestion.asked(name, **asked)))


@command(
    short_help="Note a run's result, or strike one out.",
    epilog='Example:  dynoan trial run start a 4.83   or   dynoan trial run start --strike 3 --reason "missed a gear"',
)
@click.argument("name")
@click.argument("setting", required=False)
@click.argument("results", nargs=-1)
@click.option("--from", "table", type=click.Path(path_type=Path, exists=True, dir_okay=False),
              help="A CSV of results; a column of a and b says the settings, else the plan does.")  # fmt: skip
@click.option("--column", help="Of that file; by default the one whose name or unit fits.")
@click.option("--strike", type=int, metavar="NUMBER", help="Strike this run out; it stays on record.")
@click.option("--reason", default="", help="Why; without a reason the run counts again.")
@click.option("--date", help="When; now where left out.")
@click.option("--remarks", default="", help="Anything worth keeping of this run.")
@click.option("--sure", is_flag=True, help="Note a time or speed that is far from the others: it is right.")
def run(call: Call, name: str, setting: str | None, results: tuple[str, ...], **asked: Any) -> int:
    """Note in the trial NAME that SETTING (a or b) gave RESULTS, one or more, in the order they were driven."""
    from dynoan.jobs.trial.run import TrialRunQuestion, answer

    return call.show(answer(call.workbench(), TrialRunQuestion.asked(name, setting, results, **asked)))


@command(epilog="Example:  dynoan trial show start --plot start.png")
@click.argument("name")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def show(call: Call, name: str, plot: Path | None) -> int:
    """Show the trial NAME: its runs, b minus a with the drift taken out, the verdict, and what would settle it."""
    from dynoan.jobs.trial.show import TrialShowQuestion, answer

    return call.show(answer(call.workbench(), TrialShowQuestion(name)), plot)


@command(name="list", epilog="Example:  dynoan trial list --surface loose")
@click.option("--surface", help="Only trials on this surface.")
@click.option("--car", help="Only trials of this car.")
def list_trials(call: Call, surface: str | None, car: str | None) -> int:
    """List the trials kept, oldest first, each with its verdict."""
    from dynoan.jobs.trial.listing import TrialListQuestion, answer

    return call.show(answer(call.workbench(), TrialListQuestion(surface, car)))


for _part in (new, run, show, list_trials):
    trial.add_command(_part)
