"""Commands. Thin: a command reads its arguments, asks the storeys below, and prints.

May import everything. The only place that prints. Exit code 0 is well, 1 a fault was found, 2 wrong use.
"""
