"""The daily round: air, turning, weighing trays, a power cut, and the chicks in the brooder."""

from seed_scenario.eggs import Lot, Setting
from seed_scenario.flock import FAMILIES, Chance
from seed_scenario.notebook import MARA, ORLA, Clock, Notebook, moment, on

MORNING = "06:30"
TRAY_G = 212
SCALE_STEP_G = 1
# Dry bulb and humidity that each machine is kept at: forced air, still air at the top of the eggs, hatcher.
KEPT_AT = {"loft_box": (37.6, 52.0), "cabinet": (38.7, 56.0), "hatcher": (37.2, 70.0)}


def air_of(book: Notebook, place: str, from_day: int, until_day: int, seed: str) -> None:
    """A reading each morning, from the morning after setting on."""
    dry_c, humidity_pct = KEPT_AT[place]
    for day in range(from_day + 1, until_day + 1):
        chance = Chance(f"{seed}/air/{place}/{day}")
        clock = Clock.at(day, MORNING).tick(40 * list(KEPT_AT).index(place))
        reading = {
            "place": "@" + place,
            "dry_c": round(chance.normal(dry_c, 0.12), 1),
            "humidity_pct": round(chance.normal(humidity_pct, 2.0)),
            "by": "hand",
        }
        book.write("air", reading, clock)


def turn_by_hand(book: Notebook, place: str, from_day: int, until_day: int) -> None:
    """Three times a day, cross and circle by turns, so that no side is up two nights running."""
    turns = [(day, time) for day in range(from_day, until_day + 1) for time in ("06:35", "13:05", "21:45")]
    for number, (day, time) in enumerate(turns):
        if day < until_day or time == "06:35":
            if day == from_day and time == "06:35":
                continue
            body = {"place": "@" + place, "side": "xo"[number % 2]}
            book.write("turned", body, Clock.at(day, time), by=ORLA if time == "13:05" else MARA)


def weigh_tray(book: Notebook, setting: Setting, lot: Lot, lost_pct: dict[int, float]) -> None:
    """The same ten eggs of a lot on the scales, by day of incubation: what they have lost in percent."""
    n, egg_g = 10, FAMILIES[lot.family].egg_g
    for day, lost in lost_pct.items():
        gross = round(n * egg_g * (1 - lost / 100) + TRAY_G)
        body = {
            "setting": "@" + setting.name,
            "lot": "@" + lot.name,
            "n": n,
            "gross_g": gross,
            "tare_g": TRAY_G,
        }
        book.write("eggs_weighed", body, Clock.at(setting.set_day + day, "07:40"))


def cut_power(book: Notebook, day: int, places: list[str]) -> None:
    """Two hours without power in the afternoon, and the reading taken when it came back."""
    outage = {
        "places": ["@" + place for place in places],
        "from": moment(day, "14:10:00"),
        "until": moment(day, "16:20:00"),
    }
    book.write("outage", outage, Clock.at(day, "16:24"), by=ORLA)
    for place in places:
        book.write("air", {"place": "@" + place, "dry_c": 33.9, "humidity_pct": 58, "by": "hand"},
                   Clock.at(day, "16:26"), by=ORLA)  # fmt: skip


def look_after_chicks(book: Notebook, brooder: str, from_day: int, until_day: int) -> None:
    """One round a morning: heat at chick-back height, less 0.4 °C a day; what they look like, and its care."""
    for day in range(from_day + 1, until_day + 1):
        age_days = day - from_day
        check = {
            "place": "@" + brooder,
            "heat_c": max(21.0, round(35.0 - 0.4 * age_days, 1)),
            "look": "huddled" if age_days == 5 else "spread",
            "water": True,
            "feed": True,
            "litter": age_days % 3 == 0,
        }
        book.write("brooder_check", check, Clock.at(day, "06:40"))
        if age_days % 7 == 1 and age_days > 1:
            book.write("care", {"place": "@" + brooder, "task": "rings", "on": on(day)}, Clock.at(day, "06:45"))


def keep_in(book: Notebook) -> None:
    """An order of the county vet, lifted before today."""
    order = {"text": "Housing order, county vet", "kind": "housing", "since": on(-44), "until": on(-30)}
    book.write("order", order, Clock.at(-44, "18:20"))


def treat_ducks(book: Notebook) -> None:
    """Two ducks walk lame; the vet's days stand on the bottle."""
    body = {
        "place": "@sedge_pen",
        "product": "Pain relief in the water",
        "reason": "Two walk lame",
        "by": "Vet in town",
        "from": on(-3),
        "until": on(-1),
        "no_eggs_until": on(4),
        "no_meat_until": on(10),
    }
    book.write("treated", body, Clock.at(-3, "18:05"), by=ORLA)
