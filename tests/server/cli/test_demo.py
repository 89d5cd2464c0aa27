"""`broodline demo`: the folder it writes, served as any other."""

import httpx2 as httpx

from tests.browser.serving import Served
from tests.server.cli.commands import broodline, phone


def test_a_demos_folder_is_served_to_phones_that_pair(tmp_path):
    folder = tmp_path / "book"
    assert broodline("demo", "--no-serve", "--data", folder).code == 0
    served = Served(folder)
    served.start()
    try:
        with phone(served) as client:
            assert client.get("/api/v1/me").json()["demo"] is True
            assert len(client.get("/api/v1/pull").json()["entries"]) == 500
        opened_here = httpx.get(served.url + "/api/v1/me", headers={"sec-fetch-site": "none"})
        assert opened_here.status_code == 401, "only `broodline demo` is open to whoever sits here"
    finally:
        served.stop()
