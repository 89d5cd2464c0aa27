"""Push: what is taken, what is refused, and that a refusal leaves nothing behind."""

import json

import pytest

from broodline.errors import EnvelopeError, ProtocolTooOld, TooLarge
from broodline.store.log import all_rows
from broodline.store.memory_log import MemoryLog
from broodline.sync.push import MOST_BYTES, MOST_ENTRIES, PROTOCOL, push, read_batch
from tests.server.store.log_suite import HOLDING, note


@pytest.fixture
def log():
    made = MemoryLog(lambda: "epoch")
    made.found(HOLDING)
    return made


def document(number, text="", **envelope):
    return json.loads(note(number, text, **envelope).canonical)


def request(*entries, **more):
    return json.dumps({"v": PROTOCOL, "entries": list(entries), **more}).encode()


def test_a_push_answers_for_every_entry_in_order(log):
    push(log, HOLDING, request(document(1)), "phone")
    pushed = push(log, HOLDING, request(document(2), document(1), document(1, "other"), document(2)), "phone")
    assert pushed.epoch == "epoch"
    assert [(p.id, p.status, p.position) for p in pushed.results] == [
        (note(2).id, "stored", 2),
        (note(1).id, "duplicate", 1),
        (note(1).id, "clash", None),
        (note(2).id, "duplicate", 2),
    ]


def test_an_empty_push_is_answered(log):
    assert push(log, HOLDING, request(), "phone").results == []


def test_odd_meaning_unknown_kinds_and_newer_versions_are_stored(log):
    odd = [
        document(1, kind="moved", body={"moves": [{"lot": "nobody", "from": "set", "to": "moon", "n": -50}]}),
        document(2, kind="kind-of-tomorrow", body={"x": [1, {"y": None}]}),
        document(3, v=7, body={}),
        document(4, at="2099-12-31T23:59:59Z", amends=note(4).id),
        document(5, device="import", zone="Mars/Olympus"),
    ]
    assert [p.status for p in push(log, HOLDING, request(*odd), "phone").results] == ["stored"] * 5


FAULTS = [
    pytest.param({"id": "01950000-0000-4000-8000-000000000001"}, "id", id="not version 7"),
    pytest.param({"id": note(1).id.upper().replace("0195", "ABCD")}, "id", id="capital letters"),
    pytest.param({"id": 7}, "id", id="id a number"),
    pytest.param({"v": 0}, "v", id="v 0"),
    pytest.param({"v": "1"}, "v", id="v text"),
    pytest.param({"v": True}, "v", id="v true"),
    pytest.param({"kind": ""}, "kind", id="no kind"),
    pytest.param({"kind": None}, "kind", id="kind null"),
    pytest.param({"device": 1}, "device", id="device a number"),
    pytest.param({"at": "2026-02-30T10:00:00Z"}, "at", id="no such day"),
    pytest.param({"at": "2026-03-08T10:00:00+01:00"}, "at", id="not UTC"),
    pytest.param({"at": "yesterday"}, "at", id="no time"),
    pytest.param({"zone": []}, "zone", id="zone a list"),
    pytest.param({"skew_ms": 1.5}, "skew_ms", id="half a millisecond"),
    pytest.param({"amends": "me"}, "amends", id="amends no id"),
    pytest.param({"void": 0}, "void", id="void a number"),
    pytest.param({"body": "text"}, "body", id="body text"),
    pytest.param({"body": {"n": 1e300}}, "n", id="number too large"),
    pytest.param({"body": {"n": 2**53}}, "n", id="whole number too large"),
    pytest.param({"body": {"text": "\ud800"}}, "text", id="half a character"),
    pytest.param({"body": {"\ud800": 1}}, "body", id="half a character in a key"),
    pytest.param({"body": {"text": "x" * 8192}}, "$", id="over 8 KiB"),
]


@pytest.mark.parametrize(("change", "field"), FAULTS)
def test_a_fault_of_the_envelope_names_field_and_place_and_stores_nothing(log, change, field):
    batch = [document(1), document(2), {**document(3), **change}, document(4)]
    with pytest.raises(EnvelopeError) as refused:
        push(log, HOLDING, request(*batch), "phone")
    assert refused.value.field == field
    assert refused.value.index == 2
    assert "entries[2]" in refused.value.message
    assert refused.value.remedy
    assert log.count(HOLDING) == 0


@pytest.mark.parametrize("field", ["id", "v", "kind", "device", "at", "zone", "skew_ms", "amends", "void", "body"])
def test_a_missing_field_is_named(log, field):
    cut = document(1)
    del cut[field]
    with pytest.raises(EnvelopeError) as refused:
        push(log, HOLDING, request(cut), "phone")
    assert (refused.value.field, refused.value.index) == (field, 0)


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"[]",
        b"null",
        b'"text"',
        b"{",
        b"\xff\xfe",
        b'{"v":1}',
        b'{"v":1,"entries":{}}',
        b'{"v":1,"entries":null}',
        b'{"v":1,"entries":[null]}',
        b'{"v":1,"entries":[[]]}',
        b'{"v":1,"entries":[1]}',
        b'{"v":1,"v":1,"entries":[]}',
        b'{"v":NaN,"entries":[]}',
        b'{"v":1,"entries":' + b"[" * 5000 + b"]" * 5000 + b"}",
        b'{"entries":[]}',
        b'{"v":"1","entries":[]}',
        b'{"v":true,"entries":[]}',
        b'{"v":2,"entries":[]}',
    ],
)
def test_a_request_that_is_no_push_is_refused_in_words(log, raw):
    with pytest.raises(EnvelopeError) as refused:
        push(log, HOLDING, raw, "phone")
    assert refused.value.message
    about_an_entry = refused.value.index is not None
    assert ("this one" in refused.value.remedy) is about_an_entry
    assert log.count(HOLDING) == 0


def test_an_app_of_an_older_protocol_is_told_to_update(log):
    with pytest.raises(ProtocolTooOld):
        push(log, HOLDING, request(document(1), v=0), "phone")
    assert log.count(HOLDING) == 0


def test_size_is_judged_before_anything_is_read():
    with pytest.raises(TooLarge):
        read_batch(b"{" * (MOST_BYTES + 1))
    with pytest.raises(TooLarge):
        read_batch(request(*[{}] * (MOST_ENTRIES + 1)))


def test_the_most_that_is_allowed_is_taken(log):
    pushed = push(log, HOLDING, request(*[document(n) for n in range(1, MOST_ENTRIES + 1)]), "phone")
    assert {p.status for p in pushed.results} == {"stored"}
    filler = request(document(500))
    padded = filler + b" " * (MOST_BYTES - len(filler))
    assert push(log, HOLDING, padded, "phone").results[0].status == "stored"


def test_a_batch_with_one_bad_entry_can_be_halved_until_it_alone_is_left_out(log):
    """Invariant 9: at most ceil(log2 n) + 1 rounds of halving, and the neighbours all arrive."""
    batch = [document(n) for n in range(1, 33)]
    batch[17]["void"] = "no"
    rounds, waiting, set_aside = 0, [batch], []
    while waiting:
        rounds += 1
        refused = []
        for part in waiting:
            try:
                push(log, HOLDING, request(*part), "phone")
            except EnvelopeError:
                refused.append(part)
        set_aside += [part for part in refused if len(part) == 1]
        waiting = [half for p in refused if len(p) > 1 for half in (p[: len(p) // 2], p[len(p) // 2 :])]
    assert rounds <= 6
    assert set_aside == [[batch[17]]]
    assert log.count(HOLDING) == 31
    stored = {json.loads(raw)["id"] for _, raw in all_rows(log, HOLDING)}
    assert stored == {entry["id"] for entry in batch} - {batch[17]["id"]}
