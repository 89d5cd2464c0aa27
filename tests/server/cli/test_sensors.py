"""`broodline sensors`: a token told once, for one place, by its name or id; and its end."""

import pytest

from broodline.store.shelf import open_shelf
from tests.book_writer import BookWriter
from tests.server.cli.commands import broodline, write_lines


@pytest.fixture
def folder(tmp_path):
    writer = BookWriter()
    writer.keeper()
    writer.incubator("Loft box")
    writer.incubator("Twin")
    writer.incubator("twin")
    folder = tmp_path / "book"
    file = write_lines(tmp_path / "book.jsonl", *writer.documents)
    assert broodline("import", file, "--data", folder).code == 0
    return folder


def test_one_is_added_listed_and_revoked(folder):
    told = broodline("sensors", "add", "loft BOX", "--name", "Probe", "--data", folder, "--json").json
    sensor, token = told["sensor"], told["token"]
    assert (sensor["name"], sensor["place_name"], len(token), sensor["heard_at"]) == ("Probe", "Loft box", 32, None)
    with open_shelf(folder, now_ms=lambda: 0, random_bytes=bytes) as shelf:
        assert [one.id for one in shelf.sensors.all() if one == shelf.sensors.by_token(token)] == [sensor["id"]]
    [listed] = broodline("sensors", "--data", folder, "--json").json["sensors"]
    assert listed == sensor
    assert token not in broodline("sensors", "list", "--data", folder).out
    assert "no longer" in broodline("sensors", "revoke", sensor["id"], "--data", folder).out
    with open_shelf(folder, now_ms=lambda: 0, random_bytes=bytes) as shelf:
        assert shelf.sensors.by_token(token) is None
    assert broodline("sensors", "--data", folder, "--json").json["sensors"][0]["revoked_at"]


def test_people_are_told_how_to_send_a_reading(folder):
    told = broodline("sensors", "add", "Loft box", "--data", folder).out
    assert "told once" in told
    assert "curl http" in told
    assert "/api/v1/air" in told
    assert "Authorization: Bearer" in told


@pytest.mark.parametrize(
    "words", [("add", "Nowhere"), ("add", "Twin"), ("add",), ("revoke",), ("revoke", "x"), ("list", "x")]
)
def test_what_names_no_place_or_none_alone_is_wrong_use(folder, words):
    done = broodline("sensors", *words, "--data", folder)
    assert (done.code, "Traceback" in done.err) == (2, False)
    if words == ("add", "Nowhere"):
        assert "Loft box" in done.err
