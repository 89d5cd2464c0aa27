"""`broodline tables`: every figure with unit, source and status, and what a second reading has not confirmed."""

import pytest

from broodline.cli.tables import READINGS, reading_of
from broodline.trade.sources import STATUSES, Cell
from tests.server.cli.commands import broodline
from tests.server.trade.second_reading import READ_ONCE, packaged


def test_every_figure_of_the_trade_is_listed_with_its_source():
    done = broodline("tables", "--json")
    assert done.code == 0
    cells = done.json["cells"]
    assert len(cells) > 500
    assert all(cell["source"] and cell["unit"] and cell["title"] and cell["status"] in STATUSES for cell in cells)
    readings = {cell["second_reading"] for cell in cells}
    assert readings | {"once"} == set(READINGS)
    assert {cell["cell"] for cell in cells if cell["second_reading"] == "once"} == {
        path for path in READ_ONCE if packaged()[path].status != "memory"
    }
    period = next(cell for cell in cells if cell["cell"] == "species/species/turkey/period_days/published/0")
    assert (period["value"], period["unit"], period["source"]) == ([28, 28], "day", "TAMU")
    assert period["second_reading"] == "confirmed"
    assert period["read_again"]


def test_unchecked_leaves_out_what_was_confirmed():
    cells = broodline("tables", "--json").json["cells"]
    unchecked = broodline("tables", "--unchecked", "--json").json["cells"]
    assert unchecked == [cell for cell in cells if cell["second_reading"] != "confirmed"]
    assert 0 < len(unchecked) < len(cells) / 2
    by_path = {cell["cell"]: cell for cell in unchecked}
    assert by_path["alarms/tiers/amber_above"]["second_reading"] == "own"
    assert by_path["hatch/usual_spread"]["second_reading"] == "memory"
    assert by_path["weight_loss/species/goose/by_day"]["second_reading"] == "derived"
    assert "guidance/hot/0" not in by_path
    settled = by_path["species/species/muscovy/lockdown_day"]
    assert settled["second_reading"] == "settled"
    assert settled["why"].startswith("The second reading gives the published range")


@pytest.mark.parametrize(
    ("path", "status", "reading"),
    [
        ("read", "seen", "confirmed"),
        ("read", "memory", "memory"),
        ("read", "derived", "derived"),
        ("read", "practice", "own"),
        ("new", "seen", "once"),
        ("new", "memory", "memory"),
        ("new", "practice", "own"),
        ("differs", "mirror", "settled"),
    ],
)
def test_what_counts_as_read_twice(path: str, status: str, reading: str):
    """A figure from memory or of our own is not confirmed by reading our notes again."""
    second = {"confirmed": {"read": "a page"}, "settled": {"differs": "a reason"}}
    assert reading_of(second, path, Cell(1, "day", "PRACTICE", status)) == reading


def test_the_whole_list_explains_its_words():
    told = broodline("tables").out
    assert all(f"{word}: {meaning}" in told for word, meaning in [*STATUSES.items(), *READINGS.items()])


def test_unchecked_says_in_words_why():
    told = broodline("tables", "--unchecked").out
    assert all(f"{word}: {meaning}" in told for word, meaning in STATUSES.items())
    parts = told.split("\n\n")
    own = next(part for part in parts if part.startswith("Our own judgement or common practice; there is no text"))
    assert (
        "    alarms/tiers/amber_above: 2.5 °F above target [JUDGEMENT, practice]\n        102 °F against 99.5 °F" in own
    )
    settled = next(part for part in parts if part.startswith("The second reader read otherwise; the table keeps"))
    assert "    species/species/muscovy/lockdown_day: 31 day [TAMU, mirror]\n        the earlier end" in settled
    assert settled.count("  The second reading gives the published range") == 1, "one reason, once"
    assert "candle_days: 7 and 14 day [" in settled
    assert settled.index("The second reading gives") < settled.index("muscovy/lockdown_day")
    memory = next(part for part in parts if part.startswith("Written down from memory;"))
    assert "    hatch/meanings/early/2: small eggs [TEXTBOOKS, memory]" in memory
    assert "turkey/period_days/published/1: 28 day [" in memory


def test_what_no_text_prints_says_why_it_was_chosen():
    unchecked = broodline("tables", "--unchecked", "--json").json["cells"]
    ours = [cell for cell in unchecked if cell["second_reading"] in ("own", "derived", "settled")]
    assert len(ours) > 50
    assert [cell["cell"] for cell in ours if not cell["why"]] == []
