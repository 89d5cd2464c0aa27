"""Broodline keeps the book of a flock whose keeper hatches their own eggs.

The book is a set of immutable entries; everything else is a fold of that set. The storeys of this package,
from the top of the stairs to the bottom: cli, web, jobs and sync, store, reports and exchange, book, trade,
errors. Imports only go down.
"""

__version__ = "0.1.0"
