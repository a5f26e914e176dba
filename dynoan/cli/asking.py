"""A command asked from elsewhere: the object it prints with --json, and its exit code, without printing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import DONE, WRONG, Call, plain
from dynoan.cli.refusals import refusal
from dynoan.errors import CallError
from dynoan.version import __version__

#: commands that look and change nothing, and read nothing but the library
LOOKING = (
    "sweeps", "check", "curve", "compare", "match", "identify", "predict", "plan", "health", "ratio", "choose", "carry",
    "launch", "setup list", "setup compare", "setup recall", "trial show",
)  # fmt: skip
#: options that are not asked for from elsewhere: they write, or choose what the caller has chosen
CLOSED = frozenset({"library", "json", "debug", "cluster", "force", "help", "verbose", "to"})


@dataclass
class KeptCall(Call):
    """A call whose object is kept instead of printed."""

    body: dict[str, Any] = field(default_factory=dict)

    def _print_object(self, content: Mapping[str, Any]) -> None:
        self.body = plain({"dynoan": __version__, "command": self.command, **content, "warnings": self.warnings})


def ask(job: str, given: Sequence[tuple[str, str]], library: Path) -> tuple[int, dict[str, Any]]:
    """Return the exit code and the object of a command over a library.

    Parameters
    ----------
    job
        The command, such as "ratio" or "setup list".
    given
        Its arguments and options by name, in order; one that may be repeated is given several times.
    library
        The library's folder.
    """
    call = KeptCall(command=job, json=True, library=library)
    try:
        command = _command(job)
        with click.Context(command, info_name=f"dynoan {job}", obj=call) as context:
            words = list(_words(command, given))
            command.parse_args(context, words)
            code = command.invoke(context)
    except Exception as error:
        call.refuse(refusal(error, [value for _, value in given], job).to_dict())
        return WRONG, call.body
    return code if isinstance(code, int) else DONE, call.body


def _command(job: str) -> click.Command:
    from dynoan.cli.main import cli

    if job not in LOOKING:
        raise CallError(f"'{job}' cannot be asked here", hint=f"what can: {', '.join(LOOKING)}")
    found: click.Command | None = cli
    for part in job.split():
        context = click.Context(found)  # type: ignore[arg-type]
        found = found.get_command(context, part) if isinstance(found, click.Group) else None
    if found is None:
        raise CallError(f"there is no command '{job}'")
    return found


def _words(command: click.Command, given: Sequence[tuple[str, str]]) -> Iterator[str]:
    """Yield the words that would be typed: options first, then the arguments in their order."""
    options = {name: p for p in command.params for name in _names(p)}
    positions = [p for p in command.params if isinstance(p, click.Argument)]
    for key, value in given:
        name = key.replace("-", "_")
        param = options.get(name)
        if param is None or name in CLOSED or isinstance(param.type, click.Path) or "\0" in value:
            known = ", ".join(sorted(n for n, p in options.items() if n not in CLOSED and not _path(p)))
            raise CallError(f"'{key}' is no parameter of {command.name}", hint=f"it has {known}")
        if isinstance(param, click.Option):
            yield from _option(param, name, value)
    yield "--"
    for position in positions:
        values = [v for k, v in given if k.replace("-", "_") in _names(position)]
        yield from (_name(v) for v in values)


def _names(param: click.Parameter) -> list[str]:
    """Return what a parameter may be called: an argument as ``--help`` shows it too, such as "shock" for SHOCK."""
    names = [option.lstrip("-").replace("-", "_") for option in (*param.opts, *param.secondary_opts)]
    shown = (param.metavar or "").strip("[].").lower() if isinstance(param, click.Argument) else ""
    return list(dict.fromkeys([*names, shown])) if shown.isidentifier() else names


def _path(param: click.Parameter) -> bool:
    return isinstance(param.type, click.Path)


def _option(param: click.Option, name: str, value: str) -> Iterator[str]:
    flag = f"--{name.replace('_', '-')}"
    if not param.is_flag:
        yield f"{flag}={value}"
    elif value.lower() in ("", "1", "true", "yes"):
        yield flag


def _name(value: str) -> str:
    """Return the name of something in the library; what could be a file's path is refused."""
    if any(c in value for c in "/\\") or value.endswith(".toml") or Path(value).exists():
        raise CallError(f"'{value}' could be a file's path", hint="name what is in the library")
    return value


__all__ = ["CLOSED", "LOOKING", "ask"]
