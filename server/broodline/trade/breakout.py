"""Are losses of a kind more than published? Exact binomial test against a bound with its source, and likely causes.

>>> findings({"dead_early": 4}, examined=40, fertile=40)[0].code
'dead_early'
>>> findings({"dead_early": 1}, examined=40, fertile=40)
[]
"""

from collections.abc import Mapping
from dataclasses import dataclass

from scipy.stats import binom

from broodline.trade.sources import Cell, cell, read_table

_TABLE = read_table("breakout")
SIGNIFICANCE = cell(_TABLE["significance"]).value


@dataclass(frozen=True, slots=True)
class Finding:
    """k of n eggs were lost this way. bound: the published share. p: the chance of so many or more at the bound.

    words: the finding in words. of: "fertile" or "examined". likely: causes published for it, never proof.
    classes: the stages counted.
    """

    code: str
    words: str
    k: int
    n: int
    of: str
    bound: Cell
    p: float
    likely: tuple[Cell, ...]
    classes: tuple[str, ...]


def findings(stages: Mapping[str, int], *, examined: int, fertile: int) -> list[Finding]:
    """What stands out among eggs by stage; n: how many were examined and fertile. Nothing stands out of no egg."""
    found = []
    for code, row in _TABLE["findings"].items():
        k = sum(max(0, stages.get(stage, 0)) for stage in row["classes"])
        n = {"examined": examined, "fertile": fertile}[row["of"]]
        bound = cell(row["bound"])
        if not 0 < k <= n:
            continue
        p = float(binom.sf(k - 1, n, bound.value))
        if p < SIGNIFICANCE:
            likely = tuple(cell(cause) for cause in row["likely"])
            found.append(Finding(code, row["words"], k, n, row["of"], bound, p, likely, tuple(row["classes"])))
    return found
