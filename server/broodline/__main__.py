"""`python -m broodline` is the same as the command `broodline`."""

from broodline.cli.main import main

main()
