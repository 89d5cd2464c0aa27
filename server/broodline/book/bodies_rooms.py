"""Bodies of entries about the holding, its rooms, and the daily round."""

from typing import Annotated, Literal

from pydantic import Field

from broodline.book.body import Body, Day, DayOrMoment, Moment, Name


class Keeper(Body):
    """The holding and how its keeper wants to see things."""

    holding: Name
    zone: Name
    altitude_m: float | None = None
    temperature: Literal["C", "F"]
    mass: Literal["g", "oz"]
    season_starts: Annotated[int, Field(ge=1, le=12)] | None = None
    region: str | None = None
    words: dict[str, str] | None = None
    mark_key: dict[str, str] | None = None
    never_pair: list[Annotated[list[str], Field(min_length=3, max_length=3)]] | None = None


class Place(Body):
    """An incubator, a hatcher, a brooder, a pen, a store, a hen, or a place apart."""

    name: Name
    role: Literal["incubator", "hatcher", "brooder", "pen", "store", "hen", "apart"]
    air: Literal["forced", "still"] | None = None
    turns: Literal["auto", "hand"] | None = None
    capacity: Annotated[int, Field(ge=0)] | None = None
    bird: Name | None = None
    sensor: str | None = None


class GaugeChecked(Body):
    """A gauge held against a trusted one."""

    place: Name
    gauge: Literal["dry", "wet", "humidity"]
    reads: float
    true_value: float
    against: str | None = None


class Air(Body):
    """A reading of the air at a place, degrees Celsius and percent."""

    place: Name
    dry_c: float
    wet_c: float | None = None
    humidity_pct: float | None = None
    by: Literal["hand", "sensor"] | None = None


class Turned(Body):
    """Eggs turned, with the side that is now up."""

    place: Name
    side: Literal["x", "o"] | None = None


class Vented(Body):
    """Vents opened or changed."""

    place: Name
    side: Literal["x", "o"] | None = None


class Watered(Body):
    """Water filled."""

    place: Name
    side: Literal["x", "o"] | None = None


class Outage(Body):
    """Power away at some places, or everywhere."""

    places: list[Name] | None = None
    from_: Annotated[Moment, Field(alias="from")]
    until: Moment | None = None


class BrooderCheck(Body):
    """A round at the brooder."""

    place: Name
    heat_c: float | None = None
    look: Literal["spread", "huddled", "away", "one_side"] | None = None
    water: bool | None = None
    feed: bool | None = None
    litter: bool | None = None


class Care(Body):
    """A task from the agenda, done."""

    place: Name | None = None
    task: Name
    on: DayOrMoment


class Order(Body):
    """An authority's housing or movement order."""

    text: Name
    kind: Literal["housing", "movement"]
    since: DayOrMoment
    until: DayOrMoment | None = None


class Plan(Body):
    """Eggs of a species to be set on a day, in a place if that is decided."""

    species: Name
    set_on: Day
    place: Name | None = None


class Note(Body):
    """Free words, about something or about the day; with a plan, a setting to come."""

    about: Name | None = None
    text: Name
    plan: Plan | None = None


class Photo(Body):
    """A picture, named by its SHA-256; the picture itself travels apart."""

    about: Name | None = None
    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    type: Name
    width: Annotated[int, Field(ge=1)]
    height: Annotated[int, Field(ge=1)]


class Treated(Body):
    """A treatment; the withdrawal days are typed from the label or the vet, never computed."""

    bird: Name | None = None
    lot: Name | None = None
    place: Name | None = None
    product: Name
    batch: str | None = None
    reason: str | None = None
    by: str | None = None
    from_: Annotated[DayOrMoment, Field(alias="from")]
    until: DayOrMoment | None = None
    no_eggs_until: Day | None = None
    no_meat_until: Day | None = None
