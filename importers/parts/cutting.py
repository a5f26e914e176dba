"""A table to its parts: named, understood, and cut by key, by break and by click position."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from dynoan.errors import ReadError, Spot
from importers.header import HeaderColumn
from importers.parts.branches import with_mean_of_branches
from importers.parts.by_breaks import cut_by_breaks, direction_above
from importers.parts.by_clicks import cut_by_clicks
from importers.parts.by_groups import cut_by_groups
from importers.parts.by_keys import cut_by_keys
from importers.parts.by_labels import cut_by_labels
from importers.parts.by_shocks import cut_by_shocks
from importers.parts.carried_keys import with_keys_carried, with_places_as_shocks, with_speeds_carried
from importers.parts.crank_motion import with_crank_time, with_crank_travel
from importers.parts.crank_speed import with_crank_speed
from importers.parts.day_numbers import with_day_numbers
from importers.parts.deviations import without_deviations
from importers.parts.halves import with_halves_joined
from importers.parts.lettered import with_lettered_pair
from importers.parts.other_direction import with_other_direction
from importers.parts.other_knob import with_other_knob
from importers.parts.part import SweepPart
from importers.parts.placeholders import without_placeholders
from importers.parts.roles import assign_roles
from importers.parts.run_lines import with_run_lines_apart
from importers.parts.scale_factors import with_scales
from importers.parts.signed_pair import with_signed_pair
from importers.parts.told import facts_of_table, with_gas_of_columns, with_own_day
from importers.parts.trace_speed import with_signed_speed, without_set_speed
from importers.parts.two_rates import with_rows_of_slowest
from importers.parts.unit_alone import with_unit_alone
from importers.parts.unit_shared import with_unit_of_other_way
from importers.parts.unnamed import forces_over_travel, unnamed_columns
from importers.parts.words_as_keys import with_words_as_keys
from importers.stated import contradicted, direction_of_name, statements
from importers.tables import ParsedTable


def cut_table(table: ParsedTable, name: str) -> Iterator[SweepPart]:
    """Yield the parts of a table, in the order of the file.

    Raises
    ------
    ReadError
        If the columns cannot be told apart, naming the file, the place and the option that helps.
    """
    if not table.named and not table.options.columns:
        raise unnamed_columns(table, name)
    table = without_deviations(with_lettered_pair(_as_wide_as_named(table, name)))
    if (over_travel := forces_over_travel(table, name)) is not None:
        raise over_travel
    for group in cut_by_groups(table):
        for shock, one in cut_by_shocks(group.table).items():
            for run in cut_by_labels(one):
                for part in _cut(run.table, name, shock or group.shock or run.shock, group.title or run.label):
                    yield replace(part, beside=run.label) if run.label else part


def _cut(table: ParsedTable, name: str, shock: str | None, title: str) -> Iterator[SweepPart]:
    """Yield the parts of a table of one shock and one run."""
    table, of_runs = with_run_lines_apart(with_words_as_keys(with_other_knob(table)))
    facts = facts_of_table(table, name)
    if shock is not None and not table.options.shock:
        facts = replace(facts, shock=shock)
    table = with_scales(
        with_rows_of_slowest(
            without_placeholders(with_day_numbers(with_speeds_carried(with_keys_carried(with_places_as_shocks(table)))))
        )
    )
    table = with_signed_speed(
        without_set_speed(with_crank_travel(with_crank_time(with_crank_speed(table, facts), facts), facts)), name
    )
    table = with_unit_alone(with_mean_of_branches(with_other_direction(with_signed_pair(with_halves_joined(table)))))
    table = with_unit_of_other_way(table)
    lines = (*table.own, *table.shared)
    if said := contradicted(lines):
        facts = replace(facts, warnings=(*facts.warnings, *said))
    roles = assign_roles(table, name)
    whole = SweepPart(
        table, roles, with_gas_of_columns(facts, roles), table.values,
        table.texts, name, label=title or shock or "", said=statements(lines),
        direction=direction_above(table.own or table.shared), named_way=direction_of_name(name), of_runs=of_runs,
    )  # fmt: skip
    for part in cut_by_keys(whole):
        for piece in cut_by_breaks(with_own_day(part)):
            yield from cut_by_clicks(piece)


def _as_wide_as_named(table: ParsedTable, name: str) -> ParsedTable:
    """Return the table with as many names as columns of numbers.

    Raises
    ------
    ReadError
        If the rows hold more cells than the line above names, and nothing tells which name belongs where.
    """
    named = table.name_cells
    if not named or table.grid.width <= named or table.options.columns:
        return table
    filled = [i for i, x in table.values.items() if np.isfinite(x).any()]
    more = max(filled, default=0) + 1 - named
    if more <= 0:
        return table
    first = table.values.get(0)
    if more == 1 and first is not None and len(first) > 1 and bool(np.all(np.diff(first) == 1)):
        # The rows are numbered, and the number has no name.
        moved = (replace(c, index=c.index + 1) for c in table.columns[:named])
        return replace(table, columns=(HeaderColumn(0, ""), *moved))
    hint = "save it with semicolons between cells" if table.grid.delimiter == "," else "mend the header"
    which = "say which is which by number with --column CHANNEL=NUMBER"
    if table.grid.delimiter == "," and more >= named - 1:
        hint = f"commas may stand both between cells and in numbers: {hint}; if they do not, {which}"
    else:
        hint = f"{hint}, or {which}"
    raise ReadError(f"{named + more} cells under {named} names", where=Spot(name, line=table.first_line), hint=hint)
