"""The holding before the first egg is set: who keeps it, its rooms, its families and the birds in their pens."""

from typing import Any

from seed_scenario.flock import FAMILIES
from seed_scenario.forebears import EARLY_SET, KEPT_FAMILIES, hatched_in
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
    "young_run": {"name": "Orchard run", "role": "pen"},
}
RING_COLOURS = {"rowan": "red", "hazel": "yellow", "alder": "green", "birch": "white", "sedge": "blue"}
NEW_COCK_CAME = -95
OLD_COCK = {"name": "Perkin", "sex": "male", "family": "@birch",
            "tags": [{"kind": "ring", "colour": "white", "leg": "left", "text": "B9M"}]}  # fmt: skip
HENS = {"rowan": 6, "hazel": 5, "alder": 5, "birch": 5, "sedge": 4}


def found(book: Notebook, season_day: int) -> Clock:
    """The keeper, the rooms, the families; gives the clock back, for the evening is not over."""
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
    return clock


def fill_pens(book: Notebook) -> None:
    """Who stands in which pen, and who stood there before: all the same, but for Birch's cock."""
    for key in FAMILIES:
        _fill_pen(book, key)


def _fill_pen(book: Notebook, family: str) -> None:
    clock = Clock.at(PENNED, "10:00").tick(600 * list(FAMILIES).index(family))
    by = ORLA if family == "sedge" else MARA
    sire = _bird(book, family, "male", 1, clock, by)
    dams = [_bird(book, family, "female", number, clock, by) for number in range(1, HENS[family] + 1)]
    before = sire
    if family == "birch":
        bought = {"bird": "@" + sire, "on": on(NEW_COCK_CAME), "how": "bought", "from": "Whin Cottage",
                  "apart_until": on(NEW_COCK_CAME + 30)}  # fmt: skip
        book.write("came", bought, clock.tick(20), by=by)
        before = book.write("bird", {**OLD_COCK, **hatched_in(2, family)}, clock.tick(20), by=by, name="birch_old_cock")
    if family in KEPT_FAMILIES:
        earlier = {"since": on(EARLY_SET - 30), "until": on(PENNED), "sires": [{"bird": "@" + before}]}
        stood = {"family": "@" + family, "place": f"@{family}_pen", **earlier,
                 "dams": [{"bird": "@" + dam} for dam in dams]}  # fmt: skip
        book.write("penned", stood, clock.tick(20), by=by)
    if before != sire:
        book.write("left", {"bird": "@" + before, "on": on(PENNED), "how": "died"}, clock.tick(20), by=by)
    penned = {
        "family": "@" + family,
        "place": f"@{family}_pen",
        "since": on(PENNED),
        "sires": [{"bird": "@" + sire}],
        "dams": [{"bird": "@" + dam} for dam in dams],
    }
    book.write("penned", penned, clock.tick(20), by=by)


def _bird(book: Notebook, family: str, sex: str, number: int, clock: Clock, by: str) -> str:
    """A bird of today's pens: of last season, its first hen of the one before; ducks and one cock are bought."""
    male = sex == "male"
    ring = {
        "kind": "ring",
        "colour": RING_COLOURS[family],
        "leg": "left" if male else "right",
        "text": f"{FAMILIES[family].sign}{number}{'M' if male else 'F'}",
    }
    body: dict[str, Any] = {"sex": sex, "family": "@" + family, "tags": [ring]}
    if family not in KEPT_FAMILIES:
        body["founder"] = True
    elif male and family == "birch":
        body |= {"founder": True, "hatched_on": on(NEW_COCK_CAME - 300), "origin": {"holding": "Whin Cottage"}}
    else:
        body |= hatched_in(1 if number == 1 and not male else 2, family)
    return book.write("bird", body, clock.tick(25), by=by, name=f"{family}_{'cock' if male else f'hen_{number}'}")
