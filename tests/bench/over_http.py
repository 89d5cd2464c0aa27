"""How fast entries come in over HTTP, beside a CouchDB-protocol server from npm: `python -m tests.bench.over_http`.

Both servers run as processes of their own on this machine and are given the same documents, 200 at once, over one
connection. Broodline's are on the disk, each batch with its fsync, before it answers; the other is tried in memory and
on LevelDB, which waits for no disk. The packages are installed into a temporary folder and go with it.
"""

import json
import os
import signal
import statistics
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path

from tests.bench.large_book import large_book, push_requests
from tests.bench.npm_packages import NODE, install
from tests.browser.serving import Served, free_port

ENTRIES, AT_ONCE, RUNS = 20_000, 200, 5
PACKAGES = ("express@4", "express-pouchdb@4", "pouchdb@9", "pouchdb-adapter-memory@9")
OTHER_SERVER = """
const [adapter, port, folder] = process.argv.slice(2);
const PouchDB = require('pouchdb');
PouchDB.plugin(require('pouchdb-adapter-memory'));
const Kept = PouchDB.defaults({ prefix: folder + '/', adapter });
const app = require('express')();
app.use('/', require('express-pouchdb')(Kept, { logPath: folder + '/log.txt', configPath: folder + '/config.json' }));
app.listen(Number(port), '127.0.0.1', () => console.log('ready'));
"""


def main() -> None:
    book = large_book(ENTRIES)
    requests, bulks = push_requests(book, AT_ONCE), couch_bulks(book)
    with tempfile.TemporaryDirectory() as place:
        packages = install(Path(place, "packages"), *PACKAGES)
        if packages is not None:
            (packages / "server.js").write_text(OTHER_SERVER)
        ours: list[float] = []
        others: dict[str, list[float]] = {"memory": [], "leveldb": []} if packages else {}
        for run in range(RUNS):  # taking turns, so that a slow moment of the machine meets all
            ours.append(rate(book, broodline(Path(place, f"ours-{run}")), requests, checked_push))
            for adapter, found in others.items():
                assert packages is not None
                server = couch(packages, adapter, Path(place, f"{adapter}-{run}"))
                found.append(rate(book, server, bulks, checked_bulk))
    print(f"{len(book)} entries over HTTP in batches of {AT_ONCE}, entries/s, median of {RUNS}")
    print(f"  broodline serve: {statistics.median(ours):,.0f}")
    for adapter, found in others.items():
        ratio = statistics.median(o / f for o, f in zip(ours, found, strict=True))
        print(f"  express-pouchdb, {adapter}: {statistics.median(found):,.0f}; ratio {ratio:.2f} (target 1, aim 2)")


# A connection, the headers of a request, and where it goes.
Server = Iterator[tuple[HTTPConnection, dict[str, str], str]]


def rate(
    book: list[bytes],
    server: Server,
    requests: list[bytes],
    check: Callable[[bytes], None],
) -> float:
    """Entries per second from the first request to the last answer."""
    with contextmanager(lambda: server)() as (line, headers, path):
        answers = []
        begun = time.perf_counter()
        for request in requests:
            line.request("POST", path, request, headers)
            answers.append(line.getresponse().read())
        taken = time.perf_counter() - begun
    for answer in answers:
        check(answer)
    return len(book) / taken


def broodline(folder: Path) -> Server:
    served = Served(folder)
    served.start()
    try:
        line = HTTPConnection("127.0.0.1", served.port, timeout=60)
        headers = {"Content-Type": "application/json", "Origin": served.url}
        line.request("POST", "/api/v1/pair", json.dumps({"code": served.code(), "name": "bench"}), headers)
        answer = line.getresponse()
        answer.read()
        cookie = str(answer.headers["Set-Cookie"]).split(";")[0]
        yield line, {**headers, "Cookie": cookie}, "/api/v1/push"
        line.close()
    finally:
        served.stop()


def couch(packages: Path, adapter: str, folder: Path) -> Server:
    folder.mkdir()
    port = free_port()
    process = subprocess.Popen(
        [NODE / "node", packages / "server.js", adapter, str(port), folder],
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,  # node comes in a wrapper of Python's: both are to end
    )
    try:
        assert process.stdout is not None
        while "ready" not in (told := process.stdout.readline()):
            assert told, "the other server did not start"
        line = HTTPConnection("127.0.0.1", port, timeout=60)
        line.request("PUT", "/book")
        assert line.getresponse().read().startswith(b'{"ok":true')
        yield line, {"Content-Type": "application/json"}, "/book/_bulk_docs"
        line.close()
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        assert process.stdout is not None
        process.stdout.close()


def couch_bulks(book: list[bytes]) -> list[bytes]:
    """The same documents, each with its id as CouchDB wants it."""
    documents = [b'{"_id":"%b",' % json.loads(entry)["id"].encode() + entry[1:] for entry in book]
    return [
        b'{"docs":[' + b",".join(documents[start : start + AT_ONCE]) + b"]}"
        for start in range(0, len(documents), AT_ONCE)
    ]


def checked_push(answer: bytes) -> None:
    results = json.loads(answer)["results"]
    assert len(results) == AT_ONCE
    assert all(one["status"] == "stored" for one in results)


def checked_bulk(answer: bytes) -> None:
    results = json.loads(answer)
    assert len(results) == AT_ONCE
    assert all(one["ok"] for one in results)


if __name__ == "__main__":
    main()
