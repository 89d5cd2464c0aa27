"""Birds kept out of a brood that were sold or died since: gone from its count and its curve, and never fed with its
young."""

from datetime import timedelta

import pytest

from broodline.trade.survival import Fate, survival
from tests.server.reports.test_brood import OUT, Nest


def kept_nest() -> Nest:
    """Twelve chicks, ten kept on day 60 as birds of their own; four sold on day 70, two dead on day 80."""
    nest = Nest(12)
    nest.move("brooding", "growing", 12, days=40)
    nest.move("growing", "flock", 10, days=60)
    birds = [nest.book.write("bird", {"sex": "female", "lots": [{"lot": nest.lot}]}) for _ in range(10)]
    for bird in birds[:4]:
        leave(nest, bird, "sold", 70)
    for bird in birds[4:6]:
        leave(nest, bird, "died", 80)
    return nest


def leave(nest: Nest, bird: str, how: str, days: float) -> None:
    on = (OUT + timedelta(days=days)).date().isoformat()
    nest.book.write("left", {"bird": bird, "on": on, "how": how}, at=OUT + timedelta(days=days))


def test_birds_kept_and_gone_since_are_not_alive_and_only_the_young_are_fed() -> None:
    found = kept_nest().report(90)
    assert (found["alive"], found["alive_least"], found["young"]) == (6, 6, 2)
    assert found["birds_left"] == {"sold": 4, "died": 2}
    assert [one["n"] for one in found["places"]] == [2]
    for part in ("floor_m2", "feeder_cm"):
        assert found["space"][part] == pytest.approx([2 * end for end in found["space"]["per_bird"][part]])
    assert found["feed"]["today_g"] == pytest.approx([2 * end for end in found["feed"]["per_bird_g"]])
    assert found["water_ml"] == pytest.approx([2 * end for end in found["water"]["per_bird_ml"]])
    assert found["to_watch"]["alarm_from"] == 2, "two are left to die"
    assert kept_nest().report(75)["alive"] == 8, "those that will die on day 80 live on day 75"


def test_the_curve_takes_sold_birds_out_alive_and_dead_ones_as_dead() -> None:
    """Twelve until day 70, eight from then on, of which two die on day 80: 6 of 8 = 0.75."""
    found = kept_nest().report(90)
    (step,) = survival([Fate(70, 4, died=False), Fate(80, 2, died=True), Fate(90, 6, died=False)])
    (own,) = found["survival"]["points"]
    assert (own["day"], own["at_risk"], own["died"], own["rate"]) == (80, 8, 2, 0.75)
    assert (own["low"], own["high"]) == (step.low, step.high)
    (group,) = found["survival_by"]["groups"]
    assert (group["n"], group["points"]) == (12, [own])


def test_a_bird_that_died_past_the_end_of_the_curve_counts_as_seen_until_then() -> None:
    nest = Nest(12)
    nest.move("brooding", "flock", 12, days=60)
    leave(nest, nest.book.write("bird", {"sex": "male", "lots": [{"lot": nest.lot}]}), "died", 300)
    found = nest.report(400)
    assert (found["alive"], found["young"], found["survival"]["points"]) == (11, 0, [])
    assert found["survival_by"]["groups"][0]["last_day"] == 60


def test_a_hatch_was_followed_until_the_last_of_its_birds_that_died() -> None:
    nest = Nest(12)
    nest.move("brooding", "flock", 12, days=60)
    leave(nest, nest.book.write("bird", {"sex": "male", "lots": [{"lot": nest.lot}]}), "lost", 100)
    (group,) = nest.report(400)["survival_by"]["groups"]
    assert (group["last_day"], [step["day"] for step in group["points"]]) == (100, [100])
