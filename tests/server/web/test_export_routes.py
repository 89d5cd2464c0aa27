"""The book as files over HTTP."""

import io
import json
import zipfile

import openpyxl

from broodline.reports.season import season_report
from tests.server.exchange.told_books import demo_book, demo_entries
from tests.server.web.test_refusals import assert_refused
from tests.server.web.test_sync_routes import push


def told(server):
    keeper = server.paired()
    documents = [json.loads(entry.canonical) for entry in demo_entries()]
    for first in range(0, len(documents), 200):
        push(keeper, *documents[first : first + 200])
    return keeper


def test_all_forms_of_the_book_and_a_season(server, clock):
    clock.now = clock.now.replace(month=11, day=25)
    reader = told(server)
    lines = reader.get("/api/v1/exports/book.jsonl")
    assert lines.headers["content-disposition"] == 'attachment; filename="broodline-2026-11-25.jsonl"'
    assert lines.content == b"".join(entry.canonical + b"\n" for entry in demo_entries())
    packed = reader.get("/api/v1/exports/book.zip")
    with zipfile.ZipFile(io.BytesIO(packed.content)) as opened:
        assert opened.read("book.jsonl") == lines.content
    book = openpyxl.load_workbook(io.BytesIO(reader.get("/api/v1/exports/book.xlsx").content))
    assert book["Birds"].max_row > 50
    season = reader.get("/api/v1/exports/season.xlsx?year=2026")
    assert season.headers["content-type"].endswith("spreadsheetml.sheet")
    page = openpyxl.load_workbook(io.BytesIO(season.content))["Families 2026"]
    report = season_report(demo_book(), 2026, clock())
    rows = list(page.iter_rows(min_row=2, values_only=True))
    assert [(row[1], row[2]) for row in rows] == [(one["name"], one["set"]) for one in report["families"]]
    rowan = next(one for one in report["families"] if one["name"] == "Rowan")
    assert next(row for row in rows if row[1] == "Rowan")[10:15] == tuple(rowan["hatch_of_set"].values())[:5]
    running = reader.get("/api/v1/exports/season.xlsx").content
    assert "Families 2026" in openpyxl.load_workbook(io.BytesIO(running)).sheetnames
    for odd in ("spring", "26", "20260", "²⁰²⁶"):
        assert_refused(reader.get(f"/api/v1/exports/season.xlsx?year={odd}"), 400, "envelope")
