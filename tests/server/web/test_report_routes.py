"""Reports over HTTP: the answer of the report, when it was computed, and what it saw."""

import time

import pytest

from broodline.book.fold import fold
from broodline.reports.brood import brood_report
from broodline.reports.growth import growth_report
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from broodline.web import report_routes
from tests.book_writer import BookWriter
from tests.server.web.test_refusals import assert_refused
from tests.server.web.test_sync_routes import push


@pytest.fixture
def written():
    """Twelve eggs set, three of them clear; and the id of the setting."""
    writer = BookWriter()
    writer.keeper()
    rowan, place, lot = writer.family("Rowan"), writer.incubator(), writer.lot()
    setting = writer.set_eggs(place, [(lot, rowan, 12)])
    writer.move(lot, "set", "clear", 3, why="candled", day=7)
    writer.write("gathered", {"family": rowan, "on": "2026-03-06", "n": 5, "kept": 4})
    return writer, setting


def test_a_report_is_that_of_the_fold_with_its_date_and_what_it_saw(server, clock, written):
    written, setting = written
    keeper = server.paired()
    push(keeper, *written.documents)
    stamp = {"computed_at": "2026-03-08T12:00:00.000Z", "entries": 6}
    standing = fold(written.entries())
    told = keeper.get(f"/api/v1/reports/setting/{setting}").json()
    assert told == {**setting_report(standing, setting, clock()), **stamp}
    assert told["lots"][0]["stages"] == {"clear": 3, "set": 9}
    assert keeper.get(f"/api/v1/reports/setting/{setting}").headers["content-encoding"] == "gzip"
    assert keeper.get("/api/v1/reports/season/2026").json() == {**season_report(standing, 2026, clock()), **stamp}
    assert keeper.get("/api/v1/reports/due").json()["tasks"]
    lot = next(iter(standing.lots))
    brood = keeper.get(f"/api/v1/reports/brood/{lot}").json()
    assert brood == {**brood_report(standing, lot, clock()), **stamp}
    assert keeper.get("/api/v1/reports/brood/nothing").status_code == 404
    assert keeper.get("/api/v1/reports/growth").json() == {**growth_report(standing, clock()), **stamp}
    store = keeper.get("/api/v1/reports/store").json()
    assert (store["n"], store["families"][0]["oldest_days"], store["entries"]) == (4, 2, 6)
    family = keeper.get("/api/v1/reports/family").json()
    assert (family["birds"], family["founders"], family["entries"]) == ([], {"fe": None, "fg": None}, 6)
    assert keeper.get("/api/v1/reports/flock").json()["breeds"] == []
    matings = keeper.get("/api/v1/reports/matings?pens=2&hens=3&cocks=1").json()
    assert matings["infeasible"]["relax"] == ["There is no cock here: borrow one, or keep one back."]
    plan = keeper.get("/api/v1/reports/plan?pullets=3&cockerels=1&chance=80&family=Rowan").json()
    assert (plan["targets"][0]["pullets"], plan["eggs"], plan["entries"]) == (3, plan["targets"][0]["eggs"], 6)
    assert_refused(keeper.get("/api/v1/reports/plan?pullets=many"), 400, "envelope")
    for odd in ("pens=two", "hens=0", "cocks=99999999999999999999", "pens=-1"):
        assert_refused(keeper.get(f"/api/v1/reports/matings?{odd}"), 400, "envelope")


def test_a_report_is_fresh_after_a_push_and_after_another_process_wrote(server, written):
    written, setting = written
    keeper = server.paired()
    push(keeper, *written.documents[:4])
    address = f"/api/v1/reports/setting/{setting}"
    assert keeper.get(address).json()["total"]["stages"] == {"set": 12}
    shelf = server.desk.reader.shelf  # not the connection that pushes write through
    shelf.log.append(shelf.holdings.current().id, written.entries()[4:], "import")
    told = keeper.get(address).json()
    assert (told["total"]["stages"], told["entries"]) == ({"clear": 3, "set": 9}, 6)


def test_an_unknown_setting_is_a_404(server):
    assert_refused(server.paired().get("/api/v1/reports/setting/nobody"), 404, "not_found")


@pytest.mark.parametrize("year", ["0", "1", "9999", "10000", "99999999999999999999", "-1"])
def test_a_year_nobody_lived_in_breaks_nothing(server, written, year):
    written, _ = written
    keeper = server.paired()
    push(keeper, *written.documents)
    assert keeper.get(f"/api/v1/reports/season/{year}").status_code in (200, 404)


def test_after_a_sync_reports_are_ready_before_anybody_asks(server, written, monkeypatch):
    """The running season's, and what was asked before."""
    seen: list[tuple[str, int, int]] = []

    def counted(report, name):
        def answer(standing, *asked):
            seen.append((name, len(standing.lots), sum(lot.stages.get("clear", 0) for lot in standing.lots.values())))
            return report(standing, *asked)

        return answer

    monkeypatch.setattr(report_routes, "season_report", counted(season_report, "season"))
    monkeypatch.setattr(report_routes, "setting_report", counted(setting_report, "setting"))
    written, setting = written
    keeper = server.paired()
    with server.browser() as running:
        running.cookies = keeper.cookies
        push(running, *written.documents[:4])
        assert running.get(f"/api/v1/reports/setting/{setting}").json()["entries"] == 4
        push(running, *written.documents[4:])
        end = time.monotonic() + 20
        while not {("season", 1, 3), ("setting", 1, 3)} <= set(seen) and time.monotonic() < end:
            time.sleep(0.02)
        assert {("season", 1, 3), ("setting", 1, 3)} <= set(seen)
        worked_out = len(seen)
        for address in ("season/2026", f"setting/{setting}"):
            assert running.get(f"/api/v1/reports/{address}").json()["entries"] == 6
        assert len(seen) == worked_out, "they were kept"
