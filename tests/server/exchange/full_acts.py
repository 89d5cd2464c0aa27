"""A book in which every kind of entry is written once with every field its body has, each with a value of its own."""

from typing import Any

from tests.book_writer import entry_id, lot_id

LOT, CAME_LOT = lot_id(1), lot_id(2)
# Entries of the book below, by the order in which they are written.
PLACE, FAMILY, COCK, HEN, NOTE, SETTING, COUNT = map(entry_id, range(2, 9))
HALF = [{"bird": COCK, "share": 0.5}, {"bird": HEN, "share": 0.25}]
TAG = {"kind": "ring", "colour": "blue", "leg": "left", "text": "17"}

FULL: list[tuple[str, dict[str, Any]]] = [
    (
        "keeper",
        {
            "holding": "Gorse Bank",
            "zone": "Europe/Dublin",
            "altitude_m": 120.5,
            "temperature": "C",
            "mass": "g",
            "season_starts": 2,
            "region": "uk",
            "words": {"family": "line", "hatch": "hatch"},
            "mark_key": {"LO": "Rowan"},
            "never_pair": [["crest", "frizzle", "chicks die"]],
        },
    ),
    (
        "place",
        {
            "name": "Broody",
            "role": "hen",
            "air": "still",
            "turns": "hand",
            "capacity": 12,
            "bird": HEN,
            "sensor": "loft-1",
        },
    ),
    (
        "family",
        {
            "name": "Rowan",
            "species": "chicken",
            "breed": "Marsh Speckle",
            "variety": "silver",
            "shell": "dark",
            "sign": "R",
        },
    ),
    (
        "bird",
        {
            "name": "Oisin",
            "sex": "male",
            "family": FAMILY,
            "breed": "Sussex",
            "variety": "light",
            "species": "duck",
            "hatched_on": "2025-04-01",
            "lots": [{"lot": LOT, "share": 0.5}],
            "tags": [TAG],
            "webs": ["LO"],
            "sires": [{"bird": COCK, "share": 0.5}],
            "dams": [{"bird": HEN, "share": 0.5}],
            "founder": True,
            "origin": {"holding": "Far Field", "keeper": "Una"},
            "carries": ["crest"],
        },
    ),
    ("bird", {"name": "Niamh", "sex": "female"}),
    (
        "note",
        {
            "about": PLACE,
            "text": "Duck eggs next",
            "plan": {"species": "duck", "set_on": "2026-04-01", "place": PLACE},
        },
    ),
    (
        "set",
        {
            "place": PLACE,
            "species": "chicken",
            "set_at": "2026-03-01T09:00:00Z",
            "lots": [
                {
                    "lot": LOT,
                    "family": FAMILY,
                    "n": 20,
                    "laid_from": "2026-02-20",
                    "laid_to": "2026-02-27",
                    "dams": [{"bird": HEN, "share": 0.5}],
                    "one_hen": True,
                    "from": {"who": "Una", "posted": True, "arrived": "2026-02-28"},
                    "sign": "R1",
                }
            ],
            "lockdown_day": 18.5,
            "note": "By the window",
            "plan": NOTE,
        },
    ),
    ("counted", {"lot": LOT, "stage": "set", "n": 19, "ledger": 20}),
    (
        "marked",
        {
            "lot": LOT,
            "bird": HEN,
            "webs": ["LO", "RI"],
            "tag": TAG,
            "n": 3,
            "on": "2026-03-22",
            "replaces": COUNT,
            "recheck": True,
        },
    ),
    ("same", {"bird": HEN, "as": entry_id(99)}),
    ("gauge_checked", {"place": PLACE, "gauge": "dry", "reads": 37.5, "true_value": 37.75, "against": "fever glass"}),
    (
        "came",
        {
            "bird": COCK,
            "lot": CAME_LOT,
            "n": 6,
            "stage": "brooding",
            "family": FAMILY,
            "hatched_on": "2026-02-01",
            "on": "2026-02-03",
            "how": "bought",
            "from": "Una",
            "apart_until": "2026-03-05",
        },
    ),
    ("left", {"bird": COCK, "on": "2026-06-01", "how": "died", "cause": "predator_fox", "to": "nobody"}),
    (
        "penned",
        {"family": FAMILY, "place": PLACE, "since": "2026-01-01", "until": "2026-02-01", "sires": HALF, "dams": HALF},
    ),
    ("gathered", {"family": FAMILY, "on": "2026-02-20", "n": 5, "kept": 4, "dam": HEN, "store": PLACE}),
    ("eggs_out", {"family": FAMILY, "on": "2026-02-21", "n": 1, "how": "sold", "to": "Una"}),
    (
        "looked",
        {
            "setting": SETTING,
            "lot": LOT,
            "what": "candled",
            "day": 7,
            "live": 12,
            "unsure": 2,
            "pipped": 1,
            "none": True,
        },
    ),
    (
        "moved",
        {
            "moves": [{"lot": LOT, "from": "set", "to": "hatched", "n": 2}],
            "why": "hatch",
            "day": 21,
            "cause": "weak",
            "place": PLACE,
            "helped": True,
            "weak": True,
            "who": "Una",
            "settles": COUNT,
        },
    ),
    ("moved", {"moves": [{"among": [LOT], "from": "set", "to": "clear", "n": 1}]}),
    ("air", {"place": PLACE, "dry_c": 37.5, "wet_c": 29.5, "humidity_pct": 52, "by": "hand"}),
    ("eggs_weighed", {"setting": SETTING, "lot": LOT, "n": 10, "gross_g": 780.5, "tare_g": 180.5}),
    ("turned", {"place": PLACE, "side": "x"}),
    ("vented", {"place": PLACE, "side": "x"}),
    ("watered", {"place": PLACE, "side": "x"}),
    ("outage", {"places": [PLACE], "from": "2026-03-05T08:00:00Z", "until": "2026-03-05T09:00:00Z"}),
    ("locked", {"setting": SETTING, "place": PLACE}),
    (
        "brooder_check",
        {"place": PLACE, "heat_c": 33.5, "look": "one_side", "water": True, "feed": True, "litter": True},
    ),
    ("weighed", {"lot": LOT, "birds": [{"bird": HEN, "mass_g": 512.5}], "sex": "female", "on": "2026-05-01"}),
    (
        "treated",
        {
            "bird": HEN,
            "lot": LOT,
            "place": PLACE,
            "product": "Wormer",
            "batch": "B12",
            "reason": "worms",
            "by": "the vet",
            "from": "2026-05-01",
            "until": "2026-05-07",
            "no_eggs_until": "2026-05-14",
            "no_meat_until": "2026-05-21",
        },
    ),
    ("order", {"text": "Keep birds in", "kind": "housing", "since": "2026-01-01", "until": "2026-04-01"}),
    ("care", {"place": PLACE, "task": "drinkers", "on": "2026-03-01"}),
    ("scored", {"bird": HEN, "on": "2026-05-01", "scores": {"comb": 4.5}}),
    ("photo", {"about": PLACE, "sha256": "ab" * 32, "type": "image/webp", "width": 800, "height": 600}),
]
