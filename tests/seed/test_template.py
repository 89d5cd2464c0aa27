"""The scenario's files are those its generator writes, and its words all lead somewhere."""

import json
import re

from seed_scenario.generate import HERE, TEMPLATE, files_of
from seed_scenario.notebook import DOUBTFUL
from seed_scenario.story import tell

SOMEBODY_ELSES_WORDS = re.compile(r"https?://|@[a-z]+\.[a-z]")


def test_all_files_are_current():
    stale = [path.name for path, content in files_of(tell()).items() if path.read_bytes() != content]
    assert stale == [], "run `python -m seed_scenario.generate`"


def test_every_file_beside_the_generator_is_one_of_them_or_its_source():
    written = set(files_of(tell()))
    others = {path.name for path in HERE.rglob("*.json*")} - {path.name for path in written}
    assert others == set()


def test_the_story_is_the_same_for_the_same_seed_and_another_for_another():
    assert tell("one").book.as_bytes() == tell("one").book.as_bytes() != tell("other").book.as_bytes()


def test_lines_stand_in_the_order_they_were_written_and_never_in_a_doubtful_hour(told):
    written = [line["written"] for line in told.lines]
    assert written == sorted(written)
    assert all(not DOUBTFUL[0] < time < DOUBTFUL[1] for _, time in written)
    assert max(day for day, _ in written) == 0


def test_the_wheel_carries_the_template_beside_the_module_that_reads_it():
    assert TEMPLATE.parent.name == "exchange"
    assert (TEMPLATE.parent / "seed.py").is_file()


def test_the_template_reads_as_lines_of_json_without_foreign_addresses(told):
    assert len({line["name"] for line in told.lines}) == len(told.lines)
    assert not SOMEBODY_ELSES_WORDS.search(told.template.decode())
    assert all(json.loads(json.dumps(line)) == line for line in told.lines)
