"""What a server is told of push services, read at its start and by `broodline remind` beside it."""

from argparse import Namespace

import pytest

from broodline.cli.push import NEEDS_CONTACT, last_push, note_push, push_warnings, read_contact, read_services
from broodline.errors import WrongUse
from broodline.jobs.push_line import NoWay, is_push_address, public_way
from broodline.jobs.push_sender import NOBODY_ASKED, contact_of, outcome_of
from broodline.settings import Settings


@pytest.mark.parametrize(
    ("typed", "contact"),
    [
        (None, None),
        ("ann@farm.example", "mailto:ann@farm.example"),
        ("mailto:ann@farm.example", "mailto:ann@farm.example"),
        ("https://farm.example/ann", "https://farm.example/ann"),
    ],
)
def test_a_contact_as_it_is_typed(typed, contact):
    assert read_contact(typed) == contact


@pytest.mark.parametrize(
    "typed", ["", "ann", "ann@farm", "http://farm.example", "https://farm", "https://[", "a b@c.de"]
)
def test_nobody_to_write_to_is_refused(typed):
    with pytest.raises(WrongUse, match="nobody"):
        read_contact(typed)


@pytest.mark.parametrize(
    "name", ["", "push", "https://push.example", "push.example/x", "push.example:443", "*.example"]
)
def test_a_push_service_is_told_by_its_name_alone(name):
    assert read_services(Namespace(push_service=["push.example", ".push.example"])) == {"push.example", ".push.example"}
    with pytest.raises(WrongUse):
        read_services(Namespace(push_service=[name]))


@pytest.mark.parametrize(
    ("settings", "contact"),
    [
        ({"public_origin": "https://book.example"}, "https://book.example"),
        ({"public_origin": "https://book.example", "contact": "mailto:a@b.example"}, "mailto:a@b.example"),
        ({"public_origin": "https://broodline.home.arpa:8420", "house": True}, NOBODY_ASKED),
        ({"public_origin": "https://barn.local"}, NOBODY_ASKED),
        ({"public_origin": "https://192.168.1.5"}, NOBODY_ASKED),
        ({"public_origin": "https://[fd00::1]"}, NOBODY_ASKED),
        ({"public_origin": "https://barn"}, NOBODY_ASKED),
        ({"public_origin": "http://book.example"}, NOBODY_ASKED),
        ({}, NOBODY_ASKED),
    ],
)
def test_whom_push_services_write_to_and_when_a_keeper_is_told_that_there_is_nobody(tmp_path, settings, contact):
    told = Settings(tmp_path, **settings)
    assert contact_of(told) == contact
    nobody = settings.get("public_origin", "").startswith("https://") and contact == NOBODY_ASKED
    assert push_warnings(told) == ([NEEDS_CONTACT] if nobody else [])
    note_push(told)
    assert last_push(tmp_path) == (contact, [])


def test_a_refusal_says_what_to_look_at():
    assert "--contact" in outcome_of(403).words


@pytest.mark.parametrize("written", [None, "", "{", "[]", "3", '{"contact": "x"}', '{"contact": "x", "services": 3}'])
def test_a_folder_that_was_never_served_or_whose_note_is_spoilt_names_nobody(tmp_path, written):
    if written is not None:
        (tmp_path / "push.json").write_text(written)
    assert last_push(tmp_path) == (NOBODY_ASKED, [])


def test_a_service_the_server_was_told_of_is_written_to_and_only_where_it_is_public():
    endpoint, more = "https://push.example/abc", ("push.example",)
    assert not is_push_address(endpoint)
    assert is_push_address(endpoint, more)
    assert not is_push_address("https://other.push.example/abc", more)
    assert is_push_address("https://other.push.example/abc", (".push.example",))
    assert not is_push_address("https://push.example:8443/abc", more)
    assert public_way(endpoint, lambda _: ["1.1.1.1"], more).addresses == ("1.1.1.1",)
    with pytest.raises(NoWay, match="private"):
        public_way(endpoint, lambda _: ["192.168.1.1"], more)
