"""How well packs' maps, identification, match and health keep what they promise, on packs made apart from them.

``python -m tests.benchmarks.bench_packs --worlds 20 --first 1000`` prints, for maps, the share of points that the 95 %
band holds, its median half-width over the 95th percentile of the error, and the share of what is odd that is named, by
kind of pack and number of tests; then the confusions of `identify`, the false verdicts of `match`, and the false alarms
and found changes of `health`. Curves come from the made worlds as an honest fit would state them.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from itertools import chain, product

import numpy as np

from tests.worlds.packs.piston_score import LIBRARIES, library_points
from tests.worlds.packs.rows import COUNTS, KINDS, draw
from tests.worlds.packs.score import TRIES, Cells
from tests.worlds.packs.tables import table
from tests.worlds.packs.with_dynoan import program

MIXED = ("map shocks 8", "map dates 8", "map warm 8", "map forms 8", "map rigs 8", "map two ways 8")
"""Maps of eight tests that are not alike: of two shocks, over years, warm oil, unlike files, two rigs, two ends."""
OTHERS = (
    "retest regular", "retest any", "retest worn", "retest rebuilt 1", "retest rebuilt 3", "unit one tested",
    "unit two tested", "unit carried", "identify far", "identify alike", "identify any", "identify unlisted",
    "identify warm", "identify peaks", "identify known mixed", "identify known peaks", "identify known odd",
    "identify known warm", "identify look-alike", "identify look-alike mixed", "identify look-alike odd",
    "match 1 %", "match 2 %", "match 5 %", "match peaks", "match one speed", "health same", "health same warm",
    "health same loose", "health compression", "health rebound", "health gas", "health friction",
    "health months nothing", "health months oil", "health months wear", "plan regular", "plan any",
)  # fmt: skip

VERDICTS = ("match 1 %", "match 2 %", "match 5 %")


def cells(row: str, seeds: Sequence[int]) -> tuple[str, Cells]:
    """Return a row's task and its figures."""
    worlds = [draw(row, seed) for seed in seeds]
    return worlds[0].task, TRIES[worlds[0].task](program, worlds)


def maps(seeds: Sequence[int]) -> Iterator[str]:
    """Yield the lines of the table of maps: kinds of packs by numbers of tests."""
    heads = [f"{n} tests: held, width / error, named" for n in COUNTS]
    yield f"| pack | {' | '.join(heads)} |"
    yield "|" + " --- |" * (len(COUNTS) + 1)
    for kind in KINDS:
        found = [cells(f"map {kind} {n}", seeds)[1] for n in COUNTS]
        yield f"| {kind} | {' | '.join(_cell(one) for one in found)} |"


def mixed(seeds: Sequence[int]) -> Iterator[str]:
    """Yield the lines of the table of maps whose tests are not alike."""
    yield "| eight tests | held, width / error, named | worlds with a false name |"
    yield "|" + " --- |" * 3
    for row in MIXED:
        found = cells(row, seeds)[1]
        name = row.removeprefix("map ").removesuffix(" 8")
        yield f"| {name} | {_cell(found)} | {100 * found['named wrongly']:.0f} % |"


def match_verdicts(row: str, first: int, wanted: int) -> str:
    """Return how many of so many pairs are said not to match, and of as many unlike shocks to match."""
    assert program.match
    asked, false, untold, seed = {True: 0, False: 0}, {True: 0, False: 0}, 0, first
    while min(asked.values()) < wanted:
        world = draw(row, seed)
        seed += 1
        for pair in world.pairs:
            within = pair.within()
            if within is None or asked[within] >= wanted:
                continue
            said = program.match(world.library, pair.one, pair.other, pair.tolerance)
            asked[within] += 1
            false[within] += said == ("not matched" if within else "matched")
            untold += said == "cannot tell"
    share = 100 * untold / (2 * wanted)
    return (f"| {row}, seeds {first} to {seed - 1} | {false[True]} of {wanted} pairs not matched, {false[False]} of "
            f"{wanted} unlike ones matched | {share:.0f} % cannot be told |")  # fmt: skip


def false_alarms(row: str, first: int, wanted: int) -> str:
    """Return of how many shocks to which nothing happened a change is named."""
    assert program.health
    asked, named, seed = 0, 0, first
    while asked < wanted:
        world = draw(row, seed)
        seed += 1
        for one in world.histories:
            asked += 1
            named += bool(program.health(world.library, one.earlier, one.now) - one.changed)
    return f"| {row}, seeds {first} to {seed - 1} | {named} of {asked} said to have changed | |"


def libraries(seeds: Sequence[int]) -> Iterator[str]:
    """Yield how libraries of three packs made from flow through restrictions hold, nine tests each."""
    for kind, seed in product(LIBRARIES, seeds):
        error, held = library_points(program, seed, kind)
        yield f"| {kind} {seed} | {100 * np.mean(held):.0f} % held | median error {100 * np.median(error):.2f} % |"


def _cell(one: Cells) -> str:
    named = "" if np.isnan(one["oddities named"]) else f", {100 * one['oddities named']:.0f} %"
    return f"{100 * one['held']:.0f} %, {one['width / error']:.1f}{named}"


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description="Hold what is said of packs against made worlds with a known truth.")
    parser.add_argument("--worlds", type=int, default=20, help="worlds a row")
    parser.add_argument("--first", type=int, default=1000, help="first seed")
    parser.add_argument("--rows", default="", help="beginnings of the other rows, comma-separated; all without it")
    parser.add_argument("--no-maps", action="store_true", help="leave the table of maps out")
    parser.add_argument("--verdicts", type=int, default=0, help="only so many verdicts each way of match and health")
    parser.add_argument("--libraries", action="store_true", help="only libraries made from flow")
    asked = parser.parse_args(arguments)
    seeds = range(asked.first, asked.first + asked.worlds)
    if asked.libraries:
        for line in libraries(seeds):
            print(line, flush=True)
        return
    if asked.verdicts:
        for row in VERDICTS:
            print(match_verdicts(row, asked.first, asked.verdicts), flush=True)
        print(false_alarms("health same", asked.first, asked.verdicts), flush=True)
        return
    if not asked.no_maps:
        for line in chain(maps(seeds), [""], mixed(seeds)):
            print(line, flush=True)
    starts = tuple(start.strip() for start in asked.rows.split(","))
    for task in dict.fromkeys(row.split()[0] for row in OTHERS):
        rows = [row for row in OTHERS if row.startswith(starts) and row.split()[0] == task]
        if rows:
            print("\n" + table([(row, *cells(row, seeds)) for row in rows]), flush=True)  # type: ignore[misc]


if __name__ == "__main__":
    main()
