"""Days and years that are none, or that no flock is asked about: refused in words on every route that takes them."""

import pytest

from tests.server.web.test_refusals import assert_refused

DAYS = ("0000-01-01", "0001-01-01", "1899-12-31", "2023-02-29", "2100-02-29", "9999-12-31", "20260308", "2026-W10-7")


@pytest.mark.parametrize("day", DAYS)
def test_a_day_that_no_flock_is_asked_about_is_refused_in_words(server, day):
    keeper = server.paired()
    for path in (f"papers/{name}.pdf?{end}={day}" for name in ("away", "inspection") for end in ("from", "until")):
        assert_refused(keeper.get(f"/api/v1/{path}"), 400, "envelope")
    assert_refused(keeper.get(f"/api/v1/reports/plan?hatch_on={day}"), 400, "envelope")


@pytest.mark.parametrize("day", ["1900-01-01", "2024-02-29", "2199-12-31"])
def test_a_day_at_the_edge_is_answered(server, day):
    keeper = server.paired()
    for path in (
        f"papers/away.pdf?from={day}&until={day}",
        f"papers/inspection.pdf?from={day}&until={day}",
        f"reports/plan?hatch_on={day}",
    ):
        assert keeper.get(f"/api/v1/{path}").status_code == 200


@pytest.mark.parametrize("year", [0, 1, 1899, 2100, 9998, 9999, 10000, 10**30])
def test_a_season_of_any_year_is_answered_or_refused_in_words(server, year):
    """The first and the last years of the calendar, years beyond it, and one that no leap day falls in."""
    keeper = server.paired()
    for path in (f"reports/season/{year}", f"papers/season/{year}.pdf", f"papers/marks/{year}.pdf"):
        assert keeper.get(f"/api/v1/{path}").status_code in (200, 400, 404), path
    for name in ("season.xlsx", "society.csv"):
        assert keeper.get(f"/api/v1/exports/{name}?year={year}").status_code in (200, 400, 404), name
