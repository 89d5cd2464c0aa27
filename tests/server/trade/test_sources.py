"""Every figure has value, unit, source and a known status, or the table is refused."""

import pytest

from broodline.trade.sources import (
    STATUSES,
    Cell,
    TableFault,
    cell,
    cells,
    names_of_tables,
    origin,
    read_table,
    source_of,
)

WHOLE = {"value": 21, "unit": "day", "source": "TAMU", "status": "mirror"}


def test_whole_cell_is_read() -> None:
    assert cell(WHOLE) == Cell(21, "day", "TAMU", "mirror")
    assert cell({**WHOLE, "why": "read"}).why == "read"


@pytest.mark.parametrize("field", ["value", "unit", "source", "status"])
def test_cell_without_a_part_is_refused(field: str) -> None:
    with pytest.raises(TableFault, match=field):
        cell({name: part for name, part in WHOLE.items() if name != field} | {"about": 0})
    with pytest.raises(TableFault, match=field):
        cell({**WHOLE, field: ""})


def test_unknown_status_and_source_are_refused() -> None:
    with pytest.raises(TableFault, match="status"):
        cell({**WHOLE, "status": "heard"})
    with pytest.raises(TableFault, match="nobody"):
        cell({**WHOLE, "source": "nobody"})
    with pytest.raises(TableFault, match="nobody"):
        source_of("nobody")


def test_where_a_figure_was_read_in_words() -> None:
    """Title, author and how it was read; what is our own has no source, and says so."""
    assert origin(cell(WHOLE)) == (
        "Incubating and Hatching Eggs, B-6092 (A. L. Cartwright, Texas A&M); read on a copy of the source, to be "
        "checked against the original"
    )
    assert origin(cell({**WHOLE, "source": "JUDGEMENT", "status": "practice"})) == "Our judgement, no source"
    assert origin(cell({**WHOLE, "source": "PRACTICE", "status": "practice"})) == "Common practice, no source"


def test_cells_are_found_at_any_depth() -> None:
    found = dict(cells({"a": [{"b": WHOLE}], "c": WHOLE, "d": 3}, "here"))
    assert list(found) == ["here/a/0/b", "here/c"]
    with pytest.raises(TableFault, match="here/a/0"):
        list(cells({"a": [{"value": 3}]}, "here"))


def test_every_packaged_table_is_sound_and_every_source_is_used() -> None:
    used: set[str] = set()
    for name in names_of_tables():
        for _, found in cells(read_table(name), name):
            used.add(found.source)
            assert found.status in STATUSES
    assert {"species", "setpoints", "stages", "sources"} <= set(names_of_tables())
    for key in used:
        assert source_of(key).title
    used |= {task["source"] for task in read_table("agenda")["tasks"].values()}
    used |= {task["source"] for task in read_table("brood_tasks")["tasks"].values()}
    assert sorted(set(read_table("sources")["sources"]) - used) == []
