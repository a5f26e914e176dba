"""The report: a view of what it shows, sections of blocks, one page."""

from dynoan.show.pages.report.build import page

__all__ = ["page"]
