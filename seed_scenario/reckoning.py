"""What the book must add up to, counted egg by egg from the simulation, and the truth behind it.

Nothing here uses the program: the counts come from the eggs, the rates from their definitions.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from seed_scenario.eggs import AMONG, RESTING, Lot, Setting
from seed_scenario.flock import FAMILIES, INFERTILE
from seed_scenario.forebears import EARLY_SET
from seed_scenario.story import AT_CANDLING, DUCKS, NEAR_LOCKDOWN, SEED, Story

CHICKS = ("hatched", "brooding", "growing", "flock", "died", "parted")
Count = dict[str, int]


def standing_of(story: Story) -> dict[str, Any]:
    """Every lot's stages, what stands open beside it, and every setting's totals and day of incubation on day 0."""
    return {
        "lots": {lot.name: _lot(setting, lot) for setting in story.settings for lot in setting.lots.values()},
        "settings": {
            setting.name: {
                "species": setting.species,
                "day": -setting.set_day,
                "stages": _counted(egg.stage.removeprefix(AMONG) for lot in setting.lots.values() for egg in lot.eggs),
            }
            for setting in story.settings
        },
    }


def season_of(story: Story) -> dict[str, Any]:
    """k and n of every lot's rates; of the families over this season's finished settings, and each earlier one's."""
    lots = {lot.name: rates_of(lot) for setting in story.settings for lot in setting.lots.values()}
    this = [setting for setting in story.settings if setting.set_day >= EARLY_SET]
    earlier = {setting.name: _of_families([setting], lots) for setting in story.settings if setting not in this}
    return {"settings": len(this), "lots": lots, "families": _of_families(this, lots), "earlier": earlier}


def _of_families(settings: Iterable[Setting], lots: dict[str, dict[str, Count]]) -> dict[str, dict[str, Count]]:
    families: dict[str, dict[str, Count]] = {}
    for setting in settings:
        if not runs(setting):
            for lot in setting.lots.values():
                summed = families.setdefault(lot.family, {})
                for rate, count in lots[lot.name].items():
                    have = summed.setdefault(rate, {"k": 0, "n": 0})
                    summed[rate] = {"k": have["k"] + count["k"], "n": have["n"] + count["n"]}
    return families


def agenda_of(story: Story) -> dict[str, Any]:
    """What comes due in the machines within two days of day 0, and for how many eggs."""
    settings = {setting.name: setting for setting in story.settings}
    return {
        "at_candling": {"what": "candle", "on_day": AT_CANDLING + 7, "n": _in_hand(settings["at_candling"], 7)},
        "near_lockdown": {"what": "lockdown", "on_day": NEAR_LOCKDOWN + 18, "n": _in_hand(settings["near_lockdown"])},
        "ducks": {"what": "candle", "on_day": DUCKS + 14, "n": _in_hand(settings["ducks"], 14)},
    }


def problems_of(story: Story) -> list[dict[str, str]]:
    """The one problem left open on purpose: this morning's count of Rowan's chicks."""
    last = max(line["name"] for line in story.book.lines if line["kind"] == "counted")
    return [{"code": "count_differs", "entry": last}]


def truth_of(story: Story) -> dict[str, Any]:
    """The known truth: what each family really does, and the fate of every egg, running settings included."""
    return {
        "seed": SEED,
        "families": {key: {**asdict(truth), "hatch_of_set": truth.hatch_of_set} for key, truth in FAMILIES.items()},
        "lots": {
            lot.name: {
                "fates": _counted(egg.fate for egg in lot.eggs),
                "hatch_h": sorted(egg.hatch_h for egg in lot.eggs if egg.hatch_h is not None),
            }
            for setting in story.settings
            for lot in setting.lots.values()
        },
    }


def rates_of(lot: Lot) -> dict[str, Count]:
    """Fertility, hatch of set and of fertile, first-week survival, each as k of n."""
    n = len(lot.eggs)
    stages = Counter(written_stage(egg.stage) for egg in lot.eggs)
    resting = sum(stages[stage] for stage in RESTING)
    hatched = sum(stages[stage] for stage in CHICKS)
    most_live = max((seen["live"] for seen in lot.seen.values()), default=0)
    examined = n - stages["cracked"] - max(0, resting - most_live)
    fertile = examined - stages["clear"] - stages[INFERTILE]
    if resting and not lot.seen:
        examined = fertile = 0
    return {
        "fertility": {"k": fertile, "n": examined},
        "hatch_of_set": {"k": hatched, "n": n},
        "hatch_of_fertile": {"k": hatched, "n": fertile},
        "alive_7d": {"k": hatched - stages["died"], "n": hatched},
    }


def runs(setting: Setting) -> bool:
    """Whether an egg still rests in a machine."""
    return any(lot.resting for lot in setting.lots.values())


def written_stage(stage: str) -> str:
    """The stage in the lot's own account: an egg of unknown family still counts where it lay."""
    return "set" if stage.startswith(AMONG) else stage


def _in_hand(setting: Setting, day: int | None = None) -> int:
    """Eggs in the setter, less those held to the light on a day of incubation."""
    resting = sum(len(lot.resting) for lot in setting.lots.values())
    looked_at = [lot.seen[day] for lot in setting.lots.values() if day is not None and day in lot.seen]
    return resting - sum(sum(seen.values()) for seen in looked_at)


def _lot(setting: Setting, lot: Lot) -> dict[str, Any]:
    return {
        "setting": setting.name,
        "family": lot.family,
        "n": len(lot.eggs),
        "stages": _counted(written_stage(egg.stage) for egg in lot.eggs),
        "open": _counted(
            egg.stage.removeprefix(AMONG)
            for other in setting.lots.values()
            for egg in other.eggs
            if egg.stage.startswith(AMONG)
        ),
    }


def _counted(stages: Iterable[str]) -> Count:
    return dict(sorted(Counter(stages).items()))
