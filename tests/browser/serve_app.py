"""`python serve_app.py APP serve ...`: the command `broodline` with another built app to give to phones."""

import sys
from pathlib import Path

from broodline.cli.main import main
from broodline.web import pwa_files

if __name__ == "__main__":
    pwa_files.BUILT = Path(sys.argv[1])
    main(sys.argv[2:])
