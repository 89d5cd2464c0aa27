"""Next season's pens on paper: who goes to whom, what to expect of the chicks, and how far back that is known."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from broodline.book.own_words import OwnWords, own_words
from broodline.book.standing import Standing
from broodline.reports.choosing import Keeping, choosing_report
from broodline.reports.flock_pedigree import Flock, FlockBird, flock_of
from broodline.reports.mating_pens import Row, Table, is_told, mean_words, pen_words
from broodline.reports.matings import Wishes, matings_report
from broodline.reports.rotation_of import rotation_words
from broodline.trade.calendar import local_date

_SEXES = {"male": "cock", "female": "hen"}
_SPREAD = 0.0005


def matings_sheet(standing: Standing, wishes: Wishes, now: datetime) -> dict[str, Any]:
    """{breed, year, group, pens, relax, proved, compared, spare, keep, moves, next_year, rotation, notes,
    problems}.

    pens: [{words, cautions, birds: [{label, sex, family, hatched_on, known, chicks}]}]; known: equivalent generations
    of forebears, chicks: expected F with each cock of the pen alike. compared: [{words, F, told}], F None where nothing
    is known. keep: young birds worth keeping, with why, the words of that choice, and those in a pen that it does not
    keep. now: aware.
    """
    report = matings_report(standing, wishes, now)
    own = own_words(standing.keeper)
    flock = flock_of(standing, local_date(now, standing.keeper.zone))
    table = {(row["sire"], row["dam"]): row for row in report["table"]}
    used = {bird for pen in report["pens"] for bird in (*pen["sires"], *pen["dams"])}
    choice = choosing_report(standing, Keeping(breed=report["breed"]), now)
    rotation = report["rotation"]
    young_to_go = {one["bird"] for one in choice["birds"] if not one["keep"]}
    return {
        "breed": report["breed"],
        "year": report["season"],
        "group": own.family.capitalize(),
        "pens": [_pen(standing, flock, pen, table, report["limit"]) for pen in report["pens"]],
        "relax": report.get("infeasible", {}).get("relax", []),
        "proved": report.get("proved", True),
        "compared": list(_compared(report, own)),
        "spare": sorted(bird["label"] for bird in report["birds"] if bird["bird"] not in used),
        "keep": {
            "birds": [
                {"label": one["label"], "sex": _young(one["sex"]), "why": one["why"]}
                for one in choice["birds"]
                if one["keep"]
            ],
            "words": choice["words"] if choice["birds"] else [],
            "not_kept": sorted(bird["label"] for bird in report["birds"] if bird["bird"] in used & young_to_go),
        },
        "moves": rotation["moves"],
        "next_year": rotation.get("next_year", []),
        "rotation": list(rotation_words(rotation, own)),
        "notes": report["notes"],
        "problems": [{"message": one["message"], "remedy": one["remedy"]} for one in report["problems"]],
    }


def _pen(standing: Standing, flock: Flock, pen: Mapping[str, Any], table: Table, limit: float) -> dict[str, Any]:
    birds = [_bird(standing, flock, flock.birds[bird], "") for bird in pen["sires"]]
    for dam in pen["dams"]:
        rows = [table[sire, dam] for sire in pen["sires"]]
        birds.append(_bird(standing, flock, flock.birds[dam], _chicks(rows)))
    return {"words": pen_words(pen, limit), "cautions": pen["cautions"], "birds": birds}


def _bird(standing: Standing, flock: Flock, bird: FlockBird, chicks: str) -> dict[str, Any]:
    family = standing.families.get(bird.family or "")
    known = flock.pedigree.completeness[bird.id]
    return {
        "label": bird.label,
        "sex": _SEXES.get(bird.sex, bird.sex),
        "family": None if family is None else family.name,
        "hatched_on": bird.hatched_on,
        "known": f"{known:.1f}" if known else "founder" if bird.id in flock.founders else "none",
        "chicks": chicks,
    }


def _chicks(rows: Sequence[Row]) -> str:
    """A hen's chicks: F over the cocks of her pen, how far it may be off, and no figure where nothing is known."""
    told = [row for row in rows if is_told(row)]
    if not told:
        return "not known"
    mean = sum(row["F"] for row in told) / len(told)
    low, high = min(row["low"] for row in told), max(row["high"] for row in told)
    spread = f" ({100 * low:.1f} to {100 * high:.1f})" if high - low > _SPREAD else ""
    return f"{100 * mean:.1f} %{spread}"


def _compared(report: Mapping[str, Any], own: OwnWords) -> Iterator[dict[str, Any]]:
    against, not_known = report["compared_with"], report["not_known"]
    hens = (
        ("This plan", report["mean_F"], not_known["plan"]),
        ("The pens as they stand today", against["today"], not_known["today"]),
    )
    for words, mean, left_out in hens:
        if left_out is not None:
            yield {"words": words, "F": mean, "told": mean_words(mean, left_out)}
    matings = not_known["matings"]
    if matings is not None:
        for words, mean in (
            ("Mated at random", against["random"]),
            ("The worst that could be put together", against["worst"]),
        ):
            yield {"words": words, "F": mean, "told": mean_words(mean, matings, "matings")}
    if against["mixed"] is not None:
        yield {
            "words": f"The least, with hens of all {own.families} mixed",
            "F": against["mixed"],
            "told": mean_words(against["mixed"], None),
        }


def _young(sex: str) -> str:
    return "cockerel" if sex == "male" else "pullet"
