"""What a setting's report says of eggs that came from lower ground."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


def test_eggs_brought_up_are_told_what_the_thin_air_does() -> None:
    """1500 m by Tullett's table: 20 % more; where 50 % was read, 1 - 0.5 / 1.198 = 58 % does the same."""

    def told(altitude_m: float | None, *, elsewhere: bool = True, locked: bool = False) -> dict[str, Any] | None:
        book = BookWriter()
        book.keeper(altitude_m=altitude_m)
        place, lot = book.incubator(), {"lot": book.lot(), "family": book.family("Rowan"), "n": 12}
        lot |= {"from": {"who": "A. Moss"}} if elsewhere else {}
        start = START.isoformat().replace("+00:00", "Z")
        setting = book.write("set", {"place": place, "species": "chicken", "set_at": start, "lots": [lot]}, at=START)
        book.write("air", {"place": place, "dry_c": 37.5, "humidity_pct": 50}, at=START + timedelta(days=1))
        if locked:
            book.write("locked", {"setting": setting}, at=START + timedelta(days=18))
        found = setting_report(fold(book.entries()), setting, START + timedelta(days=19))["brought_up"]
        assert found is None or isinstance(found, dict)
        return found

    found = told(1500)
    assert found is not None
    assert (found["more_pct"], found["humidity_pct"]) == (pytest.approx(20, abs=1), pytest.approx(58, abs=0.5))
    assert "at 1500 m they lose 20 % more water" in found["words"]
    assert told(None) is None
    assert told(150) is None
    assert told(90_000) is None
    assert told(1500, elsewhere=False) is None
    assert told(1500, locked=True) is None
