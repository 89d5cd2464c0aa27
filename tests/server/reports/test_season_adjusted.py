"""Families with setting and egg age held alike: what the plain counts hide, and what cannot be told."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from scipy.special import expit, logit

from broodline.book.fold import fold
from broodline.reports.season import season_report
from tests.book_writer import START, BookWriter

NOW = datetime(2026, 12, 1, tzinfo=UTC)
Hatch = tuple[str, int, int] | tuple[str, int, int, int]


def season(*settings: Sequence[Hatch], **lot: Any) -> dict[str, Any]:
    """One finished setting a list: (family, hatched, eggs, age of the eggs in days if known)."""
    book = BookWriter()
    book.keeper()
    place = book.incubator()
    families = {name: book.family(name) for name in sorted({row[0] for rows in settings for row in rows})}
    for number, rows in enumerate(settings):
        set_at = START + timedelta(days=10 * number)
        lots = []
        for family, _, n, *age in rows:
            laid = {"laid_from": str(set_at.date() - timedelta(days=age[0]))} if age else {}
            lots.append({"lot": book.lot(), "family": families[family], "n": n, **laid, **lot.get(family, {})})
        body = {"place": place, "species": "chicken", "set_at": set_at.isoformat(), "lots": lots}
        book.write("set", body, at=set_at)
        for (_, k, n, *_), one in zip(rows, lots, strict=True):
            if k:
                book.move(one["lot"], "set", "hatched", k, at=set_at + timedelta(days=21))
            if n - k:
                book.move(one["lot"], "set", "unhatched", n - k, at=set_at + timedelta(days=22))
    return season_report(fold(book.entries()), 2026, NOW)


def test_a_bad_setting_is_not_blamed_on_the_family_that_was_in_it() -> None:
    """Rowan lay mostly in the good setting, Birch in the bad one; side by side they hatch alike (Simpson's paradox)."""
    found = season([("Rowan", 36, 40), ("Birch", 9, 10)], [("Rowan", 3, 10), ("Birch", 12, 40)])
    assert found["overall_test"]["p"] < 0.05
    adjusted = found["adjusted"]
    assert adjusted["sd"] == 0
    assert adjusted["p"] == 1
    assert adjusted["words"].startswith("With setting held alike these eggs do not separate the families.")
    assert adjusted["words"] in found["verdict"]
    assert len({round(one["rate"], 6) for one in adjusted["families"]}) == 1


def test_families_that_differ_in_every_setting_still_do() -> None:
    found = season(*[[("Rowan", 27, 30), ("Birch", 12, 30), ("Hazel", 20, 30)]] * 2)["adjusted"]
    assert [one["name"] for one in found["families"]] == ["Birch", "Hazel", "Rowan"]
    birch, hazel, rowan = found["families"]
    assert 12 / 30 < birch["rate"] < hazel["rate"] < rowan["rate"] < 27 / 30, "drawn towards each other"
    assert all(one["low"] < one["rate"] < one["high"] for one in found["families"])
    assert found["p"] < 0.01
    assert "the families still differ" in found["words"]
    assert (found["settings"], found["held_alike"]) == (2, ["setting"])


def test_egg_age_is_held_alike_where_it_varies_within_settings() -> None:
    """Both families lose the same with age; Birch's eggs were the old ones."""
    rows: list[list[Hatch]] = [
        [("Rowan", 45, 50, 2), ("Birch", 30, 50, 14)],
        [("Rowan", 45, 50, 2), ("Birch", 45, 50, 2)],
        [("Rowan", 30, 50, 14), ("Birch", 30, 50, 14)],
    ]
    found = season(*rows)["adjusted"]
    assert found["held_alike"] == ["setting", "egg age"]
    assert found["sd"] == 0
    assert found["words"] == "With setting and egg age held alike these eggs do not separate the families."


@pytest.mark.parametrize(
    ("ages", "held", "words"),
    [
        ((10, 10), ["setting"], "Egg age and setting went together"),
        ((3, 3), ["setting"], ""),
        (None, ["setting"], "The age of some eggs is not known"),
    ],
)
def test_what_stands_in_the_way_of_holding_age_alike_is_said(
    ages: tuple[int, int] | None, held: list[str], words: str
) -> None:
    def row(family: str, k: int, place: int) -> Hatch:
        return (family, k, 30) if ages is None else (family, k, 30, ages[place])

    rows = [[row("Rowan", 25, 0), row("Birch", 24, 1)], [row("Rowan", 20, 0), row("Birch", 21, 1)]]
    found = season(*rows)["adjusted"]
    assert found["held_alike"] == held
    assert words in found["words"]
    assert bool(words) == (not found["words"].endswith("separate the families."))


def test_families_never_beside_each_other_cannot_be_told_from_their_settings() -> None:
    found = season([("Rowan", 27, 30)], [("Birch", 12, 30)])
    assert found["adjusted"]["families"] == []
    assert found["adjusted"]["words"] == (
        "Birch; Rowan: never in one setting together, so what is the family's and what is the setting's cannot be told."
    )
    assert "never in one setting together" in found["verdict"]
    chained = season([("Rowan", 27, 30), ("Elm", 20, 30)], [("Elm", 20, 30), ("Birch", 12, 30)])
    assert len(chained["adjusted"]["families"]) == 3, "Elm stands beside both"


def test_settings_of_which_all_or_none_hatched_say_nothing_of_families() -> None:
    whole = season([("Rowan", 30, 30), ("Birch", 30, 30)], [("Rowan", 0, 30), ("Birch", 0, 30)])["adjusted"]
    assert whole["families"] == []
    assert whole["words"].startswith("Too few settings")
    one = season([("Rowan", 30, 30), ("Birch", 30, 30)], [("Rowan", 20, 30), ("Birch", 10, 30)])["adjusted"]
    assert one["settings"] == 1
    assert len(one["families"]) == 2


def test_one_setting_or_one_family_has_nothing_to_hold_alike() -> None:
    assert season([("Rowan", 20, 30), ("Birch", 12, 30)])["adjusted"] is None
    assert season([("Rowan", 20, 30)], [("Rowan", 12, 30)])["adjusted"] is None


def test_counts_too_few_to_hold_settings_alike_say_so() -> None:
    """In the first setting only Rowan's eggs hatched, all of them: no finite effect of that setting fits best."""
    found = season([("Rowan", 1, 1), ("Birch", 0, 1)], [("Rowan", 0, 1), ("Birch", 1, 1)])["adjusted"]
    assert found["words"]


def test_eggs_of_another_age_or_from_elsewhere_are_named() -> None:
    found = season([("Rowan", 25, 30, 2), ("Birch", 20, 30, 9)])
    assert "Birch's eggs were older when set, 9 days on average, the others' 2" in found["verdict"]
    assert "fresher" not in found["verdict"], "of two, that is said by the other"
    three = season([("Rowan", 25, 30, 2), ("Birch", 20, 30, 9), ("Alder", 20, 30, 2)])["verdict"]
    assert three.count("cannot be told") == 1
    assert "Alder's eggs were fresher when set, 2 days on average, the others' 6; Birch's eggs were older" in three
    bought = season([("Rowan", 25, 30), ("Birch", 20, 30)], Birch={"from": {"who": "a friend"}})
    assert "Birch's eggs were bought in, the others' were not" in bought["verdict"]
    alike = season([("Rowan", 25, 30, 2), ("Birch", 20, 30, 3)])
    assert "when set" not in alike["verdict"]


def test_the_holdings_own_cost_of_keeping_needs_a_hundred_eggs_of_each_sort() -> None:
    found = season([("Rowan", 40, 50, 2), ("Rowan", 35, 50, 12)])["storage"]
    assert found["own"] is None
    assert (found["eggs_beyond"], found["eggs_within"], found["needed"]) == (50, 50, 100)
    assert "so far there are 50 and 50" in found["words"]
    assert "Commercial flocks lose on average 0.5 points" in found["words"]
    assert found["source"] == "Field study on broilers' hatchability"


def test_the_holdings_own_cost_of_keeping() -> None:
    """80 of 100 kept 2 days, 60 of 100 kept 12: log odds fall by log(4) - log(1.5) in five days beyond the first week.

    At the common rate of 0.7 a unit of log odds is 21 points.
    """
    found = season([("Rowan", 80, 100, 2), ("Rowan", 60, 100, 12)])["storage"]
    slope = (logit(0.6) - logit(0.8)) / 5
    assert found["own"]["points_per_day"] == pytest.approx(21 * slope, abs=1e-3)
    error = (1 / 80 + 1 / 20 + 1 / 60 + 1 / 40) ** 0.5 / 5
    assert found["own"]["low"] == pytest.approx(21 * (slope - 1.96 * error), abs=1e-2)
    assert "100 eggs kept longer, beside 100 kept less, lost 4.1 points a day" in found["words"]
    assert expit(logit(0.8) + 5 * slope) == pytest.approx(0.6)
    unsure = season([("Rowan", 78, 100, 2), ("Rowan", 80, 100, 12)])["storage"]
    assert "gained 0.4 points a day" in unsure["words"]
    assert unsure["words"].endswith("which may be chance.")


def test_settings_of_one_age_or_unknown_age_say_nothing_of_keeping() -> None:
    found = season([("Rowan", 80, 100, 2), ("Birch", 80, 100, 2)], [("Rowan", 60, 100), ("Birch", 50, 100, 12)])
    assert (found["storage"]["eggs_beyond"], found["storage"]["eggs_within"]) == (0, 0)


def test_a_cost_that_no_number_fits_is_not_given() -> None:
    """All 100 fresh eggs hatched and none of the 100 old ones: no finite slope fits best."""
    found = season([("Rowan", 100, 100, 2), ("Rowan", 0, 100, 12)])["storage"]
    assert found["own"] is None
    assert found["words"].endswith("The 100 eggs kept longer and 100 kept less here fit no such figure.")
