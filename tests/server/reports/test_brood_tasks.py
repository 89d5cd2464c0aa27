"""What a brood asks for by age: by hand, each task and what makes it done. Mirrored by tests/vectors/agenda.json."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.agenda import due
from tests.server.reports.test_brood import OUT, Nest


def asked(nest: Nest, days: float) -> list[tuple[str, int, bool]]:
    found = due(fold(nest.book.entries()), OUT + timedelta(days=days))["tasks"]
    return [
        (task["task"], task["n"], task["overdue"])
        for task in found
        if task["task"] not in ("open", "hatch", "lockdown")
    ]


def names(nest: Nest, days: float) -> set[str]:
    return {task for task, _, _ in asked(nest, days)}


def write(nest: Nest, kind: str, days: float, **body: Any) -> None:
    nest.book.write(kind, body, at=OUT + timedelta(days=days))


def care(nest: Nest, task: str, days: float) -> None:
    write(nest, "care", days, task=task, place=nest.place, on=(OUT + timedelta(days=days)).date().isoformat())


@pytest.fixture
def nest() -> Nest:
    return Nest()


def test_the_first_days(nest: Nest) -> None:
    """Water and drinkers daily; non-eaters are looked for on days 3 to 6 only; heat a week ahead."""
    assert asked(nest, 1) == [
        ("drinkers", 12, False),
        ("water", 12, False),
        ("pan", 12, False),
        ("heat", 12, False),
    ]
    assert "eat" not in names(nest, 2.9)
    assert {"eat"} <= names(nest, 3.1) & names(nest, 6.9)
    assert "eat" not in names(nest, 7.1)


def test_what_is_done_is_asked_no_more_that_day(nest: Nest) -> None:
    write(nest, "brooder_check", 3.1, place=nest.place, water=True)
    care(nest, "eat", 3.1)
    care(nest, "drinkers", 3.1)
    care(nest, "pan", 3.1)
    assert names(nest, 3.2) == {"heat"}
    assert names(nest, 4.1) == {"drinkers", "eat", "heat", "water"}


def test_weak_chicks_have_vitamins_for_three_days(nest: Nest) -> None:
    assert "vitamins" not in names(nest, 1)
    nest.move("set", "hatched", days=0.1, weak=True)
    assert "vitamins" in names(nest, 1) & names(nest, 3.5)
    assert "vitamins" not in names(nest, 4.1)


def test_heat_is_lowered_weekly_until_it_may_come_off(nest: Nest) -> None:
    """90, 85, 80, 75, 70 °F: after a week 85 to 90, on day 35 70; from day 42 none. Late until done or the next."""
    told = due(fold(nest.book.entries()), OUT + timedelta(days=7.1))["tasks"]
    heat = [task for task in told if task["task"] == "heat"]
    assert [(task["due"], task["overdue"]) for task in heat] == [("2026-03-29", False), ("2026-04-05", False)]
    assert "to 29 to 32 °C" in heat[0]["words"]
    assert ("heat", 12, True) in asked(nest, 9)
    write(nest, "brooder_check", 9, place=nest.place, heat_c=31.0)
    assert ("heat", 12, True) not in asked(nest, 9.1)
    last = [task["words"] for task in due(fold(nest.book.entries()), OUT + timedelta(days=41))["tasks"]]
    assert any("need no more heat" in words for words in last)
    assert "heat" not in names(nest, 50)


def test_quail_keep_their_heat_until_it_ends(nest: Nest) -> None:
    """From memory: 95 to 100 °F at first, off at 3 to 4 weeks. Between them the chicks say, week by week; a look is
    enough. Told from day 7 that they need none, they would die."""
    quail = Nest(species="coturnix")
    for day in range(28):
        told = due(fold(quail.book.entries()), OUT + timedelta(days=day + 0.5))["tasks"]
        heat = [task for task in told if task["task"] == "heat"]
        assert heat
        ended = [task["due"] for task in heat if "need no more heat" in task["words"]]
        assert ended in ([], ["2026-04-19"]), "day 28"
        assert bool(ended) == (day >= 21), "a week ahead"
        assert all("Go by how the 12 chicks" in one["words"] for one in heat if one["due"] < "2026-04-19")
    assert "between day 21 and day 28, not checked" in heat[0]["words"]
    write(quail, "brooder_check", 21.2, place=quail.place, look="spread")
    (last,) = [
        one for one in due(fold(quail.book.entries()), OUT + timedelta(days=21.5))["tasks"] if one["task"] == "heat"
    ]
    assert last["due"] == "2026-04-19"
    write(nest, "brooder_check", 7.2, place=nest.place, look="spread")
    assert "2026-03-29" in {
        one["due"]
        for one in due(fold(nest.book.entries()), OUT + timedelta(days=7.5))["tasks"]
        if one["task"] == "heat"
    }, "chicks with a band are told the band until someone has read the thermometer"


def test_a_keeper_may_read_fahrenheit() -> None:
    told = due(fold(Nest(temperature="F").book.entries()), OUT + timedelta(days=7.1))["tasks"]
    assert any("to 85 to 90 °F" in task["words"] for task in told)


def next_batch(nest: Nest, days: float, n: int = 8) -> str:
    """Another batch that came out on a day and stands in the same brooder."""
    lot = nest.book.lot()
    out = OUT + timedelta(days=days)
    nest.book.set_eggs(nest.box, [(lot, nest.family, 20)], set_at=out - timedelta(days=21))
    nest.book.move(lot, "set", "hatched", n, at=out)
    nest.book.move(lot, "hatched", "brooding", n, at=out + timedelta(hours=12), place=nest.place)
    return lot


def test_what_is_not_asked_for_these_birds_is_asked_for_the_next_in_that_brooder(nest: Nest) -> None:
    silent = Nest()
    for one in (nest, silent):
        if one is silent:
            for task in names(one, 8):
                write(one, "care", 8, task=task, place=one.place, on="2026-09-27")
            assert names(one, 20) == set(), "these birds are left alone until then"
        one.move("brooding", "parted", 12, days=40, why="left")
        next_batch(one, 61)
    assert names(nest, 69) == names(silent, 69) >= {"water", "drinkers", "litter", "raise"}


def test_a_task_put_off_for_one_batch_is_asked_for_the_one_that_joins_it(nest: Nest) -> None:
    write(nest, "care", 0.6, task="pan", place=nest.place, on="2026-09-27")
    write(nest, "care", 0.6, task="water", place=nest.place, on="2026-09-27")
    assert names(nest, 1.1) & {"pan", "water"} == set()
    next_batch(nest, 0.2)
    found = dict.fromkeys(asked(nest, 1.3))
    assert ("pan", 8, False) in found, "of age: for those alone that it was not put off for"
    assert ("water", 20, False) in found, "a chore of the place: for all that stand there"


def test_a_task_that_is_done_is_done_for_birds_that_come_later_that_day_too(nest: Nest) -> None:
    care(nest, "drinkers", 0.6)
    next_batch(nest, 0.12)
    assert ("water", 20, False) in asked(nest, 0.65)
    assert "drinkers" not in names(nest, 0.65)


def test_a_dust_bath_put_off_says_nothing_of_the_next_batch(nest: Nest) -> None:
    """Filled on day 30, due two weeks later; what was put off for others does not move that day."""
    other = Nest()
    for one in (nest, other):
        if one is other:
            write(one, "care", 1, task="dust_bath", place=one.place, on="2026-09-27")
        one.move("brooding", "parted", 12, days=2, why="left")
        lot = next_batch(one, 3)
        one.book.move(lot, "brooding", "growing", 8, at=OUT + timedelta(days=29), place=one.place)
        care(one, "dust_bath", 30)
    assert "dust_bath" in names(nest, 44.5)
    assert "dust_bath" in names(other, 44.5)


def test_under_a_hen_only_water_is_asked() -> None:
    assert names(Nest(role="hen"), 1) == {"water"}


def test_feed_changes_at_six_weeks_and_litter_weekly(nest: Nest) -> None:
    assert "feed" not in names(nest, 34)
    assert ("feed", 12, False) in asked(nest, 36)
    assert ("feed", 12, True) in asked(nest, 44)
    care(nest, "feed", 44)
    assert "feed" not in names(nest, 45)
    assert "litter" in names(nest, 8)
    write(nest, "brooder_check", 8, place=nest.place, litter=True)
    assert "litter" not in names(nest, 9)
    assert "litter" in names(nest, 15)


def test_paper_gives_way_to_a_pan_and_feeders_rise_weekly(nest: Nest) -> None:
    assert ("pan", 12, True) in asked(nest, 5)
    assert "pan" not in names(nest, 7.1), "done or not, later it is too late"
    assert "raise" not in names(nest, 6.9)
    assert "raise" in names(nest, 7.1)
    care(nest, "raise", 7.1)
    assert "raise" not in names(nest, 13.9)
    assert "raise" in names(nest, 14.1)
    assert "raise" not in names(nest, 92)


def test_grit_of_the_next_size_at_4_and_8_weeks_for_chickens_alone(nest: Nest) -> None:
    """1 to 2, 2 to 4 and 4 to 6 mm by the table of sizes, which is of chickens."""

    def grit(days: float) -> list[str]:
        found = due(fold(nest.book.entries()), OUT + timedelta(days=days))["tasks"]
        return [task["words"] for task in found if task["task"] == "grit"]

    assert grit(20) == []
    assert [words[:19] for words in grit(28.1)] == ["Grit of 2 to 4 mm f"]
    assert [words[:19] for words in grit(56.1)] == ["Grit of 4 to 6 mm f"]
    assert grit(85) == []
    assert "grit" not in names(Nest(species="duck"), 28.1)


def test_rings_of_day_old_chicks_are_changed_at_3_and_6_weeks(nest: Nest) -> None:
    assert "ring_size" not in names(nest, 21.1), "they wear none"
    first = write_mark(nest, 1)
    assert ("ring_size", 12, False) in asked(nest, 21)
    write_mark(nest, 15, replaces=first)
    assert "ring_size" not in names(nest, 22)
    assert ("ring_size", 12, False) in asked(nest, 40)
    care(nest, "ring_size", 42.1)
    assert "ring_size" not in names(nest, 43)


def write_mark(nest: Nest, days: float, **more: Any) -> str:
    tag = {"kind": "ring", "colour": "blue", "leg": "left"}
    return nest.book.write("marked", {"lot": nest.lot, "tag": tag, **more}, at=OUT + timedelta(days=days))


def test_a_dust_bath_is_asked_for_once_chosen_and_never_where_there_is_heat(nest: Nest) -> None:
    """Off until the keeper chooses it (common practice for the mix; two weeks are our judgement)."""
    assert "dust_bath" not in names(nest, 60)
    care(nest, "dust_bath", 30)
    assert "dust_bath" not in names(nest, 44), "they are under heat"
    nest.move("brooding", "growing", 12, days=40)
    assert ("dust_bath", 12, True) in asked(nest, 46)
    care(nest, "dust_bath", 46)
    assert "dust_bath" not in names(nest, 50)
    assert "dust_bath" in names(nest, 54), "a week ahead"
    care(nest, "dust_bath", 3000)
    assert "dust_bath" not in names(nest, 80), "silenced by a care far ahead"


def test_a_dust_bath_of_earlier_birds_is_not_theirs(nest: Nest) -> None:
    care(nest, "dust_bath", -30)
    nest.move("brooding", "growing", 12, days=40)
    assert "dust_bath" not in names(nest, 46)


def test_weighing_at_8_12_and_16_weeks_is_done_by_weighing(nest: Nest) -> None:
    assert ("weigh", 12, False) in asked(nest, 56)
    birds = [{"mass_g": 800.0}]
    nest.book.write("weighed", {"lot": nest.lot, "birds": birds, "on": "2026-05-16"})  # 55 days old
    assert "weigh" not in names(nest, 57)
    assert "weigh" in names(nest, 80)


def test_a_keeper_silences_a_task_by_a_care_far_ahead(nest: Nest) -> None:
    write(nest, "care", 1, task="drinkers", on="2027-01-01")
    assert not any("drinkers" in names(nest, day) for day in (1, 20, 60))


def test_two_lots_in_one_brooder_are_asked_for_once(nest: Nest) -> None:
    other = nest.book.lot()
    came = {"lot": other, "n": 4, "family": nest.family, "on": "2026-03-23", "how": "given", "hatched_on": "2026-03-22"}
    nest.book.write("came", came)
    nest.book.move(other, "brooding", "brooding", 4, at=OUT + timedelta(days=1), place=nest.place)
    assert {(task, n) for task, n, _ in asked(nest, 4.5)} == {
        (task, 16) for task in ("drinkers", "eat", "heat", "pan", "water")
    }
    (heat,) = [
        task for task in due(fold(nest.book.entries()), OUT + timedelta(days=4.5))["tasks"] if task["task"] == "heat"
    ]
    assert (heat["lot"], heat["setting"]) == (None, None)


def test_chicks_of_nobody_knows_where_or_when_ask_for_nothing(nest: Nest) -> None:
    other = nest.book.lot()
    nest.book.write("came", {"lot": other, "n": 4, "on": "2026-03-23", "how": "given", "hatched_on": "2026-03-22"})
    assert all(n == 12 for _, n, _ in asked(nest, 4.5))
    nest.book.move(other, "brooding", "brooding", 4, at=OUT + timedelta(days=1), place=nest.place)
    assert ("water", 16, False) in asked(nest, 4.5)
