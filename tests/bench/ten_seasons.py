"""The season's report over ten seasons and 200,000 entries: `python -m tests.bench.ten_seasons`.

Cold: the book is folded, and no report was asked yet. Warm: the same again; what became of lots that are over is kept.
The report over HTTP after a sync is in fresh_reports. Beside them the fold of the same book, as a measure of the
machine; process time, for one that is busy.
"""

import gc
import statistics
import time
from collections.abc import Callable
from datetime import UTC, datetime

from broodline.book.fold import fold
from broodline.book.wire import stored_entry
from broodline.cli.main import COLLECT_AFTER
from broodline.reports.season import season_report
from tests.bench.large_book import LAST_SEASON, large_book

WHOLE_BOOK, SEASONS = 200_000, 10
NOW = datetime(LAST_SEASON, 7, 1, tzinfo=UTC)


def main() -> None:
    gc.set_threshold(*COLLECT_AFTER)  # as the command does
    parsed = [stored_entry(document) for document in large_book(WHOLE_BOOK, seasons=SEASONS)]
    standing = fold(parsed)
    told("fold of the book (the measure of the machine)", [taken(lambda: fold(parsed))])
    years = range(LAST_SEASON - SEASONS + 1, LAST_SEASON + 1)
    cold = [taken(lambda: season_report(standing, LAST_SEASON, NOW))]
    told("season's report, cold (target 2.0 s)", cold)
    warm = [taken(lambda: season_report(standing, LAST_SEASON, NOW)) for _ in range(5)]
    told("season's report, warm (target 0.5 s)", warm)
    others = [taken(lambda year=year: season_report(standing, year, NOW)) for year in years[-4:-1]]  # type: ignore[misc]
    told("each earlier season's, asked for the first time", others)


def taken(work: Callable[[], object]) -> tuple[float, float]:
    """Seconds, and seconds of this process; rubbish of earlier work is collected before, not during it."""
    gc.collect()
    begun, used = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - begun, time.process_time() - used


def told(what: str, found: list[tuple[float, float]]) -> None:
    clock, own = (statistics.median(one) for one in zip(*found, strict=True))
    print(f"{what:<52}{clock:>7.2f} s, process {own:.2f} s")


if __name__ == "__main__":
    main()
