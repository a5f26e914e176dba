"""The report: a view of what it shows, sections of blocks, one page."""
