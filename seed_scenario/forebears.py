"""Three generations before the birds that stand in the pens today: who they were, and which cock served whom.

Four founders a family, bought as grown birds. Each season the cockerels go one family on, but Birch keeps its own; this
season every cock stayed at home, and Birch's old cock made way for one from elsewhere two weeks before the first eggs.
"""

from typing import Any

from seed_scenario.flock import FAMILIES
from seed_scenario.notebook import Clock, Notebook, on

EARLIER_SETS = (-1141, -776, -411)
EARLY_SET = -132
KEPT_FAMILIES = ("rowan", "hazel", "alder", "birch")
HENS = 3
HATCH_DAY = 21
# Whose cock serves a family in each of the earlier seasons; and the names of the cocks, season by season.
SERVED_BY = (
    {family: family for family in KEPT_FAMILIES},
    {"rowan": "alder", "hazel": "rowan", "alder": "hazel", "birch": "birch"},
    {"rowan": "alder", "hazel": "rowan", "alder": "hazel", "birch": "birch"},
)
COCKS = {
    "rowan": ("Bram", "Finn", "Oisin"),
    "hazel": ("Cobb", "Marl", "Tam"),
    "alder": ("Jory", "Kit", "Wat"),
    "birch": ("Dan", "Ned", "Rory"),
}
COLOURS = {"rowan": "red", "hazel": "yellow", "alder": "green", "birch": "white"}
PEN_BEFORE, PEN_AFTER = 50, 10
ESCAPED_BEFORE = 14


def hatch_name(season: int) -> str:
    """The setting of an earlier season, the oldest 0."""
    return f"hatch_{len(EARLIER_SETS) - season}_years_ago"


def remember(book: Notebook, typing: Clock) -> None:
    """The birds of the earlier pens, the pens, and where the birds went."""
    for season, set_day in enumerate(EARLIER_SETS):
        for family in KEPT_FAMILIES:
            _bird(book, typing, season, family, "male", 0)
            for number in range(1, HENS + 1):
                _bird(book, typing, season, family, "female", number)
        for family in KEPT_FAMILIES:
            penned: dict[str, Any] = {
                "family": "@" + family,
                "place": f"@{family}_pen",
                "since": on(set_day - PEN_BEFORE),
                "until": on(set_day + PEN_AFTER),
                "sires": [{"bird": "@" + bird_name(season, SERVED_BY[season][family], 0)}],
                "dams": [{"bird": "@" + bird_name(season, family, number)} for number in range(1, HENS + 1)],
            }
            book.write("penned", penned, typing.tick(20))
    last = EARLIER_SETS[-1]
    escaped = {
        "family": "@alder",
        "place": "@alder_pen",
        "since": on(last - ESCAPED_BEFORE),
        "until": on(last - ESCAPED_BEFORE),
        "sires": [{"bird": "@" + bird_name(2, "rowan", 0)}],
        "dams": [],
    }
    book.write("penned", escaped, typing.tick(20), name="over_the_fence")
    note = {"about": "@over_the_fence", "text": "Oisin was over the fence with Alder's hens all afternoon."}
    book.write("note", note, typing.tick(30))
    for season, set_day in enumerate(EARLIER_SETS):
        for family in KEPT_FAMILIES:
            for number in range(HENS + 1):
                how = "sold" if number == 0 else ("died", "given", "died")[number - 1]
                to = {"sold": {"to": "Whin Cottage"}, "given": {"to": "A neighbour, Chapel Row"}}.get(how, {})
                bird = "@" + bird_name(season, family, number)
                body = {"bird": bird, "on": on(set_day + 200 + 3 * number), "how": how, **to}
                book.write("left", body, typing.tick(8))


def bird_name(season: int, family: str, number: int) -> str:
    """The entry's name of a bird of an earlier pen; number 0 is the cock."""
    return f"{family}_{'cock' if number == 0 else f'hen_{number}'}_{len(EARLIER_SETS) - season}_years_ago"


def hatched_in(season: int, family: str) -> dict[str, Any]:
    """The batch and the day of a bird that hatched in an earlier season."""
    return {
        "hatched_on": on(EARLIER_SETS[season] + HATCH_DAY),
        "lots": [{"lot": f"@{hatch_name(season)}_{family}"}],
    }


def _bird(book: Notebook, typing: Clock, season: int, family: str, sex: str, number: int) -> None:
    """A bird of an earlier pen: of the hatch before it, or a founder."""
    text = f"{FAMILIES[family].sign}{season}{number or ''}{'M' if number == 0 else 'F'}"
    ring = {"kind": "ring", "colour": COLOURS[family], "leg": "left" if number == 0 else "right", "text": text}
    origin = hatched_in(season - 1, family) if season else {"founder": True, "hatched_on": on(EARLIER_SETS[0] - 330)}
    named = {"name": COCKS[family][season]} if number == 0 else {}
    body = {**named, "sex": sex, "family": "@" + family, "tags": [ring], **origin}
    book.write("bird", body, typing.tick(12), name=bird_name(season, family, number))
