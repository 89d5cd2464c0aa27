"""Answers made from a standing: what is due, how a setting went, which family hatches.

Pure. May import book, trade and errors, but not exchange. Now is always an argument, and so are seeds.
"""
