"""Command lines on rig files alone: the corpus of layouts, and the broken files with their refusals."""

from __future__ import annotations

from tests.golden.grounds import broken_name
from tests.golden.line import Line, lines

LAYOUTS = (
    "FL-41_gravel_C6_R8.csv", "FL-72_gravel_lsc6_lsr8.xlsx", "RR-01_tarmac_lsc6_lsr8.csv", "blocks_with_clicks.csv",
    "click_column_peaks.tsv", "clock_times.csv", "cr_line_ends.csv", "displacement_unit_by_motion.csv",
    "excel_utf16_tab.txt", "fixed_width.txt", "fixed_width_missing_cells.prn", "force_turned_by_power.csv",
    "french_din_units.csv", "german_semicolon_no_velocity.csv", "index_column_interval.csv", "italian.csv",
    "listed_columns.txt", "long_peaks.csv", "long_preamble.csv", "long_trace_with_settings.csv", "many_columns.csv",
    "missing_markers_and_footer.csv", "page_breaks.txt", "peak_blocks.csv", "peaks_direction_column.csv",
    "peaks_four_columns.csv", "peaks_german_kg.csv", "peaks_signed_column.csv", "peaks_signed_rebound_positive.csv",
    "peaks_thousands_integers.csv", "peaks_us_positive.csv", "plain_comma.csv", "rate_from_motion.csv",
    "rate_in_preamble.csv", "run_column.csv", "runs_of_blanks_and_tabs.dat", "scientific_numbers.csv",
    "shock_length.csv", "spanish.csv", "staircase_with_speed_lines.csv", "stated_rebound_positive.csv",
    "thousands_apostrophe.txt", "thousands_blank.csv", "thousands_comma_quoted.csv", "thousands_dot.csv",
    "time_unit_by_reach.csv", "trailing_delimiters.csv", "truncated_last_line.csv", "units_line.csv",
    "us_units_pipe.txt", "utf16_big_endian_semicolon.csv", "velocity_unit_by_motion.csv", "wide_group_row.csv",
    "wide_pairs.csv", "wide_signed.csv", "workbook_sheets.xlsx",
)  # fmt: skip
BROKEN_KINDS = (
    "empty", "only blanks", "binary", "zip", "damaged workbook of the old kind", "gzip", "picture",
    "web page without a table", "json without motion", "prose",
    "header only", "one row", "no header", "no force", "no motion", "unknown unit", "unit of another kind",
    "no force unit", "no peak units", "no unit of motion", "unit wrong by 1000", "unit wrong by 25.4", "stuck force",
    "stuck displacement", "time stands still", "time is noise", "impossible force",
    "more than a number in a cell",
    "decimal comma in one line", "two forces", "no rate", "split decimals", "mostly missing", "torn rows",
    "torn peak table", "peaks without velocity", "two directions twice", "bare clicks", "half clicks",
    "direction in riddles",
)  # fmt: skip
OPTIONS = {
    "several": "read plain_comma.csv broken_no_rate.csv peaks_us_positive.csv",
    "us": "read plain_comma.csv --units us",
    "told": "read plain_comma.csv --shock FL-03 --pack gravel --clicks lsc=6,lsr=8 -v",
    "turned": "read plain_comma.csv --positive rebound",
    "peaks-us": "read peaks_us_positive.csv --units us -v",
    "unit": "read broken_no_force_unit.csv --unit force=N",
    "rate": "read broken_no_rate.csv --rate '200 Hz'",
    "column": "read broken_two_forces.csv --column 'force=Force B'",
    "no-file": "read nothing.csv",
    "no-header": "read broken_no_header.csv --column time=1 --column displacement=2 --column velocity=3"
    " --column force=4 --unit time=s --unit displacement=mm --unit velocity=mm/s --unit force=N",
    "delimiter": "read german_semicolon_no_velocity.csv --delimiter ; --decimal ,",
    "bad-unit": "read italian.csv --unit force=mm",
    "bad-rate": "read italian.csv --rate fast",
    "bad-clicks": "read italian.csv --clicks lsc",
    "bad-column": "read italian.csv --column force",
    "folder": "read held",
    "no-such-option": "read italian.csv --colour red",
    "nothing": "read",
    "bad-plot": "read italian.csv --plot x.docx",
}
CURVES = {
    "trace": "curve plain_comma.csv",
    "trace-at": "curve plain_comma.csv --at '1 in/s,2 in/s' --units us",
    "german": "curve german_semicolon_no_velocity.csv",
    "rate": "curve rate_from_motion.csv --csv",
    "spanish": "curve spanish.csv -v",
    "peaks": "curve peaks_us_positive.csv",
    "peaks-signed": "curve peaks_signed_column.csv --units us",
    "blocks": "curve blocks_with_clicks.csv",
    "wide": "curve wide_pairs.csv",
    "runs": "curve run_column.csv",
    "clicks": "curve click_column_peaks.tsv --at '0.1 m/s'",
    "sheets": "curve workbook_sheets.xlsx",
    "two": "curve plain_comma.csv peaks_four_columns.csv",
    "length": "curve shock_length.csv --positive compression",
    "broken": "curve broken_stuck_force.csv",
    "unit": "curve broken_no_force_unit.csv --unit force=lbf",
    "compare": "compare peaks_us_positive.csv peaks_four_columns.csv",
    "match": "match peaks_us_positive.csv peaks_signed_column.csv",
    "match-itself": "match plain_comma.csv plain_comma.csv",
    "no-library": "curve pack=gravel",
}


def _slug(name: str) -> str:
    return name.lower().replace(".", "-").replace("_", "-").replace(" ", "-")


FILES: tuple[Line, ...] = (
    *(Line(f"read-{_slug(name)}", f"read {name}", "files") for name in LAYOUTS),
    *(Line(f"read-broken-{_slug(kind)}", f"read {broken_name(kind)}", "files") for kind in BROKEN_KINDS),
    *lines("files", "read", OPTIONS),
    *lines("files", "file", CURVES),
    Line("read-plot", "read plain_comma.csv --plot held/read.svg", "files", json=False, leaves=("held/read.svg",)),
)
