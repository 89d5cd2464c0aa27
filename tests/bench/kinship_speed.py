"""How fast kinship is: 3,000 birds with uncertain parents as a whole table, 28,000 with sure parents by walks.

And a plan for 40 cocks and 160 hens. Yardsticks: the same number of bare row products in numpy, a plain pass
over the parents, and scipy's assignment of one hen to each cock.
"""

import time

import numpy as np
from scipy.optimize import linear_sum_assignment

from broodline.trade.kin import kin_of
from broodline.trade.kinship import relationships
from broodline.trade.mating import Limits, plan_pens
from broodline.trade.pedigree import Pedigree, Recorded, independent, pedigree_of
from broodline.trade.sure_inbreeding import sure_inbreeding, sure_parents


def pens(birds: int) -> Pedigree:
    """Each bird of one of 2 cocks and 6 hens of the 40 birds before its own."""
    recorded = []
    for bird in range(birds):
        sires = {f"{name}": 0.5 for name in (bird - 39, bird - 27) if name >= 0}
        dams = {f"{name}": 1 / 6 for name in range(bird - 26, bird - 20) if name >= 0}
        recorded.append(Recorded(f"{bird}", pairs=independent(sires, dams)))
    return pedigree_of(recorded)


def holdings(families: int, generations: int, birds: int) -> Pedigree:
    """Many small families, each generation from a cock and a hen of the one before."""
    recorded = []
    for family in range(families):
        for generation in range(generations):
            for bird in range(birds):
                before = f"{family}.{generation - 1}"
                pairs = independent({f"{before}.{bird % 3}": 1.0}, {f"{before}.{3 + bird % 4}": 1.0})
                recorded.append(Recorded(f"{family}.{generation}.{bird}", pairs=pairs if generation else ()))
    return pedigree_of(recorded)


def main() -> None:
    dense, shallow = pens(3000), holdings(400, 7, 10)
    parents = sure_parents(shallow)
    assert parents is not None
    start = time.process_time()
    relationships(dense)
    took = time.process_time() - start
    start = time.process_time()
    rows, shares = np.zeros((8, 3000)), np.full(8, 0.125)
    for _ in dense.nodes:
        _ = shares @ rows
    told(f"{len(dense.nodes)} birds, whole table (target 1.0)", took, time.process_time() - start)
    start = time.process_time()
    sure_inbreeding(parents)
    took = time.process_time() - start
    start = time.process_time()
    _ = sum(sire + dam for sire, dam in parents)
    told(f"{len(parents)} birds, sure (target 1.0)", took, time.process_time() - start)
    measure_asked(shallow)
    measure_plan()


def measure_asked(pedigree: Pedigree) -> None:
    """As the reports ask: F of all, and how kin the last 200 birds are; against the same rows of a bare table."""
    living = [node.bird for node in pedigree.nodes[-200:] if node.bird is not None]
    start = time.process_time()
    kin = kin_of(pedigree)
    kin.mean_kinships(living)
    took = time.process_time() - start
    start = time.process_time()
    rows = np.zeros((len(pedigree.nodes), 1))
    for row in range(len(rows)):
        rows[row] += rows[row - 1] / 2
    told(f"{len(rows)} birds, F of all and mean kinship of 200 (target 1.0)", took, time.process_time() - start)


def measure_plan() -> None:
    """40 cocks x 160 hens, 20 pens of 8; against scipy's assignment of one hen to each cock."""
    table = np.random.default_rng(1).random((40, 160)) / 5
    start = time.process_time()
    plan = plan_pens(table, Limits(pens=20, hens=8))
    took = time.process_time() - start
    start = time.process_time()
    linear_sum_assignment(table)
    proved = "the best there is" if plan.proved else "the best found in time"
    told(f"40 x 160 in 20 pens, {proved} (target 10)", took, time.process_time() - start)


def told(what: str, took: float, yardstick: float) -> None:
    print(f"{what:<66} {took:8.3f} s   yardstick {yardstick:.4f} s")


if __name__ == "__main__":
    main()
