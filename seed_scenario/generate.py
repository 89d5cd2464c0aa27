"""Writes the seed scenario. From the top of the tree: python -m seed_scenario.generate

scenario.jsonl goes into the package, where `broodline demo` finds it; truth and expected results stay here.
"""

import json
from pathlib import Path
from typing import Any

from seed_scenario.reckoning import agenda_of, problems_of, season_of, standing_of, truth_of
from seed_scenario.story import Story, tell

HERE = Path(__file__).parent
TEMPLATE = HERE.parent / "server" / "broodline" / "exchange" / "scenario.jsonl"


def files_of(story: Story) -> dict[Path, bytes]:
    """Every file of the scenario and its content."""
    return {
        TEMPLATE: story.book.as_bytes(),
        HERE / "truth.json": _json(truth_of(story)),
        HERE / "expected" / "standing.json": _json(standing_of(story)),
        HERE / "expected" / "season.json": _json(season_of(story)),
        HERE / "expected" / "agenda.json": _json(agenda_of(story)),
        HERE / "expected" / "problems.json": _json(problems_of(story)),
    }


def _json(content: Any) -> bytes:
    return (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode()


if __name__ == "__main__":
    for path, content in files_of(tell()).items():
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)
