"""A setting in two or three sentences: how many hatched, how many were fertile, when the others died."""

from collections.abc import Iterator

from broodline.book.standing import Setting
from broodline.reports.rates import Outcome
from broodline.trade.counted import many
from broodline.trade.proportions import Rate

DEATH_WORDS = {
    "early": "early",
    "mid": "midway",
    "late": "late",
    "internal_pip": "at internal pip",
    "external_pip": "at external pip",
    "unopened": "not opened",
}


def summary_words(setting: Setting, day: int, whole: Outcome, unseen: int) -> str:
    """The sentences. day: whole days since setting. whole: the outcome of all its eggs. unseen: eggs left over of
    batches into which nobody looked: they may as well have been clear as have died.
    """
    if not whole.sound:
        return "The counts of this setting do not fit together; what to look at is told below."
    return " ".join(_sentences(setting, day, whole, unseen))


def _sentences(setting: Setting, day: int, whole: Outcome, unseen: int) -> Iterator[str]:
    hatched, fertile = whole.hatch_of_set, whole.fertility
    if setting.runs:
        inside = sum(max(0, setting.stages.get(stage, 0)) for stage in ("set", "locked"))
        out = f", {many(hatched.k, 'chick')} out" if hatched.k else ""
        yield f"Day {day}: {inside} of {many(hatched.n, 'egg')} in the shell{out}."
    else:
        yield f"{hatched.k} of {many(hatched.n, 'egg')} hatched{_share(hatched)}."
    if fertile.n:
        by = "by candling" if fertile.basis == "candled" else "by candling and opening"
        yield f"{fertile.k} of {fertile.n} looked into were fertile{_share(fertile)}, judged {by}."
    deaths = {**whole.deaths, "unopened": whole.deaths["unopened"] - unseen}
    died = {name: n for name, n in deaths.items() if n > 0}
    if died:
        told = ", ".join(f"{n} {DEATH_WORDS[name]}" for name, n in died.items())
        yield f"{sum(died.values())} died in the shell: {told}."
    if unseen:
        yield f"{unseen} did not hatch and {'was' if unseen == 1 else 'were'} not opened."


def _share(rate: Rate) -> str:
    if rate.rate is None or rate.low is None or rate.high is None:
        return ""
    return f" ({100 * rate.rate:.0f} %, likely {100 * rate.low:.0f} to {100 * rate.high:.0f} %)"
