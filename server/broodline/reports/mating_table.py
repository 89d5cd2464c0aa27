"""The table of cock by hen: what F to expect of their chicks, how sure that is, and what speaks against a mating."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from broodline.book.birds import bird_id
from broodline.book.standing import Standing
from broodline.reports.flock_pedigree import Flock, FlockBird
from broodline.reports.living import SEED
from broodline.trade.breakout import lethal_pairings
from broodline.trade.inbreeding_spread import spreads
from broodline.trade.kin import Kin
from broodline.trade.sources import origin

Row = dict[str, Any]
_ASKED = "Ruled out in this plan."


def mating_table(
    standing: Standing,
    flock: Flock,
    kin: Kin,
    cocks: Sequence[FlockBird],
    hens: Sequence[FlockBird],
    limit: float,
    never: frozenset[tuple[str, str]] = frozenset(),
) -> list[Row]:
    """One row for each mating, hens of the first cock first.

    {sire, dam, F, low, high, p_over, p_over_error, draws, known, ruled_out, why, cautions}. p_over: chance that F is at
    or over the limit; p_over_error: how far it may be off, None where every way was gone through. known: something is
    written of both birds' forebears, or the line begins with them. why: the keeper's reasons that rule it out. never:
    pairs of cock and hen that this plan rules out.
    """
    matings = [(cock.id, hen.id) for cock in cocks for hen in hens]
    found = spreads(flock.pedigree, matings, limit, seed=SEED)
    expected = kin.kinships([cock.id for cock in cocks], [hen.id for hen in hens]).ravel()
    pairs = [(cock, hen) for cock in cocks for hen in hens]
    return [
        {
            "sire": cock.id,
            "dam": hen.id,
            "F": float(mean),
            "low": spread.low,
            "high": spread.high,
            "p_over": spread.over,
            "p_over_error": spread.error,
            "draws": spread.draws,
            "known": flock.tells_of(cock.id) and flock.tells_of(hen.id),
            "ruled_out": bool(why),
            "why": why,
            "cautions": list(_cautions(cock, hen)),
        }
        for (cock, hen), spread, mean in zip(pairs, found, expected, strict=True)
        for why in ([*_never(standing, cock, hen), *((_ASKED,) if (cock.id, hen.id) in never else ())],)
    ]


def birds_json(
    birds: Sequence[FlockBird], means: Mapping[str, float], histories: Mapping[str, Mapping[str, Any]]
) -> list[Row]:
    """The birds of the table, least kin to the flock first, with what became of their hatch and of their eggs."""
    nothing: Mapping[str, Any] = {"own": None, "as_parent": None}
    return [
        {
            "bird": bird.id,
            "label": bird.label,
            "sex": bird.sex,
            "family": bird.family,
            "hatched_on": bird.hatched_on,
            "mean_kinship": means[bird.id],
            "carries": list(bird.carries),
            "hatch": histories.get(bird.id, nothing)["own"],
            "eggs": histories.get(bird.id, nothing)["as_parent"],
        }
        for bird in sorted(birds, key=lambda one: (means[one.id], one.label, one.id))
    ]


def _never(standing: Standing, cock: FlockBird, hen: FlockBird) -> Iterator[str]:
    """Why the keeper said never to pair the two birds, or what they carry. A bird is named by its id."""
    for one, other, reason in standing.keeper.never_pair or ():
        for of_cock, of_hen in dict.fromkeys(((one, other), (other, one))):
            it, her = _is(standing, cock, of_cock), _is(standing, hen, of_hen)
            if it and her:
                first, second = (it, her) if of_cock == one else (her, it)
                yield f"Never pair {first} and {second}{f': {reason}' if reason else ''}."
                break


def _is(standing: Standing, bird: FlockBird, what: str) -> str | None:
    """How to call what is meant, where it is the bird or something it carries."""
    if bird_id(standing, what) == bird.id:
        return bird.label
    return what if what.casefold().strip() in {text.casefold().strip() for text in bird.carries} else None


def _cautions(cock: FlockBird, hen: FlockBird) -> Iterator[str]:
    for one in lethal_pairings(cock.carries, hen.carries):
        if one.share is not None:
            share = f"about {100 * one.share.value:.0f} % {one.share.unit} die ({origin(one.share)})"
            yield f"Both carry {one.trait}: {share}."
