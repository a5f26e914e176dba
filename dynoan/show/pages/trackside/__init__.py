"""The phone page: a view of what it shows, its tables, one page."""
