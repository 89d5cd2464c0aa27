"""`broodline remind`: what would be sent, and what was."""

from datetime import UTC, datetime

import pytest

from broodline.cli.place import now_ms
from broodline.cli.push import note_push
from broodline.settings import Settings
from broodline.store.shelf import open_shelf
from tests.book_writer import BookWriter, entry_id
from tests.server.cli.commands import broodline, write_lines
from tests.server.jobs.push_service import ENDPOINT, push_service


@pytest.fixture
def folder(tmp_path):
    """12 eggs set on 1 March 2026: lockdown on the 19th."""
    writer = BookWriter()
    writer.keeper()
    writer.set_eggs(writer.incubator(), [(writer.lot(), writer.family("Rowan"), 12)])
    assert broodline("import", write_lines(tmp_path / "b.jsonl", *writer.documents), "--data", tmp_path / "b").code == 0
    return tmp_path / "b"


def remind(folder, *words):
    return broodline("remind", "--data", folder, *words)


def test_without_a_phone_it_says_what_the_usual_choice_would_send(folder):
    told = remind(folder, "--dry-run", "--at", "2026-03-18T18:00", "--json").json
    assert (told["at"], told["devices"]) == ("2026-03-18T18:00:00.000Z", 0)
    [one] = told["reminders"]
    assert (one["task"], one["title"]) == ("lockdown", "Lockdown: Thursday 19 March")
    assert (one["device"], one["sent"]) == (None, None)
    printed = remind(folder, "--dry-run", "--at", "2026-03-18T18:00").out
    assert "No phone has reminders turned on" in printed
    assert "Lockdown: Thursday 19 March" in printed
    assert remind(folder, "--at", "2026-03-12T12:00", "--json").json["reminders"] == []


@pytest.mark.parametrize("time", ["soon", "0001-01-01T00:00", "9999-12-31T23:59", "2026-13-01"])
def test_a_time_that_is_none(folder, time):
    done = remind(folder, "--dry-run", "--at", time)
    assert (done.code, "2026-03-08T18:00" in done.err) == (2, True)


def test_it_sends_once_and_a_dry_run_sends_nothing(folder, monkeypatch):
    with push_service() as service, open_shelf(folder, now_ms=now_ms, random_bytes=bytes) as shelf:
        holding = shelf.holdings.current().id
        shelf.devices.add(holding, "phone-1", "Shed phone", "keeper", "token")
        shelf.reminders.subscribe("phone-1", ENDPOINT, service.p256dh, service.auth, "https://book.example", "{}")
        at = "2030-03-03T12:00"
        monkeypatch.setattr("broodline.cli.remind.public_way", lambda endpoint, more: service.way(endpoint))
        note_push(Settings(folder, contact="mailto:ann@farm.example"))
        later = BookWriter(documents=[{}] * 20, lots_made=9)  # lockdown on 3 March 2030
        later.set_eggs(entry_id(2), [(later.lot(), entry_id(3), 3)], set_at=datetime(2030, 2, 13, 8, tzinfo=UTC))
        broodline("import", write_lines(folder / "c.jsonl", later.documents[-1]), "--data", folder)
        dry = remind(folder, "--dry-run", "--at", at, "--json").json["reminders"]
        assert [(one["name"], one["title"]) for one in dry] == [("Shed phone", "Lockdown: Sunday 3 March")]
        assert service.received == []
        sent = remind(folder, "--at", at, "--json")
        assert (sent.code, [one["sent"] for one in sent.json["reminders"]]) == (0, [True])
        assert remind(folder, "--at", at, "--json").json["reminders"] == []
        assert len(service.received) == 1
        assert service.subjects == ["mailto:ann@farm.example"]  # as the server beside it would sign
