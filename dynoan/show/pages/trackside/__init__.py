"""The phone page: a view of what it shows, its tables, one page."""

from dynoan.show.pages.trackside.build import page

__all__ = ["page"]
