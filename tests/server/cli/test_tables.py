"""`broodline tables`: every figure with unit, source and status, and what a second reading has not confirmed."""

from broodline.cli.tables import READINGS
from broodline.trade.sources import STATUSES
from tests.server.cli.commands import broodline


def test_every_figure_of_the_trade_is_listed_with_its_source():
    done = broodline("tables", "--json")
    assert done.code == 0
    cells = done.json["cells"]
    assert len(cells) > 500
    assert all(cell["source"] and cell["unit"] and cell["title"] and cell["status"] in STATUSES for cell in cells)
    assert {cell["second_reading"] for cell in cells} == set(READINGS)
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
    assert by_path["guidance/hot/0"]["second_reading"] == "once"
    settled = by_path["species/species/muscovy/lockdown_day"]
    assert settled["second_reading"] == "settled"
    assert settled["why"].startswith("The second reading gives the published range")


def test_the_list_explains_its_words():
    told = broodline("tables", "--unchecked").out
    assert "alarms/tiers/amber_above" in told
    assert all(f"{word}: {meaning}" in told for word, meaning in [*STATUSES.items(), *READINGS.items()])
