"""Tables and copies over HTTP."""

import base64
import json
from typing import Any

import pytest

from broodline.book.birds import birds_of
from tests.server.exchange.test_sheets_as_kept import COUNTS, several
from tests.server.exchange.test_sheets_in import FAMILIES, HATCHES
from tests.server.exchange.told_books import demo_book, demo_entries
from tests.server.web.conftest import serving
from tests.server.web.test_refusals import assert_refused

SHEET, COPY = "/api/v1/imports/sheet", "/api/v1/imports/book"


def test_a_table_is_tried_taken_in_and_undone(server, clock):
    clock.now = clock.now.replace(month=11, day=25)
    keeper = server.paired()
    families = {"name": "families.csv", "text": FAMILIES}
    assert keeper.post(SHEET, json=families).json()["kinds"] == {"family": 3}
    packed = {"name": "hatches.csv", "base64": base64.b64encode(HATCHES.encode()).decode()}
    tried = keeper.post(f"{SHEET}?dry_run=1", json=packed).json()
    assert (tried["dry_run"], tried["kinds"]["set"], tried["tables"][0]["columns"]["unhatched"]) == (
        True, 2, "Dead in shell",
    )  # fmt: skip
    assert server.desk.reader.shelf.log.count(server.desk.reader.shelf.holdings.current().id) == 3
    assert keeper.post(SHEET, json=packed).json()["added"] == tried["added"]
    assert keeper.post(SHEET, json=packed).json()["known"] == tried["added"]
    rates = keeper.get("/api/v1/reports/season/2025").json()["families"]
    assert {one["name"]: one["hatch_of_set"]["k"] for one in rates} == {"Rowan": 24, "Hazel": 12}
    assert keeper.post(f"{SHEET}?undo=1", json=packed).json()["added"] == tried["added"]
    assert keeper.get("/api/v1/reports/season/2025").json()["settings"] == 0
    told = {**packed, "columns": {"eggs": "Moon"}}
    bad = keeper.post(f"{SHEET}?dry_run=1", json=told).json()["bad"]
    assert [one["field"] for one in bad] == ["eggs", "eggs", "eggs", "family"]  # not one row of Rowan could be read


def test_each_sheet_of_a_workbook_is_told_by_itself_and_what_it_leaves_open_is_asked(server, clock):
    clock.now = clock.now.replace(month=11, day=25)
    keeper = server.paired()
    body = {"name": "mine.xlsx", "base64": base64.b64encode(several()).decode()}
    first = keeper.post(f"{SHEET}?dry_run=1", json=body).json()
    assert ([one["sheet"] for one in first["tables"]], first["other_sheets"], first["asked"]) == (
        ["Lines", "Birds fed"], ["Counts 2025"], [],
    )  # fmt: skip
    sheets: dict[str, Any] = {"Counts 2025": {"kind": "hatches", "columns": COUNTS}, "Birds fed": {"kind": "none"}}
    told = keeper.post(f"{SHEET}?dry_run=1", json={**body, "sheets": sheets}).json()
    counts = told["tables"][1]
    assert (counts["dates"], counts["dates_open"], counts["needed"]) == ("dmy", ["dmy", "mdy"], list(COUNTS))
    assert counts["days"] == [
        {"number": 2, "whose": "Rowan", "field": "set_on", "written": "03/04/2025", "on": "2025-04-03"}
    ]
    sheets["Counts 2025"]["dates"] = "mdy"
    taken = keeper.post(SHEET, json={**body, "sheets": sheets}).json()
    assert (taken["kinds"]["set"], taken["kinds"]["family"], taken["other_sheets"]) == (1, 1, ["Birds fed"])
    odds: list[dict[str, Any]] = [{"sheets": [1]}, {"sheets": {"Lines": 1}}, {"sheets": {"Hens": {}}}, {"sheet": 3}]
    for odd in odds:
        assert_refused(keeper.post(SHEET, json={**body, **odd}), 400, "envelope")


def test_a_copy_is_tried_and_taken_in_and_bad_lines_are_told(server):
    keeper = server.paired()
    lines = b"".join(entry.canonical + b"\n" for entry in demo_entries()).decode() + "not json\n"
    tried = keeper.post(f"{COPY}?dry_run=1", json={"name": "book.jsonl", "text": lines}).json()
    assert (tried["added"], tried["known"], [bad["line"] for bad in tried["bad"]]) == (
        len(demo_entries()), 0, [len(demo_entries()) + 1],
    )  # fmt: skip
    assert keeper.post(COPY, json={"name": "book.jsonl", "text": lines}).json()["added"] == len(demo_entries())
    exported = keeper.get("/api/v1/exports/book.jsonl").text
    assert exported + "not json\n" == lines


def test_what_is_no_file_is_refused(server):
    keeper = server.paired()
    bodies: list[object] = [[], {}, {"name": "a.csv"}, {"name": "", "text": ""}, {"name": "a.csv", "base64": "§"}]
    for body in bodies:
        assert_refused(keeper.post(SHEET, content=json.dumps(body), headers={"content-type": "application/json"}),
                       400, "envelope")  # fmt: skip
    big = {"name": "a.csv", "text": "x" * (16 * 1024 * 1024 + 1)}
    assert_refused(keeper.post(SHEET, json=big), 413, "too_large")


def test_a_birds_papers_go_out_and_come_in(server, clock, tmp_path, chance):
    clock.now = clock.now.replace(month=11, day=25)
    keeper = server.paired()
    lines = b"".join(entry.canonical + b"\n" for entry in demo_entries()).decode()
    assert keeper.post(COPY, json={"name": "book.jsonl", "text": lines}).status_code == 200
    bird = next(one.id for one in birds_of(demo_book(), None).values() if one.label == "green A60")
    papers = keeper.get(f"/api/v1/exports/bird/{bird}.zip")
    assert papers.headers["content-type"] == "application/zip"
    assert keeper.get("/api/v1/exports/society.csv?year=2026").text.startswith("species,breed,variety,origin,males")
    with serving(tmp_path / "elsewhere", clock, chance) as other:
        buyer = other.paired()
        body = {"name": "bird.zip", "base64": base64.b64encode(papers.content).decode(), "on": "2026-11-25"}
        assert buyer.post("/api/v1/imports/bird?dry_run=1", json=body).json()["added"] > 3
        assert buyer.post("/api/v1/imports/bird", json=body).json()["bird"] == bird
        here, there = (
            {one["bird"]: one["F"] for one in phone.get("/api/v1/reports/family").json()["birds"]}
            for phone in (keeper, buyer)
        )
        assert there[bird] == pytest.approx(here[bird], abs=0.01)
        assert there[bird] > 0.1
        for odd in ({"on": "soon"}, {"how": "stolen"}, {"base64": "AAAA"}):
            assert_refused(buyer.post("/api/v1/imports/bird", json={**body, **odd}), 400, "envelope")
