"""A line or more for every command, in the demo's library: what a person can be shown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import click

from dynoan.cli.main import cli

FRONT, REAR = "gravel@lsc=8,hsc=8,lsr=8,hsr=8", "shock=RL-03,pack=gravel"
RIGHT = "shock=RR-04,pack=gravel,date=2026"
LOGS = " ".join(f"travel/kestrel_launch_{number}.csv" for number in (1, 2, 3))
#: another form of what a line beside it shows, that takes long: asked in the thorough run
SELDOM = frozenset({
    "launch kestrel --surface loose --setting rear=@lsc=2 --accel '13 ft/s2'", "report RR-04 --out shock.html",
    "launch kestrel --surface loose --holes --time '1 s' --plot holes.svg", "curve 6707 --at 2,10",
    "ratio kestrel --surface loose --speed '40 mph'", "choose kestrel --axle rear --rebound-low 3",
    "plan wet --shock FL-01 --runs 2 --sheet runs.txt",
})  # fmt: skip
#: by command; those that change what others look at stand last
LINES: Mapping[str, tuple[str, ...]] = {
    "demo": ("demo made",),
    "guide": ("guide", "guide curves", "guide --out guide.html"),
    "open": ("open . --no-browser", "open . --install-shortcut"),
    "new": ("new car kestrel", "new car club", "new shock FL-21 --adjusters c,r"),
    "read": ("read dyno/FL-01_mixed_lsc10_hsc10_lsr10_hsr10.txt -v --plot read.svg",
             "read dyno/rear_left_mixed_peaks.csv", "read nothing.csv"),
    "sweeps": ("sweeps", "sweeps date=1999"),
    "check": ("check",),
    "curve": ("curve shock=FR-02 -v --plot curve.svg", "curve 6707 --at 2,10", "curve 6707 --at '2 lbf'"),
    "compare": (f"compare {FRONT} mixed@lsc=8,hsc=8,lsr=8,hsr=8 --plot packs.svg",
                f"compare --equal-to {FRONT} tarmac --plot equal.svg"),
    "match": (f"match {REAR} {RIGHT} --plot pair.svg", "match --pairs pack=gravel --plot pairs.svg"),
    "identify": ("identify unlabelled.csv",),
    "predict": ("predict gravel --clicks lsc=5 -v --temperature '50 °F' --plot map.svg",
                "predict gravel --clicks lsc=5 --shock RR-04"),
    "plan": ("plan tarmac --sheet runs.html", "plan wet --shock FL-01 --runs 2 --sheet runs.txt"),
    "health": ("health RR-04 -v --plot health.svg",),
    "ratio": ("ratio kestrel -v --plot ratio.svg", "ratio kestrel --what 'front.spring=275 lb/in' --plot what.svg",
              "ratio kestrel --surface loose --speed '40 mph'"),
    "choose": ("choose kestrel --axle front --count 2 --plot choose.svg", "choose kestrel --axle rear --rebound-low 3"),
    "carry": ("carry kestrel kestrel-winter --plot carry.svg",),
    "launch": ("launch kestrel --surface loose -v --plot launch.svg",
               "launch kestrel --surface loose --setting rear=@lsc=2 --accel '13 ft/s2'",
               "launch kestrel --surface loose --holes --time '1 s' --plot holes.svg"),
    "travel": ("travel travel/kestrel_loose_run3.csv --car kestrel --part 1..2 -v --plot travel.svg",),
    "bounce": ("bounce travel/kestrel_push_front_left.csv --car kestrel --corner fl --plot push.svg",),
    "learn": (f"learn {LOGS} --car kestrel --surface loose --plot learn.svg",),
    "trial new": ("trial new tyres --question 'Does it help?' --a rear=@lsr=10 --b rear=@lsr=16 --worth '0.1 s'",),
    "trial list": ("trial list",),
    "trial show": ("trial show less-rear-rebound -v --plot trial.svg",),
    "trial run": ("trial run less-rear-rebound a '4.9 s'",),
    "setup list": ("setup list", "setup list --by surface"),
    "setup compare": ("setup compare 2026-03-22-kestrel 2026-04-12-kestrel-winter",),
    "setup recall": ("setup recall 2026-03-22-kestrel --card", "setup recall --surface ice"),
    "report": ("report RR-04 --out shock.html", "report kestrel gravel --no-launch --out car.html"),
    "trackside": ("trackside kestrel --pack gravel --out phone.html",),
    "setup record": ("setup record kestrel --surface loose --temperature '70 °F' --date 2026-05-05",),
    "setup edit": ("setup edit 2026-03-22-kestrel --temperature '68 °F'",),
    "edit": ("edit 6707 --temperature '95 °F'", "edit --rename-pack tarmac asphalt"),
    "add": ("add unlabelled.csv --shock FL-01 --pack gravel",),
    "remove": ("remove 6707",),
}  # fmt: skip


def commands(group: click.Command = cli, before: str = "") -> Iterator[tuple[str, click.Command]]:
    """Yield every command that is no group, by the words that call it."""
    if not isinstance(group, click.Group):
        yield before, group
        return
    context = click.Context(group)
    for name in group.list_commands(context):
        found = group.get_command(context, name)
        assert found is not None
        yield from commands(found, f"{before} {name}".strip())
