"""An answer kept over a sync is the one that would be worked out from nothing; only what it concerns is renewed."""

from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timedelta
from functools import partial
from random import Random
from typing import Any, cast

import pytest

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.book.wire import Entry, read_entry
from broodline.errors import NotFound
from broodline.jobs.kept_answers import KeptAnswers, Report
from broodline.jobs.watched import watched
from broodline.reports.agenda import due
from broodline.reports.brood import brood_report
from broodline.reports.choosing import Keeping, choosing_report
from broodline.reports.egg_store import egg_store
from broodline.reports.family import family_report
from broodline.reports.flock import flock_report
from broodline.reports.growth import growth_report
from broodline.reports.plan import Wanted, plan_report, wanted_of
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter
from tests.server.book.odd_books import odd_book

NOW = datetime(2026, 4, 8, 12, tzinfo=UTC)
WANTED = cast(Wanted, wanted_of({}))
REPORTS: dict[str, Report] = {
    "due": due,
    "store": egg_store,
    "family": family_report,
    "flock": flock_report,
    "growth": growth_report,
    "season": lambda standing, now: season_report(standing, 2026, now),
    "choose": lambda standing, now: choosing_report(standing, Keeping(), now),
    "plan": lambda standing, now: plan_report(standing, WANTED, now),
}


def of_setting(setting: str) -> Report:
    return lambda standing, now: setting_report(standing, setting, now)


def of_brood(lot: str) -> Report:
    return lambda standing, now: brood_report(standing, lot, now)


def answered(ask: Callable[[], dict[str, Any]]) -> dict[str, Any] | None:
    """None for a setting or a lot that is not there yet."""
    try:
        return ask()
    except NotFound:
        return None


def kept_answer(kept: KeptAnswers, question: str, report: Report, standing: Standing) -> dict[str, Any]:
    return kept.answer(question, report, standing, 0, NOW).answer


@pytest.mark.parametrize("seed", range(3))
def test_what_is_kept_over_any_syncs_is_what_nothing_would_give(seed: int) -> None:
    """Odd books, brought in pieces in any order."""
    chance = Random(seed)
    written: list[Entry] = [read_entry(one) for one in odd_book(seed)]
    chance.shuffle(written)
    kept, here = KeptAnswers(), 0
    whole = fold(written)
    reports = REPORTS | {f"setting {one}": of_setting(one) for one in [*whole.settings][:2]}
    reports |= {f"brood {one}": of_brood(one) for one in [*whole.lots][:2]}
    while here < len(written):
        here += chance.randint(8, 30)
        standing = fold(written[:here])
        for question, report in reports.items():
            told = answered(partial(kept_answer, kept, question, report, standing))
            assert told == answered(partial(report, standing, NOW)), question


def book() -> BookWriter:
    writer = BookWriter()
    writer.keeper()
    rowan, box = writer.family("Rowan"), writer.incubator()
    writer.set_eggs(box, [(writer.lot(), rowan, 12)])
    writer.set_eggs(writer.incubator("Shed"), [(writer.lot(), rowan, 10)], set_at=START + timedelta(days=3))
    return writer


def renewed(writer: BookWriter, write: Callable[[], object]) -> set[str]:
    """Which answers a sync concerns."""
    first, second = (one["id"] for one in writer.documents if one["kind"] == "set")
    kept = KeptAnswers()
    before = fold(writer.entries())
    reports = REPORTS | {"first": of_setting(first), "second": of_setting(second)}
    for question, report in reports.items():
        kept.answer(question, report, before, len(writer.documents), NOW)
    write()
    return {question for question, _ in kept.concerned(fold(writer.entries()))}


def test_a_note_on_a_bird_concerns_no_setting_and_a_look_at_eggs_no_flock() -> None:
    writer = book()
    assert renewed(writer, lambda: writer.write("note", {"text": "Wind got up"})).isdisjoint(
        {"family", "store", "flock"}
    )
    writer = book()
    first = next(one for one in writer.documents if one["kind"] == "set")
    lot = first["body"]["lots"][0]["lot"]
    found = renewed(writer, lambda: writer.move(lot, "set", "clear", 2))
    assert {"first", "due", "season"} <= found
    assert found.isdisjoint({"family", "flock"})
    writer = book()
    found = renewed(writer, lambda: writer.write("bird", {"name": "Bram", "sex": "male"}))
    assert {"family", "flock"} <= found
    assert "first" not in found


def test_what_changes_the_words_of_all_concerns_all() -> None:
    writer = book()
    amended = {"holding": "Thorn Lane", "zone": "Europe/Dublin", "temperature": "F", "mass": "oz"}
    change = lambda: writer.write("keeper", amended, amends=writer.documents[0]["id"])  # noqa: E731
    assert renewed(writer, change) == {*REPORTS, "first", "second"}


def test_an_answer_that_a_sync_does_not_concern_says_that_it_holds_for_the_book_as_it_is() -> None:
    writer = book()
    kept = KeptAnswers()
    kept.answer("flock", flock_report, fold(writer.entries()), 5, NOW)
    writer.write("note", {"text": "Wind got up"})
    later = kept.answer("flock", flock_report, fold(writer.entries()), 6, NOW + timedelta(minutes=1))
    assert (later.entries, later.at) == (6, NOW)


@pytest.mark.parametrize(
    "read",
    [
        lambda standing: [*standing.lots],
        lambda standing: len(standing.lots),
        lambda standing: list(standing.lots.items()),
        lambda standing: "lot-2" in standing.lots,
        lambda standing: standing.lots.get("lot-2"),
    ],
)
def test_whatever_way_a_table_is_read_a_new_row_in_it_is_seen(read: Callable[[Standing], Sequence[Any]]) -> None:
    writer = book()
    reading = watched(fold(writer.entries()))
    read(reading.standing)
    assert reading.holds_for(fold(writer.entries()))
    new = fold(writer.entries())
    lot = next(iter(new.lots.values()))
    object.__setattr__(new, "lots", {**new.lots, "lot-2": lot})
    assert not reading.holds_for(new)
