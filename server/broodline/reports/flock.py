"""The state of the flock, breed by breed: what it still keeps of its founders, how fast it narrows, what would help."""

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from broodline.book.own_words import OwnWords, own_words
from broodline.book.standing import Standing
from broodline.reports.breeders import breeding_words
from broodline.reports.flock_pedigree import Flock, flock_of
from broodline.reports.living import BEST_RATE, FEW_DESCENDANTS, MOST_RATE, Living, living_of, rate_of
from broodline.reports.pens import pens_of
from broodline.trade.calendar import local_date
from broodline.trade.counted import many
from broodline.trade.kin import kin_of


def flock_report(standing: Standing, now: datetime) -> dict[str, Any]:
    """Living birds of each breed (shape: flock). now: aware; birds that left by then are gone."""
    today = local_date(now, standing.keeper.zone)
    flock = flock_of(standing, today)
    own = own_words(standing.keeper)
    living = living_of(flock, kin_of(flock.pedigree), pens_of(standing), today)
    return {
        "breeds": [_breed_json(one, flock, own) for one in living],
        "problems": [problem.as_json() for problem in flock.problems],
    }


def _breed_json(one: Living, flock: Flock, own: OwnWords) -> dict[str, Any]:
    return {
        "breed": one.kind,
        "cocks": one.cocks,
        "hens": one.hens,
        "not_sexed": len(one.birds) - one.cocks - one.hens,
        "breeding": {"cocks": one.breeders.cocks, "hens": one.breeders.hens, "counted": one.breeders.counted},
        "ne": one.size or None,
        "ne_from_pedigree": 1 / (2 * one.own_rate) if one.own_rate else None,
        "delta_f_pct": None if one.rate is None else 100 * one.rate,
        "mean_kinship": one.mean_kinship,
        "gene_diversity": 1 - one.mean_kinship,
        "gene_diversity_possible": 1 - one.least_kinship,
        "founder_equivalents": one.founders and one.founders.fe,
        "founder_genome_equivalents": one.founders and one.founders.fg,
        "genes_kept": one.founders and one.founders.alleles,
        "founders_at_risk": list(_at_risk(one, flock)),
        "changes": _changes(one),
        "words": list(_words(one, own)),
    }


def _at_risk(one: Living, flock: Flock) -> Iterator[dict[str, Any]]:
    """Founders that are gone and live on in few."""
    for founder in one.founders.founders if one.founders else ():
        bird = None if founder.bird is None else flock.birds.get(founder.bird)
        if bird is not None and bird.where == "gone" and founder.descendants <= FEW_DESCENDANTS:
            yield {
                "bird": bird.id,
                "label": bird.label,
                "descendants": founder.descendants,
                "share": founder.share,
                "kept": founder.kept,
            }


def _changes(one: Living) -> dict[str, float | None]:
    """Delta F in percent after what a keeper could do, and mean kinship with one unrelated bird borrowed."""
    bred = [bird for bird in one.birds if bird.id in one.breeders.birds]
    families = len({bird.family for bird in bred if bird.family is not None}) or 1
    n = len(one.birds)
    return {
        "one_more_cock_each_family_pct": _pct(rate_of(one.breeders.cocks + families, one.breeders.hens)),
        "one_son_a_cock_one_daughter_a_hen_pct": _pct(one.within),
        "mean_kinship_with_one_borrowed": (n * n * one.mean_kinship + 0.5) / (n + 1) ** 2,
    }


def _pct(rate: float | None) -> float | None:
    return None if rate is None else 100 * rate


def _words(one: Living, own: OwnWords) -> Iterator[str]:
    changes = _changes(one)
    birds = f"{many(one.cocks, 'cock')} and {many(one.hens, 'hen')}"
    held = 100 * (1 - one.mean_kinship)
    yield f"{birds}: gene diversity {held:.0f} %, of the variety of a large stock of unrelated birds."
    yield breeding_words(one.breeders, one.size)
    if one.rate is not None:
        mark = "above 1 %" if one.rate > MOST_RATE else "above 0.5 %" if one.rate > BEST_RATE else "within 0.5 %"
        yield f"Mated at random, inbreeding would rise by {100 * one.rate:.1f} % a generation, {mark} (FAO's marks)."
    if one.rate is not None and one.within is not None:
        yield (
            f"One son kept of each cock and one daughter of each hen: {100 * one.within:.1f} % instead. "
            f"One more cock in each {own.family}: {changes['one_more_cock_each_family_pct']:.1f} %."
        )
    yield (
        f"One unrelated bird borrowed takes the mean kinship from {one.mean_kinship:.3f} to "
        f"{changes['mean_kinship_with_one_borrowed']:.3f}."
    )
