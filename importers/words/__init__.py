"""What words mean: the vocabularies of rigs and people, and the small parsers over them.

In goes a text as it stands in a file: a cell, a name, a line. Out comes what it says: a unit, a direction, clicks, a
day, a time. Nothing here knows of files or tables; all other packages of the importers ask here.
"""
