"""The report of a brood: by hand, and against chicks walked through their days one by one."""

import random
from datetime import datetime, timedelta
from typing import Any

import pytest
from scipy.stats import binom

from broodline.book.fold import fold
from broodline.errors import NotFound
from broodline.reports.brood import brood_report
from tests.book_writer import START, BookWriter
from tests.server.oracles.chicks_one_by_one import Chick, share_alive

OUT = START + timedelta(days=21)


class Nest:
    """A book with a setting whose chicks came out at OUT and stand in a brooder."""

    def __init__(self, chicks: int = 12, species: str = "chicken", role: str = "brooder", **keeper: Any) -> None:
        self.book = BookWriter()
        self.book.keeper(**keeper)
        self.lot = self.book.lot()
        self.family = self.book.family("Rowan", species)
        self.box = self.book.incubator()
        self.place = self.book.write("place", {"name": "Brooder one", "role": role})
        self.book.set_eggs(self.box, [(self.lot, self.family, 20)], species=species)
        self.move("set", "hatched", chicks, days=0)
        self.move("hatched", "brooding", chicks, days=0.5, place=self.place)

    def move(self, source: str, target: str, n: int = 1, *, days: float, **more: Any) -> None:
        self.book.move(self.lot, source, target, n, at=OUT + timedelta(days=days), **more)

    def report(self, days: float) -> dict[str, Any]:
        return brood_report(fold(self.book.entries()), self.lot, OUT + timedelta(days=days))


@pytest.fixture
def nest() -> Nest:
    return Nest()


def test_a_brood_on_its_tenth_day(nest: Nest) -> None:
    nest.move("brooding", "died", days=4.2, cause="weak")
    nest.move("brooding", "parted", 2, days=6, why="left")
    found = nest.report(10.5)
    assert (found["family_name"], found["species"], found["age_days"], found["alive"]) == ("Rowan", "chicken", 10, 9)
    assert found["hatched_at"] == "2026-03-22T08:00:00.000Z"
    assert found["stages"]["brooding"] == 9
    assert [(one["place_name"], one["n"], one["with"]) for one in found["places"]] == [("Brooder one", 9, [])]
    (step,) = found["survival"]["points"]
    assert (step["day"], step["at_risk"], step["died"], step["rate"]) == (4, 12, 1, pytest.approx(11 / 12))
    assert 0 < step["low"] < step["rate"] < step["high"] < 1
    assert found["survival"]["median_day"] is None
    assert (found["heat"]["low_c"], found["heat"]["high_c"]) == pytest.approx((29.44, 32.22), abs=0.01)
    assert (found["heat"]["next"]["on"], found["heat"]["next"]["day"]) == ("2026-04-05", 14)
    assert found["problems"] == []


def test_quail_between_the_first_week_and_the_end_of_heat_go_by_the_chicks() -> None:
    """Off heat by about 3 to 4 weeks, from memory; no figure was read for day 10."""
    quail = Nest(species="coturnix")
    first, then = quail.report(3)["heat"], quail.report(10)["heat"]
    assert (first["by_chicks"], first["next"]["by_chicks"], first["next"]["day"]) == (False, True, 7)
    assert (then["by_chicks"], then["low_c"], then["high_c"]) == (True, None, None)
    assert (then["off_from"], then["off_on"], then["status"]) == ("2026-04-12", "2026-04-19", "memory")
    assert quail.report(27.9)["heat"]["next"]["by_chicks"] is False
    assert quail.report(28)["heat"] is None


def test_the_first_week_of_few_chicks_says_how_few(nest: Nest) -> None:
    """One of ten: parted chicks leave the count; beside it stands the commercial figure as just that."""
    nest.move("brooding", "died", days=4)
    nest.move("brooding", "parted", 2, days=6)
    assert nest.report(6.9)["first_week"]["rate"] is None
    week = nest.report(8)["first_week"]
    assert (week["k"], week["n"], week["words"]) == (1, 10, "1 of 10; one death is no pattern")
    assert week["rate"] == pytest.approx(0.1)
    assert week["commercial"]["most_pct"] == 1
    assert "Commercial flocks" in week["commercial"]["words"]
    assert week["advice"] is None, "one death is no pattern"
    nest.move("brooding", "died", days=5)
    two = nest.report(8)["first_week"]
    assert (two["words"], two["commercial"]["where"]) == ("2 of 10", "above")
    assert "vet" in two["advice"]


def test_missing_chicks_are_lost_until_found_and_culled_ones_are_no_deaths(nest: Nest) -> None:
    nest.move("brooding", "unaccounted", 2, days=3)
    nest.move("brooding", "culled", days=3)
    assert [(one["day"], one["at_risk"], one["died"]) for one in nest.report(9)["survival"]["points"]] == [(3, 12, 2)]
    week = nest.report(9)["first_week"]
    assert (week["k"], week["n"], week["culled"]) == (2, 12, 1)
    nest.move("unaccounted", "brooding", 2, days=4)
    assert nest.report(9)["survival"]["points"] == []


def test_three_dead_on_a_day_alarm_and_a_fox_does_not() -> None:
    nest = Nest(chicks=20)
    nest.move("brooding", "died", 3, days=9.2, cause="predator_fox")
    assert nest.report(12)["alarms"] == []
    nest.move("brooding", "died", 3, days=10.2, cause="unknown")
    (alarm,) = nest.report(12)["alarms"]
    assert (alarm["on"], alarm["day"], alarm["died"]) == ("2026-04-01", 10, 3)
    assert alarm["expected"] == pytest.approx(17 * 0.002 / 7), "17 on that morning, 0.2 % a week"
    assert 0 < alarm["p"] < 0.0027
    assert "vet" in alarm["words"]
    assert "Our judgement" in alarm["source"]


def test_what_would_be_too_many_is_said_before_it_happens() -> None:
    """Of 12 at 0.2 % a week: by scipy's binomial one death is likelier than 0.27 % and two are not."""
    young, grown = Nest(chicks=12).report(4)["to_watch"], Nest(chicks=12).report(18 * 7)["to_watch"]
    assert binom.sf(1, 12, 0.01 / 7) < 0.0027 < binom.sf(0, 12, 0.01 / 7)
    assert (young["alarm_from"], young["alive_pct"]) == (2, None)
    assert young["words"] == ["2 or more dead on one day would be more than chance at this age."]
    assert grown["alive_pct"] == pytest.approx((96.65, 99.15), abs=0.005), "0.05 to 0.2 % a week, 17 weeks (Bell 1999)"
    assert "keep 96.7 to 99.2" in grown["words"][-1]
    assert Nest(chicks=1).report(4)["to_watch"]["alarm_from"] is None, "of one chick no number alarms"


def test_feed_to_buy_is_that_of_the_next_28_days(nest: Nest) -> None:
    """By hand, the first four weeks of meat pullets and cockerels in NRC 1984 (week 4 of the pullets by its total):
    110 + 240 + 355 + 500 and 120 + 260 + 390 + 535 g a bird; both are of one source, so a tenth less and more."""
    assert nest.report(0.6)["feed"]["meat"]["four_weeks_kg"] == pytest.approx([0.9 * 12 * 1.205, 1.1 * 12 * 1.305])


def test_a_hen_is_the_heat_and_unread_species_have_no_figures() -> None:
    assert Nest(role="hen").report(3)["heat"] is None
    found = Nest(species="peafowl").report(3)
    assert (found["heat"], found["space"], found["water_ml"], found["feed"]["today_g"]) == (None,) * 4
    assert found["first_week"]["commercial"] is None
    assert "No source" in found["feed"]["words"]


def test_the_look_by_which_half_were_out_dates_the_brood() -> None:
    """3 at 08:00, 6 at 20:00 and one more 10 minutes later: half of the ten are out by the look that ends 20:10."""
    nest = Nest(chicks=3)
    nest.move("set", "hatched", 6, days=0.5)
    nest.move("set", "hatched", 1, days=0.5 + 10 / 1440)
    assert nest.report(3)["hatched_at"] == "2026-03-22T20:10:00.000Z"


def test_chicks_that_came_as_a_lot() -> None:
    book = BookWriter()
    book.keeper()
    family = book.family("Rowan")
    came = {"n": 6, "family": family, "on": "2026-03-10", "how": "bought"}
    for lot, hatched in (("first", "2026-03-01"), ("second", None)):
        book.write("came", {**came, "lot": lot} | ({"hatched_on": hatched} if hatched else {}))
    standing = fold(book.entries())
    known = brood_report(standing, "first", datetime.fromisoformat("2026-03-15T13:00:00Z"))
    assert (known["age_days"], known["alive"], known["first_week"]["n"]) == (14, 6, 0)
    unknown = brood_report(standing, "second", datetime.fromisoformat("2026-03-15T13:00:00Z"))
    assert (unknown["age_days"], unknown["heat"], unknown["feed"]["today_g"]) == (None, None, None)
    assert unknown["survival"]["points"] == []
    with pytest.raises(NotFound):
        brood_report(standing, "nobody", START)


def test_two_lots_in_one_place_are_told_apart_or_it_is_said(nest: Nest) -> None:
    other = nest.book.lot()
    came = {"lot": other, "n": 4, "family": nest.book.family("Hazel"), "on": "2026-03-23", "how": "given"}
    nest.book.write("came", {**came, "hatched_on": "2026-03-01"})
    nest.book.move(other, "brooding", "brooding", 4, at=OUT + timedelta(days=2), place=nest.place)
    found = nest.report(5)
    assert [one["code"] for one in found["problems"]] == ["marks_alike", "ages_together"]
    assert "Hazel" in found["problems"][0]["message"]
    assert [(one["n"], one["age_days"]) for one in found["places"][0]["with"]] == [(4, 25)]
    nest.book.write("marked", {"lot": nest.lot, "webs": ["LO"]})
    nest.book.write("marked", {"lot": other, "webs": ["RO"]})
    assert [one["code"] for one in nest.report(5)["problems"]] == ["ages_together"]
    nest.book.write("marked", {"lot": other, "webs": ["LO"]})
    assert "marks_alike" in [one["code"] for one in nest.report(5)["problems"]]


def test_chicks_that_only_moved_house_go_where_they_were_moved(nest: Nest) -> None:
    pen = nest.book.write("place", {"name": "Orchard", "role": "pen"})
    nest.move("brooding", "brooding", 5, days=20, place=pen)
    nest.move("brooding", "growing", 3, days=30)
    places = {one["place_name"]: one["stages"] for one in nest.report(31)["places"]}
    assert places == {"Brooder one": {"brooding": 4, "growing": 3}, "Orchard": {"brooding": 5}}
    nest.move("brooding", "died", days=32, place=pen)
    places = {one["place_name"]: one["n"] for one in nest.report(33)["places"]}
    assert places == {"Brooder one": 7, "Orchard": 4}


def test_survival_of_random_broods_is_that_of_chicks_one_by_one() -> None:
    chance = random.Random(7)
    for _ in range(40):
        nest = Nest(chicks=chance.randint(4, 20))
        alive = nest.report(0.6)["alive"]
        chicks: list[Chick] = []
        age = chance.randint(1, 40)
        days = sorted(chance.uniform(0.6, age) for _ in range(chance.randint(0, 6)))
        for day in days:
            n = chance.randint(0, alive)
            how = chance.choice(["died", "culled", "parted", "unaccounted"])
            if n:
                nest.move("brooding", how, n, days=day)
                chicks += [Chick(int(day), how in ("died", "unaccounted"))] * n
                alive -= n
        chicks += [Chick(age, lost=False)] * alive
        told = nest.report(age + 0.1)["survival"]["points"]
        expected = share_alive(chicks)
        assert [(one["day"], one["at_risk"], one["died"]) for one in told] == [step[:3] for step in expected]
        assert [one["rate"] for one in told] == pytest.approx([step[3] for step in expected])


def test_a_brood_in_which_some_were_sold_and_culled_is_that_of_lifelines() -> None:
    """As trade/test_survival.py keeps it: the rates and intervals that lifelines 0.30.3 printed for such a brood."""
    nest = Nest(chicks=20)
    for day, n, how in ((1, 2, "died"), (3, 1, "died"), (5, 3, "parted"), (9, 1, "unaccounted"), (12, 1, "culled"),
                        (20, 2, "died")):  # fmt: skip
        nest.move("brooding", how, n, days=day + 0.2)
    points = nest.report(28.3)["survival"]["points"]
    printed = [
        (1, 20, 2, 0.9, 0.656031, 0.97401), (3, 18, 1, 0.85, 0.60379, 0.948996),
        (9, 14, 1, 0.789286, 0.528596, 0.91592), (20, 12, 2, 0.657738, 0.384984, 0.83204),
    ]  # fmt: skip
    for one, row in zip(points, printed, strict=True):
        assert tuple(one.values()) == pytest.approx(row, abs=1e-6)


def two_families(dead: int) -> tuple[BookWriter, str, str]:
    """Twenty Rowan and twenty Hazel of one hatch; so many of Hazel die on day 3, one Rowan of an earlier hatch too."""
    book = BookWriter()
    book.keeper()
    rowan, hazel = book.family("Rowan"), book.family("Hazel")
    box, lots = book.incubator(), [book.lot() for _ in range(3)]
    book.set_eggs(box, [(lots[0], rowan, 20), (lots[1], hazel, 20)])
    book.set_eggs(box, [(lots[2], rowan, 10)], set_at=START - timedelta(days=30))
    for lot, out in ((lots[0], OUT), (lots[1], OUT), (lots[2], OUT - timedelta(days=30))):
        book.move(lot, "set", "hatched", 10 if lot == lots[2] else 20, at=out)
    if dead:
        book.move(lots[1], "hatched", "died", dead, at=OUT + timedelta(days=3.2))
    book.move(lots[2], "hatched", "died", 1, at=OUT - timedelta(days=25))
    return book, lots[0], lots[1]


def test_survival_by_family_and_hatch() -> None:
    """Hazel loses 8 of 20 where Rowan loses none: chi-square 9.75, p 0.001793 (logrank_test of lifelines 0.30.3)."""
    book, rowan, hazel = two_families(8)
    found = brood_report(fold(book.entries()), rowan, OUT + timedelta(days=10))["survival_by"]
    told = [
        (one["family_name"], one["hatched_on"], one["n"], [point["rate"] for point in one["points"]])
        for one in found["groups"]
    ]
    assert told == [
        ("Rowan", "2026-03-22", 20, []),
        ("Hazel", "2026-03-22", 20, [pytest.approx(0.6)]),
        ("Rowan", "2026-02-20", 10, [pytest.approx(0.9)]),
    ]
    assert found["words"] == "Hazel lost more chicks, or sooner, than Rowan, beyond chance."
    of_hazel = brood_report(fold(book.entries()), hazel, OUT + timedelta(days=10))["survival_by"]
    assert [one["family_name"] for one in of_hazel["groups"]] == ["Hazel", "Rowan"]


def test_a_family_that_lost_its_chicks_sooner_is_named_though_more_of_it_are_left() -> None:
    """64 of Rowan's 130 die on day 1, 68 of Hazel's 130 on day 100: O - E of Rowan 64 - 32 - 68 x 66 / 196 = 9.1, of
    variance 12.1 + 10.0 (log-rank by hand): chi-square 3.75, too little. 74 and 76: 74 - 37 - 76 x 56 / 186 = 14.1.
    """
    for rowans, hazels, words in ((64, 68, "No difference"), (74, 76, "Rowan lost more chicks, or sooner, than Hazel")):
        book = BookWriter()
        book.keeper()
        lots = [book.lot(), book.lot()]
        book.set_eggs(book.incubator(), [(lots[0], book.family("Rowan"), 130), (lots[1], book.family("Hazel"), 130)])
        for lot, died, days in ((lots[0], rowans, 1.2), (lots[1], hazels, 100.2)):
            book.move(lot, "set", "hatched", 130, at=OUT)
            book.move(lot, "hatched", "died", died, at=OUT + timedelta(days=days))
        found = brood_report(fold(book.entries()), lots[0], OUT + timedelta(days=120))["survival_by"]
        assert found["words"].startswith(words)


def test_a_hatch_was_followed_until_its_last_chick_joined_the_flock_and_half_a_year_at_most() -> None:
    nest = Nest()
    assert nest.report(30)["survival_by"]["groups"][0]["last_day"] == 30
    assert nest.report(400)["survival_by"]["groups"][0]["last_day"] == 180
    nest.move("brooding", "flock", 12, days=120.5)
    assert nest.report(400)["survival_by"]["groups"][0]["last_day"] == 120


def test_families_that_chance_explains_are_not_told_apart() -> None:
    for dead in (0, 1):
        book, rowan, _ = two_families(dead)
        found = brood_report(fold(book.entries()), rowan, OUT + timedelta(days=10))["survival_by"]
        assert found["words"] == "No difference between the families of this hatch that chance does not explain."
    alone = Nest().report(9)["survival_by"]
    assert (alone["words"], len(alone["groups"])) == (None, 1)
    assert brood_report(fold(book.entries()), rowan, OUT - timedelta(days=10))["survival_by"]["groups"] != []
