"""How to give on the command line what an error says is wrong or missing."""

from __future__ import annotations

import re
from contextvars import ContextVar

import click

from dynoan.errors import DynoanError

#: the command that is run, whose words an error may be about
AT_HAND: ContextVar[click.Command | None] = ContextVar("at_hand", default=None)
#: words for what an error needs, put behind its text
HOW = {
    "better": "--less-is-better or --more-is-better",
    "column of a corner": "--column fl=COLUMN",
    "pushed": "--corner fl or --axle front",
    "clicks": "see --clicks",
    "column": "--column NAME",
    "demo folder": "dynoan demo DIR",
    "fewer packs": "give --pack for each one wanted",
    "shock": "--shock NAME",
    "surface": "see --surface, --speed and --sigma",
    "velocities": "see --low and --high",
}
#: words that go on with an error's text
ON = {
    "corner": "; say which, such as --corner fl=COLUMN",
    "sure": "? If it is right, say --sure",
    "time": "; say which, with --time COLUMN",
    "scale": ', such as --scale "25 mm per V"',
    "targets": " or give --rebound-low and so on",
    "limits": "; loosen --within, --inside or --packs",
    "correction": "; give --shock, --pack, --clicks, --date or --temperature",
    "setup correction": "; give --surface, --temperature, --result, --good, --bad, --remarks or --date",
    "merge": "; if they are the same, add --merge",
    "force": ", or write over it with --force",
}
#: words for options that exclude one another, in the place of an error's text
INSTEAD = {
    "car or file": "name either a CAR or a file with --from, such as: dynoan setup record kestrel",
    "run": "name a setting and a result, such as a 4.83, or give --from FILE or --strike NUMBER",
    "strike": "--reason belongs to --strike NUMBER",
    "one surface": "--best takes one surface; name one with --surface",
    "one setting": "--best takes one setting; name one with --setting",
    "corner alone": "--corner stands alone; leave out --axle and --per-corner",
    "surface alone": "--surface without --aim proposes targets for it; leave out the other targets",
    "like alone": "--like takes its targets from a setup; leave out the other targets",
}


def spoken(error: DynoanError) -> str:
    """Return an error in one line: the option it is about in front, how to mend it behind."""
    text = f"{option_of(error.part)}{_joint(error.text)}{error.text}" if error.part else error.text
    need = error.need or ""
    return INSTEAD.get(need) or text + (f": {HOW[need]}" if need in HOW else ON.get(need, ""))


def _joint(text: str) -> str:
    """Return what stands between an option and a text about it: a blank where the text begins with what was given."""
    return " " if re.match(r"'[^']*': ", text) else ": "


def help_for(error: DynoanError) -> str:
    """Return how to give what an error needs, empty where nothing is known of that."""
    need = error.need or ""
    return INSTEAD.get(need) or HOW.get(need) or ON.get(need, "").lstrip(",; ")


def option_of(part: str) -> str:
    """Return what gives a part of its question in the command at hand: an option, a word as its help names it, else the
    part itself."""
    command, option = AT_HAND.get(), f"--{part.replace('_', '-')}"
    if command is None or any(option in (*p.opts, *p.secondary_opts) for p in command.params):
        return option
    words = {p.name: p.human_readable_name for p in command.params if isinstance(p, click.Argument)}
    return words.get(part) or part.replace("_", " ")
