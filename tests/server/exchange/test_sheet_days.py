"""Days as keepers write them, and which of two days 03/04/2025 is. The days beside the cells are a reader's."""

from datetime import date, datetime

import openpyxl
import pytest

from broodline.exchange.days_in import days_read, read_day
from tests.server.exchange.test_sheets_as_kept import HEAD, lots_of, told, workbook
from tests.server.exchange.test_sheets_in import FAMILIES, keeper_book, taken


@pytest.fixture
def book():
    entries = keeper_book()
    return [*entries, *taken(FAMILIES, entries).entries]


DAYS = [
    (datetime(2025, 4, 3), "2025-04-03"),  # noqa: DTZ001
    (45750, "2025-04-03"),  # 45658 is 1 January 2025, by Microsoft's description of its day numbers; from memory
    (45750.5, "2025-04-03"),
    ("45750", "2025-04-03"),
    ("3 April 2025", "2025-04-03"),
    ("3-Apr-25", "2025-04-03"),
    ("April 3, 2025", "2025-04-03"),
    ("Thu 3rd Apr 2025", "2025-04-03"),
    ("3. April 2025", "2025-04-03"),
    ("3. März 2025", "2025-03-03"),
    ("3. Ma\u0308rz 2025", "2025-03-03"),
    ("3 Dez. 2024", "2024-12-03"),
    ("3 févr. 2025", "2025-02-03"),
    ("3 juillet 2025", "2025-07-03"),
    ("1er août 2025", "2025-08-01"),
    ("2025-04-03 00:00:00", "2025-04-03"),
    ("2025-04-03T18:30:00Z", "2025-04-03"),
    ("2025/4/3", "2025-04-03"),
    ("13.04.2025", "2025-04-13"),
    ("13. 4. 25", "2025-04-13"),
]


@pytest.mark.parametrize(("cell", "day"), DAYS)
def test_days_are_read_as_they_are_written(book, cell, day):
    found = taken(workbook(["Set", "Family", "Eggs", "Hatched"], [cell, "Rowan", 24, 15]), book, "a.xlsx")
    assert (found.bad, lots_of(found, book)) == ([], [(day, "Rowan", 24, 15)])


@pytest.mark.parametrize(
    "cell", ["3 jui 2025", "3 marraskuu 2025", "spring 2025", "2025", 2025, "31.11.2025", "3 2025", "0.5", True, 12]
)
def test_what_is_no_day_or_could_be_two_is_refused(book, cell):
    found = taken(workbook(["Set", "Family", "Eggs", "Hatched"], [cell, "Rowan", 24, 15]), book, "a.xlsx")
    assert (told(found), found.entries) == ([(2, "set_on", False, False)], [])


def test_days_of_a_workbook_that_counts_from_1904(book):
    def from_1904(made, _page):
        made.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904

    content = workbook(["Set", "Family", "Eggs", "Hatched"], [45750 - 1462, "Rowan", 24, 15], change=from_1904)
    assert lots_of(taken(content, book, "a.xlsx"), book) == [("2025-04-03", "Rowan", 24, 15)]


def test_the_order_of_days_is_asked_only_where_the_table_leaves_it_open(book):
    def days(*cells, american=False, order=None):
        return days_read(cells, american=american, told=order, serial_from=date(1899, 12, 30))

    assert (days("03/04/2025").order, days("03/04/2025").open) == ("dmy", ("dmy", "mdy"))
    assert days("03/04/2025", american=True).order == "mdy"
    assert days("03/04/25").open == ("dmy", "mdy", "ymd")
    assert (days("03/04/2025", "05/20/2025").order, days("03/04/2025", "05/20/2025").open) == ("mdy", ("mdy",))
    assert (days("25/03/14", "24/03/99").order, days("25/13/04").open) == ("dmy", ())
    assert (days("2025-03-04", "3 May 2025", None, "soon").open, days().open) == ((), ())
    assert read_day("25/03/04", days("25/03/04", order="ymd")) == date(2025, 3, 4)
    found = taken(HEAD + "03/04/2025,Rowan,24,15\n20/04/2025,Hazel,20,12\n2025-05-01,Hazel,9,5\n", book)
    told_days = found.days["table"]
    assert (told_days.dates, told_days.dates_open) == ("dmy", ("dmy",))
    assert [(one.number, one.whose, one.written, one.on.isoformat()) for one in told_days.days] == [
        (2, "Rowan", "03/04/2025", "2025-04-03"),
        (3, "Hazel", "20/04/2025", "2025-04-20"),
        (4, "Hazel", "2025-05-01", "2025-05-01"),
    ]


def test_days_in_two_orders_are_refused_where_they_can_be_two(book):
    text = HEAD + "13/04/2025,Rowan,9,5\n04/20/2025,Rowan,9,5\n05/06/2025,Rowan,9,5\n"
    found = taken(text, book)
    assert [row[0] for row in lots_of(found, book)] == ["2025-04-13", "2025-04-20"]
    assert told(found) == [(4, "set_on", False, False)]
    assert "can be two days" in found.bad[0].message
    assert found.days["table"].dates_open == ("dmy", "mdy", "ymd")
    assert [row[0] for row in lots_of(taken(text, book, dates="dmy"), book)] == ["2025-04-13", "2025-06-05"]


def test_days_that_could_be_others_are_shown_before_those_that_could_not(book):
    sure = "".join(f"{n}/04/2025,Rowan,9,5\n" for n in range(13, 21))
    days = taken(f"{HEAD}{sure}03/04/2025,Hazel,9,5\n", book).days["table"].days
    assert ([one.number for one in days], days[0].on) == ([10, 2, 3, 4, 5, 6], date(2025, 4, 3))
