"""Power cuts of a setting, at the moments where one begins or ends to be its own. By hand."""

from datetime import datetime, timedelta

import pytest

from broodline.book.fold import fold
from broodline.reports.outages import Outage, outages_of
from broodline.trade.climate import Stage
from broodline.trade.excursions import Reading
from tests.book_writer import START, BookWriter

MOMENT = timedelta(milliseconds=1)
DAY = timedelta(days=1)
FALLEN = [Reading(at, off) for at, off in ((20.0, 0.0), (21.0, 0.0), (22.0, 0.0), (25.0, -5.0))]
"""Readings every hour, then three hours of silence and five degrees less: a cut from hour 22 to hour 25."""


class Machine:
    """Ten eggs set in a forced-air box at START; another box, a still-air hatcher, stands beside it."""

    def __init__(self) -> None:
        self.book = BookWriter()
        self.book.keeper()
        self.box = self.book.write("place", {"name": "Loft box", "role": "incubator", "air": "forced"})
        self.hatcher = self.book.write("place", {"name": "Drawer", "role": "hatcher", "air": "still"})
        self.lot = self.book.lot()
        self.setting = self.book.set_eggs(self.box, [(self.lot, self.book.family("Rowan"), 10)])

    def cut(self, begin: datetime, end: datetime | None, *places: str) -> None:
        body = {"from": text(begin), **({} if end is None else {"until": text(end)})}
        self.book.write("outage", body | ({"places": list(places)} if places else {}), at=begin)

    def found(self, points: dict[Stage, list[Reading]] | None = None) -> list[Outage]:
        standing = fold(self.book.entries())
        setting = standing.settings[self.setting]
        return outages_of(standing, setting, [standing.lots[self.lot]], points or {})

    def told(self, points: dict[Stage, list[Reading]] | None = None) -> list[bool]:
        return [one.told for one in self.found(points)]


def text(at: datetime) -> str:
    return at.isoformat(timespec="milliseconds").replace("+00:00", "Z")


def ms(at: datetime) -> int:
    return round(at.timestamp() * 1000)


def test_a_cut_that_ended_before_the_eggs_were_set_is_none_of_theirs() -> None:
    for end, own in ((START - MOMENT, []), (START, [True]), (None, [True])):
        machine = Machine()
        machine.cut(START - DAY, end)
        assert machine.told() == own, end


def test_a_cut_that_ends_before_it_began_is_none_and_one_of_no_length_is_one() -> None:
    for end, own in ((START + DAY - MOMENT, []), (START + DAY, [True])):
        machine = Machine()
        machine.cut(START + DAY, end)
        assert machine.told() == own, end


def test_a_cut_after_the_last_egg_left_is_none_of_theirs() -> None:
    """Eight hatch on day 21, the last two are taken out on day 23."""
    for begin, own in ((START + 23 * DAY, [True]), (START + 23 * DAY + MOMENT, [])):
        machine = Machine()
        machine.book.move(machine.lot, "set", "hatched", 8, at=START + 21 * DAY)
        machine.cut(begin, None)
        assert machine.told() == [True], "two eggs lie there still"
        machine.book.move(machine.lot, "set", "unhatched", 2, at=START + 23 * DAY)
        assert machine.told() == own, begin


def test_a_cut_is_of_the_place_in_which_the_eggs_lay_when_it_began() -> None:
    """Moved to the hatcher on day 18: the moment of lockdown is the hatcher's."""
    lockdown = START + 18 * DAY
    for begin, first, air in ((lockdown - MOMENT, True, "forced"), (lockdown, False, "still")):
        machine = Machine()
        machine.book.write("locked", {"setting": machine.setting, "place": machine.hatcher}, at=lockdown)
        machine.cut(begin, lockdown + DAY, machine.box)
        machine.cut(begin, lockdown + DAY, machine.hatcher)
        (cut,) = machine.found()
        assert cut.place == (machine.box if first else machine.hatcher)
        assert (cut.air, cut.from_ms, cut.until_ms, cut.fell_c) == (air, ms(begin), ms(lockdown + DAY), None)


def test_a_cut_without_a_place_is_everywhere_and_one_elsewhere_is_not_here() -> None:
    machine = Machine()
    machine.cut(START + DAY, START + 2 * DAY)
    machine.cut(START + 3 * DAY, START + 4 * DAY, machine.hatcher)
    machine.cut(START + 5 * DAY, START + 6 * DAY, machine.hatcher, machine.box)
    none = {"from": text(START + 7 * DAY), "until": text(START + 8 * DAY), "places": []}
    machine.book.write("outage", none)  # as the phone reads it
    assert [one.from_ms for one in machine.found()] == [ms(START + DAY), ms(START + 5 * DAY), ms(START + 7 * DAY)]


def test_a_fall_of_the_readings_is_a_guessed_cut_of_the_place_of_its_phase() -> None:
    machine = Machine()
    machine.book.write("locked", {"setting": machine.setting, "place": machine.hatcher}, at=START + 18 * DAY)
    later = [Reading(one.at_h + 480, one.off_c) for one in FALLEN]
    setter, hatcher = machine.found({"setter": FALLEN, "hatcher": later})
    for cut, place, hour in ((setter, machine.box, 22), (hatcher, machine.hatcher, 502)):
        assert (cut.place, cut.told, cut.fell_c) == (place, False, 5.0)
        begin = ms(START + timedelta(hours=hour))
        assert (cut.from_ms, cut.until_ms) == (begin, begin + 3 * 3_600_000)


@pytest.mark.parametrize(
    ("begin", "end", "own"),
    [
        (15.0, 22.0, [True]),  # ends as the silence begins
        (15.0, 21.999, [True, False]),
        (25.0, 26.0, [True]),  # begins as the silence ends
        (25.001, 26.0, [False, True]),
        (23.0, None, [True]),
        (25.001, None, [False, True]),
        (15.0, 30.0, [True]),
    ],
)
def test_a_guess_that_an_entered_cut_touches_is_the_same(begin: float, end: float | None, own: list[bool]) -> None:
    """The readings fell between hour 22 and hour 25."""
    machine = Machine()
    hours = [None if at is None else START + timedelta(hours=at) for at in (begin, end)]
    assert hours[0] is not None
    machine.cut(hours[0], hours[1])
    assert machine.told({"setter": FALLEN}) == own


def test_cuts_come_in_order_of_their_beginning_and_of_those_the_shorter_first() -> None:
    machine = Machine()
    for begin, end in ((50, 60), (40, 70), (40, 45), (30, 80)):
        machine.cut(START + timedelta(hours=begin), START + timedelta(hours=end))
    hours = [(one.from_ms - ms(START), one.until_ms - ms(START)) for one in machine.found() if one.until_ms is not None]
    assert [(begin // 3_600_000, end // 3_600_000) for begin, end in hours] == [(30, 80), (40, 45), (40, 70), (50, 60)]
