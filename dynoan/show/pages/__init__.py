"""HTML files that need no other file: the report, the trackside page, the sheet for the dyno shop."""
