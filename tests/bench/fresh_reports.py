"""How soon reports are fresh after a sync, with a book of 200,000 entries: `python -m tests.bench.fresh_reports`.

Through the app itself, as a phone meets it: 200 entries are pushed, then a report is asked for. The book runs over
twenty seasons; what is pushed belongs to settings that run. Process time stands beside, for a machine that is busy.
"""

import gc
import secrets
import statistics
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

from starlette.testclient import TestClient

from broodline.cli.main import COLLECT_AFTER
from broodline.settings import Settings
from broodline.sync.pairing import invite
from broodline.sync.push import push
from broodline.web.app import create_app, open_desk
from tests.bench.large_book import LAST_SEASON, large_book, push_requests

WHOLE_BOOK, SEASONS, AT_ONCE, ROUNDS = 200_000, 20, 200, 5
PORT = 8472
NOW = datetime(LAST_SEASON, 7, 1, tzinfo=UTC)
TARGET_S = 0.5
SEASON, DUE = f"/api/v1/reports/season/{LAST_SEASON}", "/api/v1/reports/due"


def main() -> None:
    gc.set_threshold(*COLLECT_AFTER)  # as the command does
    # A few more than are pushed one by one, so that the newest settings still run.
    book = large_book(WHOLE_BOOK + 2 * ROUNDS * AT_ONCE, seasons=SEASONS)
    with tempfile.TemporaryDirectory() as folder:
        desk = open_desk(Settings(Path(folder), port=PORT), lambda: NOW, secrets.token_bytes)
        try:
            shelf = desk.writer.shelf
            holding = shelf.holdings.current().id
            for request in push_requests(book[:WHOLE_BOOK], AT_ONCE):
                push(shelf.log, holding, request, "phone-1")
            url = f"http://127.0.0.1:{PORT}"
            browser = TestClient(create_app(desk), base_url=url, client=("127.0.0.1", 50_000), headers={"origin": url})
            code = invite(shelf.devices, holding, "keeper", secrets.token_bytes).code
            begun, used = time.perf_counter(), time.process_time()
            assert browser.post("/api/v1/pair", json={"code": code, "name": "bench"}).status_code == 200
            taken = time.perf_counter() - begun, time.process_time() - used
            told("first answer after a start (the whole book is read and folded)", [taken])
            measure(browser, push_requests(book[WHOLE_BOOK:], AT_ONCE))
        finally:
            desk.close()


def measure(browser: TestClient, requests: list[bytes]) -> None:
    told("first season report (its statistics are new)", [asked(browser, SEASON)])
    for report in (SEASON, DUE):
        found = []
        for _ in range(ROUNDS):
            before = browser.get(DUE).json()["entries"]
            answer = browser.post("/api/v1/push", content=requests.pop(0), headers={"content-type": "application/json"})
            assert answer.status_code == 200
            found.append(asked(browser, report))
            assert browser.get(DUE).json()["entries"] == before + AT_ONCE
        told(f"{report} after a push of {AT_ONCE} (target {TARGET_S} s)", found)


def asked(browser: TestClient, report: str) -> tuple[float, float]:
    """Seconds until the answer, and seconds of this process."""
    begun, used = time.perf_counter(), time.process_time()
    answer = browser.get(report)
    taken = time.perf_counter() - begun, time.process_time() - used
    assert answer.status_code == 200
    return taken


def told(what: str, found: list[tuple[float, float]]) -> None:
    clock, own = (statistics.median(one) for one in zip(*found, strict=True))
    print(f"{what:<66}{clock:>7.2f} s, process {own:.2f} s")


if __name__ == "__main__":
    main()
