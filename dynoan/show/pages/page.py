"""What both HTML pages share: templates, their own style sheet and script, and a policy that lets nothing else run."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any


def asset(name: str) -> str:
    """Return the text of a style sheet or script that lies in the package."""
    return resources.files("dynoan.show.pages").joinpath("assets", name).read_text(encoding="utf-8")


def script(names: Sequence[str]) -> str:
    """Return script files joined into one that leaves no name behind on the page."""
    body = "\n".join(asset(name).rstrip() for name in names)
    return f'\n(function () {{\n"use strict";\n{body}\n}})();\n'


def policy(style: str, code: str = "", *, images: bool = False) -> str:
    """Return the Content-Security-Policy of a page: this style and this script by hash, and nothing from anywhere.

    With `images`, pictures that stand in the page itself are shown too.
    """
    allowed = f"script-src '{_hash(code)}'" if code else "script-src 'none'"
    shown = "img-src data:; " if images else ""
    return f"default-src 'none'; {allowed}; {shown}style-src '{_hash(style)}'; base-uri 'none'; form-action 'none'"


def render(template: str, **facts: Any) -> str:
    """Return a page from its template; whatever the facts hold is escaped."""
    return str(_environment().get_template(template).render(**facts))


#: what must not be parted at the end of a line: dates, a number and its unit, names such as RL-03; of escaped text
_WHOLE = re.compile(
    r"\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d)?"
    r"|\d[\d.]* \([-−]?\d[\d.]* to [-−]?\d[\d.]*\)\*?"
    r"|(?:±\s?|[-−+])?\d[\d.,]*\s(?:%|°C|°F|mm/s|in/s|N/mm|lb/in|N|lbf|mm|in|kg|lb|bar|psi|Hz|s)(?![\w/])"
    r"|(?<![\w-])[A-Z]{1,3}-\d+(?![^\W_]|-)"
)

#: where a long file name may be parted
_JOINT = re.compile(r"(?<=[^\W_])_(?=[^\W_])")

#: marks that turn what follows them round; a setup's file that was written by hand may hold them
_TURNING = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")

#: a hyphen that stands for a minus
_MINUS = re.compile(r"(?<![\w.)-])-(?=\d)")


def whole(text: object) -> Any:
    """Return text for a page, escaped: no date, quantity or shock's name broken over two lines; minus signs as such."""
    from markupsafe import Markup, escape

    signed = _MINUS.sub("−", str(escape(_one_way(text))))
    parted = _WHOLE.sub(lambda m: f'<span class="whole-word">{m[0]}</span>', signed)
    return Markup(_JOINT.sub("_<wbr>", parted))


def _one_way(value: object) -> object:
    """Return what a template shows, a text without marks that would turn its neighbours round."""
    return _TURNING.sub("", value) if type(value) is str else value


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


@cache
def _environment() -> Any:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        loader=PackageLoader("dynoan.show.pages", "templates"), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True, finalize=_one_way,
    )  # fmt: skip
    environment.filters["whole"] = whole
    environment.policies["json.dumps_kwargs"] = {"sort_keys": False, "ensure_ascii": False, "separators": (",", ":")}
    return environment
