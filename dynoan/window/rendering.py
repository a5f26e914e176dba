"""Templates to pages: everything escaped, every quantity in the units people are shown."""

from __future__ import annotations

import mimetypes
import re
from collections.abc import Iterable
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING, Any

from starlette.responses import HTMLResponse, Response

from dynoan.cautions import CAUTIONS
from dynoan.library.disk_faults import is_full
from dynoan.library.names import printable
from dynoan.model.car import CORNER_NAMES
from dynoan.model.dates import day_words
from dynoan.model.shock import ADJUSTERS, clicks_in_words
from dynoan.show.text.evidence import told_evidence
from dynoan.show.text.places import placed
from dynoan.show.text.restated import restated
from dynoan.show.text.sentences import capital
from dynoan.units import Shown, degree_unit, degrees, percent_places, shown
from dynoan.version import __version__

if TYPE_CHECKING:
    from jinja2 import Environment
    from starlette.requests import Request

    from dynoan.analysis.health.records import Finding
    from dynoan.window.desk import Desk
    from dynoan.window.working import Work

#: address, name, and what the screen is for
SCREENS = (
    ("/files", "Files", "Drop the dyno shop's files here: each is looked at first, and kept when you say so."),
    ("/packs", "Packs", "What was tested of each shock and pack, what is doubtful, and what to test next."),
    ("/curves", "Curves", "What a pack does at any click, side by side, as you turn."),
    ("/car", "Car", "The damping ratios your car has, and the pack and clicks that give the ones you want."),
    ("/log", "Log book", "What was on the car when, how it went, and the page for your phone."),
)  # fmt: skip
#: what of a shock is held against its first tests
QUANTITIES = {
    "gas": "gas force and zero", "give": "give of oil and mounts", "fade": "fade per 10 °C",
}  # fmt: skip
STANDING = {
    "tested": "Tested: this setting was on the dyno",
    "between": "Between: its clicks lie between tested ones",
    "outside": "Outside: beyond all tests, do not rely on it",
}


FULL = "The disk is full: nothing new can be kept, and curves are fitted anew each time. Free some space on it."


def page(desk: Desk, request: Request, template: str, status: int = 200, **facts: Any) -> HTMLResponse:
    """Return a page made from a template and what it shows."""
    screen = next((s for s in SCREENS if request.url.path.startswith(s[0])), None)
    shared = {
        "screens": SCREENS, "screen": screen, "stamp": desk.stamp(), "said": desk.heard(), "units": desk.units,
        "library_path": str(desk.path), "team": desk.library.team, "works": last_of_each(desk.works.under_way()),
        "undoable": desk.last_change, "notes": _notes(desk), "show": Show(desk.units),
        "here": str(request.url.path) + (f"?{request.url.query}" if request.url.query else ""),
    }  # fmt: skip
    return HTMLResponse(_environment().get_template(template).render(**(shared | facts)), status)


def _notes(desk: Desk) -> list[str]:
    """Return what every page says above all else: what of the library cannot be read, and that its disk is full."""
    return [*map(printable, desk.notes), *([FULL] if is_full(desk.path) else [])]


def last_of_each(works: Iterable[Work]) -> list[Work]:
    """Return work under way, of what is asked for again while it runs the last alone: one line each."""
    return list({work.label: work for work in works}.values())


class Show:
    """Quantities as text, in the units people are shown."""

    def __init__(self, units: Shown) -> None:
        self.units: Shown = units

    def __call__(self, value: float | None, kind: str, unit: bool = True) -> str:
        """Return a value in SI as text."""
        return "–" if value is None else shown(kind, self.units).text(value, unit=unit).replace("-", "−")

    @property
    def degree_unit(self) -> str:
        """The unit of temperatures."""
        return degree_unit(self.units)

    def degrees(self, value: float | None) -> str:
        """Return a temperature as text."""
        return "–" if value is None else degrees(value, self.units)

    def told(self, text: str) -> str:
        """Return a sentence with its quantities in the units people are shown."""
        return minus(placed(restated(text, self.units)))

    def evidence(self, finding: Finding) -> str:
        """Return what tells that a shock changed, in the units people are shown."""
        return minus(placed(told_evidence(finding, self.units)))

    def unit(self, kind: str) -> str:
        """Return the unit of a kind of quantity."""
        return shown(kind, self.units).unit


def signed(value: float | None, digits: int = 1) -> str:
    """Return a number with its sign."""
    if value is None or value != value:
        return "–"
    text = f"{value:+.{digits}f}"
    return "0" if float(text) == 0 else text.replace("-", "−")


def within(value: float, low: float, high: float) -> str:
    """Return a percentage with its sign, to the places that its limits leave it."""
    return signed(value, percent_places(low, high))


def minus(text: str) -> str:
    """Return a text with the sign that is as wide as a plus where a hyphen stands before a number."""
    return re.sub(r"(?<![\w.)-])-(?=\d)", "−", text)


def bare_number(text: str) -> bool:
    """Return whether a text is a number alone, with a point or a comma, and no unit; one below zero is a number too."""
    return text.strip().lstrip("-−+").replace(",", ".").replace(".", "", 1).isdecimal()


def sentence(text: str) -> str:
    """Return a text that begins with a capital, unless with an adjuster's name, and has no full stop of its own."""
    return capital(text).rstrip(".")


def plural(count: int, one: str, many: str = "") -> str:
    """Return a number with its noun."""
    return f"{count} {one if count == 1 else many or one + 's'}"


@cache
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=PackageLoader("dynoan.window", "templates"), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
    made.filters |= {
        "signed": signed, "within": within, "minus": minus, "sentence": sentence, "clicks": clicks_in_words,
        "setting_words": setting_words, "day_words": day_words,
        "held_clicks": lambda c: clicks_in_words(c).replace(", ", ",\n").replace(" ", "\u00a0").replace("\n", " "),
        "printable": lambda t: printable(str(t)),
    }  # fmt: skip
    made.globals |= {
        "version": __version__, "cautions": CAUTIONS, "plural": plural, "STANDING": STANDING, "ADJUSTERS": ADJUSTERS,
        "CORNER_NAMES": CORNER_NAMES, "QUANTITIES": QUANTITIES,
    }  # fmt: skip
    return made


def load_templates(names: Iterable[str]) -> None:
    """Compile templates before they are first shown."""
    for name in names:
        _environment().get_template(name)


def setting_words(text: str) -> str:
    """Return a setting, or a sentence that holds one, without the signs that the command line writes it with.

    >>> setting_words("rear=@lsr=10,hsr=4")
    'rear lsr 10, hsr 4'
    >>> setting_words("RR-04 gravel lsc=10,lsr=8 (clicks from closed)")
    'RR-04 gravel lsc 10, lsr 8 (clicks from closed)'
    """
    plain = re.sub(r"\b([a-z]{1,3})=(\d+)", r"\1 \2", re.sub(r"=?@", " ", text))
    return re.sub(r"(\d),(?=[a-z])", r"\1, ", plain)


def static(name: str) -> Response:
    """Return a script or style sheet of the package; those that all pages share come from `show`."""
    shared = ("common.css", "guide.css")
    folder = resources.files("dynoan.show.pages").joinpath("assets") if name in shared else _own()
    known = {f.name for f in _own().iterdir()} | set(shared)
    if name not in known:
        return Response("no such file\n", 404, media_type="text/plain")
    kind = {"js": "text/javascript", "css": "text/css", "svg": "image/svg+xml"}.get(name.rpartition(".")[2])
    kind = kind or mimetypes.guess_type(name)[0] or "application/octet-stream"
    return Response(folder.joinpath(name).read_bytes(), media_type=kind)


def _own() -> Any:
    return resources.files("dynoan.window").joinpath("static")
