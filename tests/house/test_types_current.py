"""The phone's types and body checks are those of the server's models: `make types` would change nothing."""

import subprocess
import sys
from pathlib import Path

from tests.house.tree import PHONE, ROOT


def test_the_generated_bodies_are_current(tmp_path):
    node = Path(sys.prefix, "bin", "node")
    schema = subprocess.run([sys.executable, "pwa/body_schema.py"], cwd=ROOT, check=True, capture_output=True).stdout
    subprocess.run([node, "pwa/generate_bodies.mjs", tmp_path], cwd=ROOT, input=schema, check=True)
    written = sorted(path.name for path in tmp_path.iterdir())
    assert written == ["bodies.generated.ts", "bodies.schema.json"]
    for name in written:
        assert (PHONE / "book" / name).read_text() == (tmp_path / name).read_text(), f"{name}: run `make types`"
