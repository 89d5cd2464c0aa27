"""What the trade knows: the figures of incubating, brooding and breeding, and the arithmetic on them.

Pure: no disk but its own packaged tables, no network, no clock, no chance. Imports nothing but errors.
A number stands in tables/ with its unit, its source and the state of that source, or it does not exist.
"""
