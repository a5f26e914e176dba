"""What people look at: tables, plots, the report and the trackside page."""
