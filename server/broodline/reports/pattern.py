"""What stands out in the losses of a setting, with evidence, likely causes and their sources. Never a diagnosis."""

from collections.abc import Sequence
from typing import Any

from broodline.book.standing import Lot, Setting
from broodline.reports.rates import Outcome
from broodline.trade.breakout import Finding, findings
from broodline.trade.sources import STATUSES, Cell, source_of


def pattern_json(setting: Setting, lots: Sequence[Lot], whole: Outcome) -> list[dict[str, Any]]:
    """[{finding, evidence, likely, source}] for a setting whose counts fit; empty where nothing stands out.

    by_lot says where it was seen: a loss in one family points elsewhere than one in all.
    """
    if not whole.sound:
        return []
    found = findings(setting.stages, examined=whole.fertility.n, fertile=whole.fertility.k)
    return [_finding_json(one, lots) for one in found]


def _finding_json(one: Finding, lots: Sequence[Lot]) -> dict[str, Any]:
    return {
        "finding": one.words,
        "evidence": (
            f"{one.k} of {one.n} {one.of} eggs ({100 * one.k / one.n:.0f} %); published: {100 * one.bound.value:.1f} % "
            f"{one.bound.unit}. So many by chance: {100 * one.p:.1g} %."
        ),
        "likely": [f"{cause.value} ({_origin(cause)})" for cause in one.likely],
        "source": _origin(one.bound),
        "code": one.code,
        "p": one.p,
        "by_lot": [
            {"lot": lot.id, "family": lot.family, "k": k}
            for lot in lots
            for k in (sum(max(0, lot.stages.get(stage, 0)) for stage in one.classes),)
            if k
        ],
    }


def _origin(figure: Cell) -> str:
    return f"{source_of(figure.source).title}; {STATUSES[figure.status]}"
