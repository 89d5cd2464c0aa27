"""The early hatch of this season, now fifteen weeks old: ringed and sexed at eight weeks, weighed twice, scored."""

from seed_scenario.eggs import Setting
from seed_scenario.flock import FAMILIES, Chance
from seed_scenario.forebears import COLOURS
from seed_scenario.notebook import ORLA, Clock, Notebook, on

RINGED, WEIGHED, SCORED = -53, (-53, -2), -1
# Grams by the day of weighing: mean and standard deviation of cockerels and of pullets. Invented.
GRAMS = {-53: {"male": (720, 70), "female": (590, 55)}, -2: {"male": (1720, 140), "female": (1330, 95)}}
SCALE_STEP_G = 10


def bring_up(book: Notebook, setting: Setting, seed: str) -> None:
    """Every bird of the hatch by itself."""
    clock = Clock.at(RINGED, "17:00")
    birds: dict[str, list[tuple[str, str]]] = {}
    for lot in setting.lots.values():
        chance = Chance(f"{seed}/sexed/{lot.name}")
        for number in range(1, sum(egg.stage == "growing" for egg in lot.eggs) + 1):
            sex = "male" if chance.happens(0.5) else "female"
            text = f"{FAMILIES[lot.family].sign}{50 + number}"
            leg = "left" if sex == "male" else "right"
            body = {
                "sex": sex,
                "family": "@" + lot.family,
                "hatched_on": on(setting.set_day + 21),
                "lots": [{"lot": "@" + lot.name}],
                "tags": [{"kind": "ring", "colour": COLOURS[lot.family], "leg": leg, "text": text}],
            }
            name = book.write("bird", body, clock.tick(30), name=f"young_{lot.family}_{number}")
            birds.setdefault(lot.name, []).append((name, sex))
    for day in WEIGHED:
        clock = Clock.at(day, "18:30")
        for lot_name, held in birds.items():
            _weigh(book, lot_name, held, day, clock, seed)
    clock = Clock.at(SCORED, "15:00")
    for held in birds.values():
        for name, _ in held:
            _score(book, name, clock, seed)


def _weigh(book: Notebook, lot: str, held: list[tuple[str, str]], day: int, clock: Clock, seed: str) -> None:
    """A bird that is heavy for its sex at eight weeks is mostly so at fifteen."""
    for sex in ("male", "female"):
        weights = []
        for name in (name for name, own in held if own == sex):
            lasting = Chance(f"{seed}/grows/{name}").normal(0.0, 0.8)
            passing = Chance(f"{seed}/weighed/{name}/{day}").normal(0.0, 0.6)
            mean, sd = GRAMS[day][sex]
            grams = mean + sd * (lasting + passing)
            weights.append({"bird": "@" + name, "mass_g": SCALE_STEP_G * round(grams / SCALE_STEP_G)})
        if weights:
            body = {"lot": "@" + lot, "birds": weights, "sex": sex, "on": on(day)}
            book.write("weighed", body, clock.tick(25 * len(weights)))


def _score(book: Notebook, name: str, clock: Clock, seed: str) -> None:
    """Out of 40 for type, 30 for colour, 20 for the comb, 10 for the legs; a crooked toe costs 8."""
    chance = Chance(f"{seed}/scored/{name}")
    scores: dict[str, int] = {
        trait: min(most, round(chance.normal(0.82 * most, 0.07 * most)))
        for trait, most in (("type", 40), ("colour", 30), ("comb", 20), ("legs", 10))
    }
    if chance.happens(0.12):
        scores["crooked toe"] = -8
    book.write("scored", {"bird": "@" + name, "on": on(SCORED), "scores": scores}, clock.tick(40), by=ORLA)
