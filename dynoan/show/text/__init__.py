"""What people read in a terminal, made from answers: tables and lines; nothing here prints but `tables`."""
