"""Moving males among the families of a breed: this year's moves in words, and inbreeding over 20 generations."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from broodline.book.own_words import OwnWords, own_words
from broodline.book.standing import Standing
from broodline.reports.flock_pedigree import FlockBird
from broodline.trade.counted import many
from broodline.trade.effective_size import effective_size, inbreeding_rate, rate_within_families
from broodline.trade.rolling import rolling_forecast
from broodline.trade.rotation import forecast, instruction, pooled_forecast, serving, usual_jumps

GENERATIONS = 20


@dataclass(frozen=True, slots=True)
class Followed:
    """What the pens of a plan make of the moves: whether they follow them, and which bird goes where.

    told: family -> the move of the birds that serve its hens, by their names. why_not: why no plan follows them; None
    where nobody asked. mixed: hens of several families share a pen.
    """

    moves: bool
    told: Mapping[str, str]
    why_not: str | None = None
    mixed: bool = False


def circle_of(standing: Standing, birds: Sequence[FlockBird]) -> list[str]:
    """The families of the birds in the order of the circle: that of their names."""
    families = {bird.family for bird in birds if bird.family is not None and bird.family in standing.families}
    return sorted(families, key=lambda family: (standing.families[family].name, family))


def sources_in(circle: Sequence[str], year: int) -> dict[str, str]:
    """Family -> the family its cocks come from that year; none where there are not two families."""
    if len(circle) < 2:
        return {}
    jumps = usual_jumps(len(circle))
    return dict(zip(circle, (circle[at] for at in serving(len(circle), jumps[year % len(jumps)])), strict=True))


def rotation_json(
    standing: Standing, circle: Sequence[str], bred: Sequence[FlockBird], year: int, followed: Followed | None
) -> dict[str, Any]:
    """circle: families. bred: the birds that breed, of the plan or of the pens that stand, never all that are alive.

    The forecast takes the families' mean numbers of bred cocks and hens, at least 1. It starts from families that are
    unrelated, the best case. year: of the season the moves are for; jumps take turns by it. followed: None where there
    are no pens.
    """
    n = len(circle)
    own = own_words(standing.keeper)
    if n < 2:
        return {
            "scheme": "none",
            "moves": [],
            "forecast": [],
            **_beside(bred),
            "words": f"With one {own.family} there is nowhere to move males.",
        }
    cocks, hens = (
        max(1, round(sum(bird.sex == sex and bird.family in circle for bird in bred) / n)) for sex in ("male", "female")
    )
    jumps = usual_jumps(n)
    names = [standing.families[family].name for family in circle]
    told = {} if followed is None else followed.told
    moves = instruction(names, jumps[year % len(jumps)])
    curve = forecast(families=n, cocks=cocks, hens=hens, jumps=jumps, generations=GENERATIONS)
    pooled = pooled_forecast(cocks=n * cocks, hens=n * hens, generations=GENERATIONS)
    return {
        "scheme": "swap" if n == 2 else "circle, " + ", ".join(map(str, jumps)) + " on in turn",
        "moves": [told.get(family, move) for family, move in zip(circle, moves, strict=True)],
        "followed": followed is not None and followed.moves,
        "next_year": instruction(names, jumps[(year + 1) % len(jumps)]),
        "forecast": curve,
        "forecast_one_flock": pooled,
        "cocks": cocks,
        "hens": hens,
        **_beside(bred),
        "forecast_closed": pooled_forecast(cocks=cocks, hens=hens, generations=GENERATIONS),
        "words": " ".join(
            (
                *_followed_words(followed, own),
                f"Chicks keep their mother's {own.family}. With {many(cocks, 'cock')} and {many(hens, 'hen')} of each "
                f"{own.family}, {100 * curve[9]:.0f} % inbreeding is to be expected after 10 generations; as one flock "
                f"of the same birds {100 * pooled[9]:.0f} %. That is reckoned from {own.families} that are not kin; "
                f"what they share by now comes on top. Keep a spare cock in each {own.family}.",
                f"These are the moves of season {year}.",
            )
        ),
    }


def _followed_words(followed: Followed | None, own: OwnWords) -> Iterator[str]:
    if followed is None:
        return
    if followed.moves:
        yield "The pens follow these moves."
    else:
        yield "The pens put together the least kin and do not follow these moves" + (
            ": do the one or the other." if followed.why_not is None else f", since no plan does: {followed.why_not}"
        )
    if followed.mixed:
        yield f"Chicks of a pen with hens of several {own.families} are of no one {own.family}."


def rotation_words(rotation: Mapping[str, Any], own: OwnWords) -> Iterator[str]:
    """What to expect of moving males, and of what could be done in its place. rotation: as `rotation_json` tells it."""
    if rotation["moves"]:
        yield rotation["words"]
    if rotation["forecast_rolling"] and rotation["forecast"]:
        rolling, closed = rotation["forecast_rolling"][9], rotation["forecast_closed"][9]
        yield (
            "Rolling matings (cocks with pullets, cockerels with hens) come to "
            f"{100 * rolling:.0f} % after 10 years; "
            f"each {own.family} closed to {100 * closed:.0f} % after 10 generations."
        )
    if rotation["one_each"]:
        yield rotation["one_each"]["words"]


def _beside(birds: Sequence[FlockBird]) -> dict[str, Any]:
    """What to compare with: rolling matings of the same birds, year by year, and the gain of even families.

    forecast_rolling: half of the cocks are taken to be cockerels, half of the hens pullets; None below two of each.
    one_each: delta F in percent a generation at random, and where each cock leaves one son and each hen one daughter.
    """
    cocks, hens = (sum(bird.sex == sex for bird in birds) for sex in ("male", "female"))
    rolling = None
    if cocks >= 2 and hens >= 2:
        young, pullets = cocks // 2, hens // 2
        rolling = rolling_forecast(
            cocks=cocks - young, cockerels=young, hens=hens - pullets, pullets=pullets, years=GENERATIONS
        )
    random, within = inbreeding_rate(effective_size(cocks, hens)), rate_within_families(cocks, hens)
    found: dict[str, Any] = {"forecast_rolling": rolling, "one_each": None}
    if random is not None and within is not None and hens >= cocks:
        found["one_each"] = {
            "random_pct": 100 * random,
            "one_each_pct": 100 * within,
            "words": (
                "Keep one son of each cock and one daughter of each hen: inbreeding then rises by "
                f"{100 * within:.1f} % a generation instead of {100 * random:.1f} %, and it costs nothing."
            ),
        }
    return found
