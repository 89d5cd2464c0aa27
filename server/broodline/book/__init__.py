"""What was written, and what it adds up to: entries, their fold into a standing, and the checks on it.

Pure. May import trade and errors. No entry is ever changed; a correction is another entry. The fold depends
on the set of entries alone, never on their order, and never raises for what a keeper wrote: that becomes a
Problem.
"""
