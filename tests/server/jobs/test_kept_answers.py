"""Reports worked out after a sync and kept with what they saw."""

import asyncio
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.errors import NotFound
from broodline.jobs.kept_answers import GOOD_FOR, MOST_KEPT, KeptAnswers, Report, keep_answers_fresh
from tests.book_writer import BookWriter

NOW = datetime(2026, 3, 8, 12, tzinfo=UTC)


def of_another_place() -> Standing:
    writer = BookWriter()
    writer.keeper()
    return fold(writer.entries())


NEWER = of_another_place()


class Counting:
    """A report that says how often it was worked out."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self, standing: Standing, now: datetime) -> dict[str, Any]:
        self.times += 1
        return {"times": self.times}


@pytest.fixture
def standing() -> Standing:
    return fold([])


def test_an_answer_stands_until_something_is_written_or_time_goes_on(standing: Standing) -> None:
    kept, report = KeptAnswers(), Counting()
    first = kept.answer("season", report, standing, 6, NOW)
    assert (first.answer, first.at, first.entries) == ({"times": 1}, NOW, 6)
    assert kept.answer("season", report, standing, 6, NOW + GOOD_FOR - timedelta(seconds=1)) == first
    assert kept.answer("season", report, standing, 6, NOW + GOOD_FOR).answer == {"times": 2}
    assert kept.answer("season", report, NEWER, 7, NOW + GOOD_FOR).entries == 7
    assert kept.answer("season", report, NEWER, 7, NOW).answer == {"times": 4}  # the clock was set back
    assert kept.answer("due", report, NEWER, 7, NOW).answer == {"times": 5}


def test_only_so_many_are_kept_those_asked_last(standing: Standing) -> None:
    kept, report = KeptAnswers(), Counting()
    for question in range(MOST_KEPT + 3):
        kept.answer(str(question), report, standing, 6, NOW)
        kept.answer("0", report, standing, 6, NOW)
    asked = [question for question, _ in kept.concerned(NEWER)]
    assert asked[:2] == ["0", str(MOST_KEPT + 2)]
    assert len(asked) == MOST_KEPT
    assert kept.concerned(fold([])) == []


def freshened(waiting: list[str], gone: str = "", news_at: str = "") -> list[str]:
    """What was worked out after one sync; gone: cannot be answered; news_at: more comes while this one is at work."""
    done: list[str] = []

    async def run() -> None:
        news = asyncio.Event()

        async def wait() -> list[tuple[str, Report]]:
            return [(question, Counting()) for question in waiting]

        async def renew(question: str, report: Report) -> None:
            done.append(question)
            if question == news_at and done.count(question) == 1:
                news.set()
            if question == gone:
                raise NotFound("It was taken back.", remedy="")

        task = asyncio.create_task(keep_answers_fresh(news, wait, renew, done.append, settle_s=0.0))
        news.set()
        for _ in range(50):
            await asyncio.sleep(0)
        task.cancel()

    asyncio.run(run())
    return done


def test_after_a_sync_all_that_waits_is_worked_out_once() -> None:
    assert freshened(["season", "setting"]) == ["season", "setting"]
    assert freshened(["gone", "setting"], gone="gone") == ["gone", "setting"]


def test_where_more_comes_meanwhile_the_rest_waits_for_it() -> None:
    assert freshened(["season", "setting"], news_at="season") == ["season", "season", "setting"]


def test_a_fault_of_our_own_is_told_and_ends_nothing() -> None:
    told: list[str] = []
    asked: list[int] = []

    async def run() -> None:
        news = asyncio.Event()

        async def wait() -> list[tuple[str, Report]]:
            asked.append(1)
            raise ZeroDivisionError

        async def renew(question: str, report: Report) -> None: ...

        task = asyncio.create_task(keep_answers_fresh(news, wait, renew, told.append, settle_s=0.0))
        for _ in range(2):
            news.set()
            for _ in range(10):
                await asyncio.sleep(0)
        assert not task.done()
        task.cancel()

    asyncio.run(run())
    assert len(asked) == 2
    words = "No reports were made ready: ZeroDivisionError in test_kept_answers.py"
    assert [one.startswith(words) for one in told] == [True] * 2
