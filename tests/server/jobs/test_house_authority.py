"""The authority of a house: what it vouches for, for how long, who may read its key; judged by OpenSSL as
Python brings it, which is another hand than the code that made it."""

import ssl
import stat
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509

from broodline.errors import BookDamaged, WrongUse
from broodline.jobs import house_authority as house
from broodline.jobs.house_authority import is_house_name, is_private, own_addresses, own_authority, own_certificate

NAME = "broodline.home.arpa"
NOW = datetime.now(UTC).replace(microsecond=0)
HERE = ["192.168.1.5", "127.0.0.1"]


def loaded(path):
    return x509.load_pem_x509_certificate(path.read_bytes())


def openssl_takes(folder, made, name):
    """Whether OpenSSL, strictly (X509_V_FLAG_X509_STRICT), takes the certificate for a server of that name or address
    under the authority, in a handshake of both ends in memory; and what it says where it does not."""
    here = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    here.load_cert_chain(made.certificate, made.key)
    there = ssl.create_default_context(cafile=folder / "house" / "authority.pem")
    there.verify_flags |= ssl.VERIFY_X509_STRICT
    to_here, to_there = ssl.MemoryBIO(), ssl.MemoryBIO()
    server = here.wrap_bio(to_here, to_there, server_side=True)
    phone = there.wrap_bio(to_there, to_here, server_hostname=name)
    for _ in range(4):
        for end in (phone, server):
            try:
                end.do_handshake()
            except ssl.SSLWantReadError:
                continue
            except ssl.SSLCertVerificationError as fault:
                return False, fault.verify_message
    return phone.version() is not None, ""


def test_a_certificate_of_it_is_good_for_the_name_and_the_addresses(tmp_path):
    made = own_certificate(tmp_path, own_authority(tmp_path, NAME, NOW), HERE, NOW)
    for name in (NAME, "192.168.1.5", "127.0.0.1"):
        assert openssl_takes(tmp_path, made, name) == (True, "")
    good, told = openssl_takes(tmp_path, made, "bank.example")
    assert not good
    assert "Hostname mismatch" in told
    leaf = loaded(made.certificate)
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc <= timedelta(days=397)


@pytest.mark.parametrize(
    ("name", "address"), [("bank.example", "192.168.1.5"), ("other.home.arpa", "192.168.1.5"), (NAME, "142.250.1.1")]
)
def test_its_stolen_key_vouches_for_nothing_outside_the_house(tmp_path, monkeypatch, name, address):
    authority = own_authority(tmp_path, NAME, NOW)
    stolen = house.Authority(name, authority.key, authority.certificate)
    monkeypatch.setattr(house, "is_private", lambda _: True)
    made = own_certificate(tmp_path, stolen, [address], NOW)
    assert openssl_takes(tmp_path, made, name) == (False, "permitted subtree violation")


def test_only_their_owner_reads_the_keys_and_the_second_start_finds_the_same(tmp_path):
    first = own_authority(tmp_path, NAME, NOW)
    own_certificate(tmp_path, first, HERE, NOW)
    modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in (tmp_path / "house").iterdir()}
    assert modes == dict.fromkeys(("authority-key.pem", "authority.pem", "server-key.pem", "server.pem"), 0o600)
    assert stat.S_IMODE((tmp_path / "house").stat().st_mode) == 0o700
    again = own_authority(tmp_path, NAME, NOW + timedelta(days=300))
    assert again.fingerprint == first.fingerprint
    assert len(first.fingerprint) == 32 * 3 - 1


def test_a_certificate_is_renewed_two_months_before_its_end_and_the_authority_stays(tmp_path):
    authority = own_authority(tmp_path, NAME, NOW)
    made = [
        own_certificate(tmp_path, authority, HERE, NOW + timedelta(days=day)).made for day in (0, 1, 335, 337, 338, 700)
    ]
    assert made == [True, False, False, True, False, True]
    assert loaded(tmp_path / "house" / "server.pem").not_valid_after_utc == NOW + timedelta(days=700 + 396)


def test_another_address_of_the_machine_or_another_authority_asks_for_a_new_one(tmp_path):
    authority = own_authority(tmp_path, NAME, NOW)
    assert own_certificate(tmp_path, authority, HERE, NOW).made
    assert not own_certificate(tmp_path, authority, HERE[:1], NOW).made
    assert own_certificate(tmp_path, authority, [*HERE, "10.0.0.7"], NOW).made
    for path in (tmp_path / "house").glob("authority*"):
        path.unlink()
    assert own_certificate(tmp_path, own_authority(tmp_path, NAME, NOW), HERE, NOW).made


def test_another_name_is_refused_because_phones_keep_their_book_under_the_first(tmp_path):
    own_authority(tmp_path, NAME, NOW)
    with pytest.raises(WrongUse) as told:
        own_authority(tmp_path, "barn.home.arpa", NOW)
    assert NAME in told.value.message
    assert "copy" in told.value.remedy


@pytest.mark.parametrize("spoilt", ["authority-key.pem", "authority.pem"])
def test_files_that_hold_none_are_told_and_left_alone(tmp_path, spoilt):
    own_authority(tmp_path, NAME, NOW)
    (tmp_path / "house" / spoilt).write_bytes(b"nothing")
    with pytest.raises(BookDamaged):
        own_authority(tmp_path, NAME, NOW)
    assert (tmp_path / "house" / spoilt).read_bytes() == b"nothing"


def test_an_authority_that_ran_out_is_told(tmp_path):
    own_authority(tmp_path, NAME, NOW)
    with pytest.raises(BookDamaged):
        own_authority(tmp_path, NAME, NOW + timedelta(days=3651))


@pytest.mark.parametrize(
    ("name", "well"),
    [
        (NAME, True), ("a-b.local", True), ("home.arpa", False), (".home.arpa", False), ("x..home.arpa", False),
        ("X.local", False), ("bank.example", False), ("a b.local", False), ("*.local", False), ("é.local", False),
        ("x.local.", False), ("x" * 64 + ".local", False), ("", False),
    ],
)  # fmt: skip
def test_names_of_a_house(name, well):
    assert is_house_name(name) is well


def test_addresses_of_a_house():
    assert [
        one for one in ("10.1.1.1", "172.31.0.1", "192.168.0.9", "fd00::1", "127.0.0.1") if not is_private(one)
    ] == []
    assert [
        one for one in ("8.8.8.8", "172.32.0.1", "2a00::1", "169.254.1.1", "0.0.0.0", "x", "") if is_private(one)
    ] == []
    assert own_addresses()[-1] == "127.0.0.1"
    assert all(map(is_private, own_addresses()))
