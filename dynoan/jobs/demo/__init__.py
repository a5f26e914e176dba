"""The whole job on invented data: a library of a made-up team, its files, and an earlier season.

In: an empty folder. Out: files, a library, and what to look at. Read in this order: files, earlier, answering.
"""

from dynoan.jobs.demo.answering import MARK, data_folder, fit_packs, make_library

__all__ = ["MARK", "data_folder", "fit_packs", "make_library"]
