"""How many hens find a place, against all ways to give the pens to the families."""

from itertools import combinations_with_replacement
from random import Random

from broodline.trade.pen_sizes import PenSizes, pen_sizes, roomy_pen, usual_hens


def every_way(pens: int, hens: int, families: list[int]) -> PenSizes:
    """The most hens, and of those ways the one whose smallest pen is largest; each family a pen if there are enough."""
    found = []
    for given in combinations_with_replacement(range(len(families)), pens):
        shares = [given.count(family) for family in range(len(families))]
        if (pens >= len(families) and not all(shares)) or any(n < of for n, of in zip(families, shares, strict=True)):
            continue
        placed = [(min(n, hens * of), of) for n, of in zip(families, shares, strict=True) if of]
        found.append((sum(n for n, _ in placed), min(n // of for n, of in placed)))
    return PenSizes(*max(found))


def test_3000_flocks_by_every_way() -> None:
    chance = Random(5)
    for _ in range(3000):
        families = [chance.randint(1, 9) for _ in range(chance.randint(1, 4))]
        pens, hens = chance.randint(1, min(6, sum(families))), chance.randint(1, 9)
        assert pen_sizes(pens=pens, hens=hens, families=families) == every_way(pens, hens, families), (
            pens, hens, families,
        )  # fmt: skip


def test_a_pen_takes_no_more_hens_than_it_must() -> None:
    """The smallest pen that leaves no hen over, tried one by one."""
    chance = Random(6)
    for _ in range(300):
        families = [chance.randint(1, 12) for _ in range(chance.randint(1, 4))]
        pens = chance.randint(len(families), 6)
        room = roomy_pen(pens=pens, families=families)
        assert sum(-(-n // room) for n in families) <= pens
        assert room == 1 or sum(-(-n // (room - 1)) for n in families) > pens


def test_hens_with_one_cock_by_weight_only_where_a_figure_was_read() -> None:
    """Cells of trade/tables/breeding.json; the source of each stands there."""
    usual = usual_hens("chicken")
    assert {weight: cell.value for weight, cell in usual.items()} == {"light": [12, 15], "heavy": [10, 12]}
    assert all(cell.source for cell in usual.values())
    assert usual_hens("duck") == {}
