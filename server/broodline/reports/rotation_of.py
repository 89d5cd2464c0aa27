"""Moving males among the families of a breed: this year's moves in words, and inbreeding over 20 generations."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from broodline.book.own_words import own_words
from broodline.book.standing import Standing
from broodline.reports.flock_pedigree import FlockBird
from broodline.trade.effective_size import effective_size, inbreeding_rate, rate_within_families
from broodline.trade.rolling import rolling_forecast
from broodline.trade.rotation import forecast, instruction, pooled_forecast, usual_jumps

GENERATIONS = 20


def rotation_json(standing: Standing, birds: Sequence[FlockBird], year: int) -> dict[str, Any]:
    """birds: living, sexed, of one breed. The forecast takes the families' mean numbers of cocks and hens, at least 1.

    Families are named in the order of their names; those without a bird are left out. It starts from families that are
    unrelated, the best case. year: of the season the moves are for; jumps take turns by it.
    """
    families = sorted(
        {bird.family for bird in birds if bird.family in standing.families},
        key=lambda family: (standing.families[family or ""].name, family or ""),
    )
    n = len(families)
    own = own_words(standing.keeper)
    if n < 2:
        return {
            "scheme": "none",
            "moves": [],
            "forecast": [],
            **_beside(birds),
            "words": f"With one {own.family} there is nowhere to move males.",
        }
    cocks, hens = (
        max(1, round(sum(bird.sex == sex and bird.family in families for bird in birds) / n))
        for sex in ("male", "female")
    )
    jumps = usual_jumps(n)
    names = [standing.families[family or ""].name for family in families]
    curve = forecast(families=n, cocks=cocks, hens=hens, jumps=jumps, generations=GENERATIONS)
    pooled = pooled_forecast(cocks=n * cocks, hens=n * hens, generations=GENERATIONS)
    return {
        "scheme": "swap" if n == 2 else "circle, " + ", ".join(map(str, jumps)) + " on in turn",
        "moves": instruction(names, jumps[year % len(jumps)]),
        "next_year": instruction(names, jumps[(year + 1) % len(jumps)]),
        "forecast": curve,
        "forecast_one_flock": pooled,
        "cocks": cocks,
        "hens": hens,
        **_beside(birds),
        "forecast_closed": pooled_forecast(cocks=cocks, hens=hens, generations=GENERATIONS),
        "words": (
            f"Chicks keep their mother's {own.family}. After 10 generations {100 * curve[9]:.0f} % inbreeding is to be "
            f"expected; as one flock of the same birds {100 * pooled[9]:.0f} %. Keep a spare cock in each {own.family}."
        ),
    }


def rotation_words(rotation: Mapping[str, Any]) -> Iterator[str]:
    """What to expect of moving males, and of what could be done in its place. rotation: as `rotation_json` tells it."""
    if rotation["moves"]:
        yield rotation["words"]
    if rotation["forecast_rolling"] and rotation["forecast"]:
        rolling, closed = rotation["forecast_rolling"][9], rotation["forecast_closed"][9]
        yield (
            "Rolling matings (cocks with pullets, cockerels with hens) come to "
            f"{100 * rolling:.0f} % after 10 years; each family closed to {100 * closed:.0f} % after 10 generations."
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
