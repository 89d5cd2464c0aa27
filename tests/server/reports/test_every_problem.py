"""One list of all that any report tells: it lacks none of theirs, tells nothing twice, and stands in `check`."""

import json
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.reports.brood import brood_report
from broodline.reports.choosing import Keeping, choosing_report
from broodline.reports.every_problem import every_problem
from broodline.reports.family import family_report
from broodline.reports.flock import flock_report
from broodline.reports.growth import growth_report
from broodline.reports.season import season_report
from broodline.reports.season_year import season_of
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter
from tests.server.reports.test_odd_books import readable

NOW = datetime(2026, 3, 25, 12, tzinfo=UTC)


def told_by_reports(standing: Standing) -> set[str]:
    """Each report asked by itself, of the whole standing."""
    years = {season_of(standing, setting.set_at_ms) for setting in standing.settings.values()}
    reports = [
        *(setting_report(standing, setting, NOW) for setting in standing.settings),
        *(season_report(standing, year, NOW) for year in years),
        *(brood_report(standing, lot, NOW) for lot in standing.lots),
        *(report(standing, NOW) for report in (family_report, flock_report, growth_report)),
        choosing_report(standing, Keeping(), NOW),
    ]
    return {written(problem) for report in reports for problem in report["problems"]}


def written(problem: dict[str, Any]) -> str:
    return json.dumps({key: problem[key] for key in ("code", "message", "entry", "remedy")}, sort_keys=True)


def told(standing: Standing) -> list[str]:
    return [written(one.as_json()) for one in every_problem(standing, NOW)]


@pytest.mark.parametrize("seed", range(0, 80, 2))
def test_nothing_that_a_report_tells_of_an_odd_book_is_left_out(seed: int) -> None:
    standing = fold(readable(seed))
    found = told(standing)
    assert told_by_reports(standing) <= set(found)
    assert len(found) == len(set(found))


@pytest.fixture
def book() -> BookWriter:
    """Of each report's own problems one."""
    book = BookWriter()
    book.keeper()
    family, place = book.family("Rowan"), book.incubator()
    lots = [book.lot() for _ in range(4)]
    setting = book.set_eggs(place, [(lots[0], family, 12), (lots[1], family, 20_000)], species="dragon")
    book.set_eggs(place, [(lots[2], family, 5)], set_at=START - timedelta(days=30))
    body = {"setting": setting, "n": 10, "gross_g": 50, "tare_g": 100}
    book.write("eggs_weighed", body, at=START + timedelta(days=1))
    book.write("air", {"place": place, "dry_c": 37.5, "wet_c": 39}, at=START + timedelta(days=2))
    book.write("air", {"place": place, "dry_c": 99.5}, at=START + timedelta(days=2))
    book.write("outage", {"from": "2026-03-03T08:00:00Z", "until": "2026-03-02T08:00:00Z"})
    book.write("locked", {"setting": setting}, at=START - timedelta(days=4))
    ring = {"kind": "ring", "colour": "red", "text": "7"}
    hen, cock = (book.write("bird", {"sex": sex, "tags": [ring]}) for sex in ("female", "male"))
    chick = book.write("bird", {"sex": "male", "name": "Teasel", "sires": [{"bird": hen}], "dams": [{"bird": cock}]})
    loop = {"sex": "male", "sires": [{"bird": chick}]}
    book.write("bird", {"sex": "male", "sires": [{"bird": book.write("bird", loop)}]}, amends=chick)
    book.write("bird", {"sex": "male", "sires": [{"bird": hen}], "dams": [{"bird": cock}]})
    cocks, hens = [{"bird": cock, "share": 0.2}], [{"bird": hen}]
    book.write("penned", {"family": family, "since": "2026-01-01", "sires": cocks, "dams": hens})
    book.write("scored", {"bird": hen, "on": "2026-03-01", "scores": {"comb": 3, "total": 9}})
    yard = book.write("place", {"name": "Brooder one", "role": "brooder"})
    for lot in (lots[0], lots[2]):
        book.move(lot, "set", "hatched", 3, at=START + timedelta(days=21))
        move = {"moves": [{"lot": lot, "from": "hatched", "to": "brooding", "n": 3}], "place": yard}
        book.write("moved", move, at=START + timedelta(days=22))
    return book


def test_each_report_s_own_problems_stand_in_the_list_once(book: BookWriter) -> None:
    standing = fold(book.entries())
    found = told(standing)
    assert {json.loads(one)["code"] for one in found} >= {
        "unknown_species", "outage_backwards", "wet_bulb", "temperature", "before_setting", "tare_over_gross",
        "too_many_eggs", "own_ancestor", "dam_is_cock", "sire_is_hen", "shares_not_one", "band_twice", "score_total",
        "marks_alike",
    }  # fmt: skip
    assert told_by_reports(standing) <= set(found)
    assert len(found) == len(set(found))


def test_one_fault_has_one_code_in_all_reports(book: BookWriter) -> None:
    """A band on two birds was called one thing by the flock's report and another by the weights'."""
    standing = fold(book.entries())
    told_of = [
        [one["code"] for one in report(standing, NOW)["problems"] if "ring" in one["message"]]
        for report in (family_report, flock_report, growth_report)
    ]
    assert told_of == [["band_twice"]] * 3
