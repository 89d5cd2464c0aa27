"""A keeper who says line and hatch reads line and hatch in all that is told; names of families stay as they are."""

import json
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.own_words import own_words
from broodline.reports.agenda import due
from broodline.reports.flock import flock_report
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter

NOW = datetime(2026, 7, 1, tzinfo=UTC)


def written(words: dict[str, str] | None) -> tuple[BookWriter, str]:
    """Two families in two settings: hatched far apart, many clear eggs; then eggs that are due for lockdown."""
    book = BookWriter()
    chosen: dict[str, Any] = {} if words is None else {"words": words}
    book.keeper(**chosen)
    box, rowan, other = book.incubator(), book.family("Rowan family"), book.family("Hazel")
    for days in (0, 60):
        lots = [(book.lot(), family, 40) for family in (rowan, other)]
        setting = book.set_eggs(box, lots, set_at=START + timedelta(days=days))
        for (lot, _, _), hatched in zip(lots, (34, 8), strict=True):
            at = START + timedelta(days=days + 21)
            book.move(lot, "set", "clear", 40 - hatched, at=START + timedelta(days=days + 7))
            book.move(lot, "set", "hatched", hatched, at=at)
    return book, setting


def told(book: BookWriter, setting: str) -> str:
    standing = fold(book.entries())
    on = START + timedelta(days=60 + 18)
    lot = book.lot()
    running = BookWriter()
    chosen: dict[str, Any] = {"words": standing.keeper.words} if standing.keeper.words else {}
    running.keeper(**chosen)
    running.set_eggs(running.incubator(), [(lot, running.family("Rowan"), 12)])
    reports = [
        season_report(standing, 2026, NOW),
        setting_report(standing, setting, NOW),
        flock_report(standing, NOW),
        due(fold(running.entries()), START + timedelta(days=17)),
        due(standing, on),
    ]
    words: list[str] = []

    def gather(value: object, key: str = "") -> None:
        if isinstance(value, dict):
            for name, inner in value.items():
                gather(inner, name)
        elif isinstance(value, list):
            for inner in value:
                gather(inner, key)
        elif isinstance(value, str) and " " in value and key not in {"source", "name", "likely"}:
            words.append(value)

    gather(json.loads(json.dumps(reports)))
    return "\n".join(words).replace("Rowan family", "Rowan")


@pytest.mark.parametrize(
    ("words", "family", "families", "setting"),
    [
        (None, "family", "families", "setting"),
        ({"family": "line", "hatch": "hatch"}, "line", "lines", "hatch"),
        ({"family": "strain", "hatch": "brood"}, "strain", "strains", "setting"),
    ],
)
def test_reports_speak_as_the_keeper_does(
    words: dict[str, str] | None, family: str, families: str, setting: str
) -> None:
    text = told(*written(words))
    assert f"The {families}' eggs hatched differently" in text
    assert f"age of the eggs and {setting} come together with the {family}." in text
    assert f"keep the {families} of 12 eggs apart" in text
    assert f"In every {family} (" in text
    for word in {"family", "families", "line", "lines", "strain", "strains"} - {family, families}:
        assert f" {word}" not in text, word


def test_words_that_nobody_offers_read_as_the_usual_ones() -> None:
    standing = fold(written({"family": "tribe"})[0].entries())
    assert own_words(standing.keeper).families == "families"
