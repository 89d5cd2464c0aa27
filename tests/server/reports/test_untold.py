"""Chicks of whom nobody wrote what became of them: in no figure after hatching are they a loss or a success.

The expected counts are those of the rows written here; the properties say that such chicks change no other figure.
"""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from broodline.book.fold import fold
from broodline.reports.brood import brood_report
from broodline.reports.plan import Wanted, plan_report
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from broodline.reports.society_return import society_return
from broodline.reports.untold import count_untold
from tests.server.exchange.test_sheets_in import FAMILIES, NOW, keeper_book, taken

HEAD = "Set,Family,Eggs,Hatched,Died first week,Reared\n"
BOOK = keeper_book()
BOOK += taken(FAMILIES, BOOK).entries
ROWS = (
    "2025-03-01,Rowan,20,15,1,8\n"  # 6 not written of, after their first week
    "2025-04-01,Rowan,12,9,,\n"  # 9 not written of, at once
    "2025-05-01,Hazel,14,12,,8\n"  # 4 not written of; whether they died in the first week nobody wrote
    "2025-06-01,Hazel,10,6,,6\n"  # all told of
)


def book_of(rows: str) -> Any:
    found = taken(HEAD + rows, BOOK)
    assert not any(one.number for one in found.bad)
    return fold([*BOOK, *found.entries])


def lots_by_eggs(standing: Any) -> dict[int, Any]:
    return {lot.n: lot for lot in standing.lots.values()}


def counts(rate: dict[str, Any]) -> tuple[int, int]:
    return rate["k"], rate["n"]


def test_they_are_counted_and_the_funnel_says_how_many() -> None:
    standing = book_of(ROWS)
    assert {n: count_untold(lot.moves) for n, lot in lots_by_eggs(standing).items()} == {20: 6, 12: 9, 14: 4, 10: 0}
    steps = {one["step"]: (one["n"], one["not_written"]) for one in season_report(standing, 2025, NOW)["funnel"]}
    assert (steps["hatched"], steps["alive"], steps["flock"]) == ((42, 0), (22, 19), (22, 19))
    # who is neither written of nor alive is the one that died
    assert 42 - 22 - 19 == 1


def test_a_first_week_is_told_only_where_all_of_it_was_written() -> None:
    standing = book_of(ROWS)
    report = season_report(standing, 2025, NOW)
    alive = {one["name"]: counts(one["alive_7d"]) for one in report["families"]}
    assert alive == {"Rowan": (14, 15), "Hazel": (6, 6)}
    earlier = season_report(standing, 2026, NOW)["earlier"]
    assert [counts(one["alive_7d"]) for one in earlier] == [(20, 21)]
    week = {n: brood_report(standing, lot.id, NOW)["first_week"] for n, lot in lots_by_eggs(standing).items()}
    assert {n: counts(one) for n, one in week.items()} == {20: (1, 15), 12: (0, 0), 14: (0, 0), 10: (0, 6)}
    assert week[14]["words"] == "Not known: nobody wrote what became of 4 chicks of this batch."
    assert week[14]["rate"] is None


def test_later_ages_are_told_only_until_the_first_went_unwritten() -> None:
    standing = book_of(ROWS)
    rows = {one["from_days"]: one for one in season_report(standing, 2025, NOW)["chick_losses"]}
    # ages up to a week: 15 of the first batch and the 6 all told of; then only these 6
    assert {age: counts(one["lost"]) for age, one in rows.items()} == {0: (0, 21), 3: (1, 21), 8: (0, 6), 29: (0, 6)}


def test_survival_ends_where_chicks_went_unwritten() -> None:
    standing = book_of(ROWS)
    groups = {}
    for lot in standing.lots.values():
        told = brood_report(standing, lot.id, NOW)["survival_by"]["groups"][0]
        groups[lot.n] = (told["n"], told["not_written"], told["last_day"], [p["at_risk"] for p in told["points"]])
    # the last days are whole ones: from the evening of the hatch to noon of the ninth day after, and of the 120th
    assert groups == {20: (15, 6, 8, [15]), 12: (9, 9, 0, []), 14: (12, 4, 0, []), 10: (6, 0, 119, [])}


def test_a_plan_reckons_with_no_chick_that_was_not_written_of() -> None:
    def alive(rows: str) -> float:
        standing = book_of(rows)
        hazel = next(name for name, family in standing.families.items() if family.name == "Hazel")
        (target,) = plan_report(standing, Wanted(5, 0, family=hazel), NOW)["targets"]
        return float(target["rates"]["alive"])

    unknown = alive("")
    assert alive("2025-05-01,Hazel,400,390,,300\n2025-06-01,Hazel,300,290,,\n") == unknown
    assert alive("2025-05-01,Hazel,400,390,120,200\n") < unknown < alive("2025-05-01,Hazel,400,390,0,200\n")


def test_a_society_and_a_settings_report_say_how_many() -> None:
    standing = book_of(ROWS)
    rows = {one["lines"]: one for one in society_return(standing, 2025)}
    (row,) = rows.values()
    assert (row["hatched"], row["reared"], row["not_written"]) == (42, 22, 19)
    told = {lot.n: setting_report(standing, lot.setting, NOW) for lot in standing.lots.values()}
    assert {n: (one["lots"][0]["not_written"], one["total"]["not_written"]) for n, one in told.items()} == {
        20: (6, 6), 12: (9, 9), 14: (4, 4), 10: (0, 0),
    }  # fmt: skip


HATCHED = st.integers(1, 12)


@given(HATCHED, HATCHED, st.integers(0, 3), st.integers(0, 12), st.sampled_from(["Rowan", "Hazel"]))
@settings(max_examples=25)
def test_a_batch_not_written_of_changes_no_other_figure(
    told: int, untold: int, died: int, kept: int, whose: str
) -> None:
    died, kept = min(died, told), min(kept, told - min(died, told))
    row = f"2025-03-01,Rowan,{told + 3},{told},{died},{kept}\n"
    before = season_report(book_of(row), 2025, NOW)
    after = season_report(book_of(f"{row}2025-04-01,{whose},{untold + 20},{untold},,\n"), 2025, NOW)
    assert after["chick_losses"] == before["chick_losses"]
    rowan = [next(one["alive_7d"] for one in told["families"] if one["name"] == "Rowan") for told in (before, after)]
    assert rowan[0] == rowan[1]
    alive = [{one["step"]: one for one in told["funnel"]}["alive"] for told in (before, after)]
    assert (alive[1]["n"], alive[1]["not_written"]) == (alive[0]["n"], alive[0]["not_written"] + untold)


@given(HATCHED, HATCHED)
@settings(max_examples=15)
def test_those_kept_of_a_batch_not_told_of_are_no_share_that_lived(kept: int, untold: int) -> None:
    standing = book_of(f"2025-03-01,Rowan,{kept + untold + 3},{kept + untold},,{kept}\n")
    report = season_report(standing, 2025, NOW)
    (family,) = report["families"]
    assert (counts(family["alive_7d"]), family["alive_7d"]["rate"], report["chick_losses"]) == ((0, 0), None, [])
