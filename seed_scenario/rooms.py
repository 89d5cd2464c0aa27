"""The holding before the first egg is set: who keeps it, its rooms, its families and the birds in their pens."""

from typing import Any

from seed_scenario.flock import FAMILIES
from seed_scenario.notebook import MARA, ORLA, Clock, Notebook, on

FOUNDED = -62
PENNED = -61

PLACES: dict[str, dict[str, Any]] = {
    "loft_box": {"name": "Loft box", "role": "incubator", "air": "forced", "turns": "auto", "capacity": 96},
    "cabinet": {"name": "Kitchen cabinet", "role": "incubator", "air": "still", "turns": "hand", "capacity": 48},
    "hatcher": {"name": "Hatcher", "role": "hatcher", "air": "forced", "capacity": 72},
    "brooder_one": {"name": "Brooder one", "role": "brooder", "capacity": 60},
    "pantry": {"name": "Pantry shelf", "role": "store", "capacity": 120},
    "rowan_pen": {"name": "Top pen", "role": "pen"},
    "hazel_pen": {"name": "Wall pen", "role": "pen"},
    "alder_pen": {"name": "Orchard pen", "role": "pen"},
    "birch_pen": {"name": "Long pen", "role": "pen"},
    "sedge_pen": {"name": "Pond", "role": "pen"},
}
RING_COLOURS = {"rowan": "red", "hazel": "yellow", "alder": "green", "birch": "white", "sedge": "blue"}
HENS = {"rowan": 6, "hazel": 5, "alder": 5, "birch": 5, "sedge": 4}


def found(book: Notebook, season_day: int) -> None:
    """The keeper, the rooms, the families; then who stands in which pen."""
    clock = Clock.at(FOUNDED, "19:30")
    keeper = {
        "holding": "Gorse Bank",
        "zone": "Europe/Dublin",
        "altitude_m": 85,
        "temperature": "C",
        "mass": "g",
        "season_starts": {"season_with_day": season_day},
        "region": "uk",
    }
    book.write("keeper", keeper, clock, name="keeper")
    for key, place in PLACES.items():
        book.write("place", place, clock.tick(25), name=key)
    for truth in FAMILIES.values():
        family = {
            "name": truth.name,
            "species": truth.species,
            "breed": truth.breed,
            "shell": truth.shell,
            "sign": truth.sign,
        }
        book.write("family", family, clock.tick(30), name=truth.key)
    checked = {
        "place": "@loft_box",
        "gauge": "dry",
        "reads": 37.7,
        "true_value": 37.5,
        "against": "the doctor's thermometer",
    }
    book.write("gauge_checked", checked, clock.tick(600))
    for key in FAMILIES:
        _fill_pen(book, key)


def _fill_pen(book: Notebook, family: str) -> None:
    clock = Clock.at(PENNED, "10:00").tick(600 * list(FAMILIES).index(family))
    by = ORLA if family == "sedge" else MARA
    sire = _bird(book, family, "male", 1, clock, by)
    dams = [_bird(book, family, "female", number, clock, by) for number in range(1, HENS[family] + 1)]
    penned = {
        "family": "@" + family,
        "place": f"@{family}_pen",
        "since": on(PENNED),
        "sires": [{"bird": "@" + sire}],
        "dams": [{"bird": "@" + dam} for dam in dams],
    }
    book.write("penned", penned, clock.tick(20), by=by)


def _bird(book: Notebook, family: str, sex: str, number: int, clock: Clock, by: str) -> str:
    male = sex == "male"
    ring = {
        "kind": "ring",
        "colour": RING_COLOURS[family],
        "leg": "left" if male else "right",
        "text": f"{FAMILIES[family].sign}{number}{'M' if male else 'F'}",
    }
    body = {"sex": sex, "family": "@" + family, "founder": True, "tags": [ring]}
    return book.write("bird", body, clock.tick(25), by=by, name=f"{family}_{'cock' if male else f'hen_{number}'}")
