"""Water loss against published worked examples: Hand-Rearing Birds (2nd ed.) p. 553, Table 36.3 and Fig. 3.1."""

import pytest

from broodline.trade.air import saturation_pressure_pa
from broodline.trade.species import SPECIES
from broodline.trade.units import PASCAL_PER_TORR
from broodline.trade.weight_loss import (
    humidity_for,
    loss_line,
    loss_pct,
    loss_target,
    projected_loss_pct,
    target_mass_g,
)


def test_bee_eater() -> None:
    """p. 553: S 26 g, E 25 g after 7 d, I 30 d: 16.5 %."""
    assert projected_loss_pct(26, 25, 7, 30) == pytest.approx(16.5, abs=0.1)


@pytest.mark.parametrize(
    ("days", "set_g", "end_g", "at_20", "at_23"),
    [
        (19, 7.89, 7.00, 12, 14),
        (17, 7.98, 7.23, 11, 13),
        (8, 7.58, 7.25, 11, 13),
        (2, 7.10, 7.03, 10, 11),
        (6, 6.08, 5.88, 11, 13),
        (17, 7.81, 7.14, 10, 12),
    ],
)
def test_guam_kingfishers(days: float, set_g: float, end_g: float, at_20: int, at_23: int) -> None:
    """Table 36.3, printed in whole percent."""
    assert round(projected_loss_pct(set_g, end_g, days, 20)) == at_20
    assert round(projected_loss_pct(set_g, end_g, days, 23)) == at_23


@pytest.mark.parametrize(
    ("target", "day", "mass_g"),
    [
        *[(13, 1, 26.35), (13, 5, 25.80), (13, 10, 25.11), (13, 20, 23.74), (13, 25, 23.05)],
        *[(17, 1, 26.31), (17, 5, 25.59), (17, 10, 24.69), (17, 20, 22.89), (17, 25, 21.99)],
    ],
)
def test_amazon_lines(target: float, day: float, mass_g: float) -> None:
    """Fig. 3.1: W0 26.49 g, lines to 25 days."""
    assert target_mass_g(26.49, target, day, 25) == pytest.approx(mass_g, abs=0.01)


def test_sixteen_percent_is_mass_over_six_and_a_quarter() -> None:
    """Sindel & Gill: the loss of a parrot's egg is its initial mass / 6.25."""
    assert 26.49 - target_mass_g(26.49, 16, 28, 28) == pytest.approx(26.49 / 6.25)


def test_loss_of_held_chicks() -> None:
    """PMC10446711: 38.26 to 36.18 g is 5.43 %, 36.89 to 34.75 g is 5.80 %."""
    assert loss_pct(38.26, 36.18) == pytest.approx(5.43, abs=0.02)
    assert loss_pct(36.89, 34.75) == pytest.approx(5.80, abs=0.02)


def test_correcting_humidity() -> None:
    """12 % by day 18 wished, 7.5 % seen by day 10 at 55 %: 66.3 % (from loss in proportion to the pull of dry air)."""
    assert humidity_for(55, (12 - 7.5) / 8, 0.75) == pytest.approx(66.3, abs=0.1)
    assert humidity_for(55, 0, 0.75) == 85
    assert humidity_for(55, 3, 0.5) == 20
    with pytest.raises(ValueError, match="no loss"):
        humidity_for(55, 0.5, 0)


def test_conductance_of_turkey_eggs() -> None:
    """Meir, Nir & Ar 1984: 18.70 mg/100 g/d/torr, air at 26.6 torr, egg at 38.0 °C, 28 d: the optimum 12 +-1 %."""
    egg_torr = saturation_pressure_pa(38.0) / PASCAL_PER_TORR
    assert 18.70 * (egg_torr - 26.6) * 28 / 1000 == pytest.approx(12, abs=1)


def test_line_through_day_nought() -> None:
    assert loss_line([]) is None
    assert loss_line([(0, 0)]) is None
    one = loss_line([(0, 0), (10, 7.5)])
    assert one is not None
    assert (one.per_day_pct, one.error_per_day) == (0.75, None)
    two = loss_line([(0, 0), (7, 4.0), (14, 9.0)])
    assert two is not None
    assert two.per_day_pct == pytest.approx((7 * 4 + 14 * 9) / (49 + 196))
    assert two.error_per_day == pytest.approx(
        (((4 - 7 * two.per_day_pct) ** 2 + (9 - 14 * two.per_day_pct) ** 2) / 245) ** 0.5
    )


@pytest.mark.parametrize(("first", "now"), [(0, 0), (-3, -4), (50, 0), (50, 51)])
def test_weights_that_cannot_be(first: float, now: float) -> None:
    with pytest.raises(ValueError, match=r"weight|gain"):
        loss_pct(first, now)


def test_targets() -> None:
    """Chicken about 12 % in the setter (ICAR 129968), turkey 12 +-1 (Meir 1984), others 15 +-2.5 (Ar & Rahn 1980)."""
    chicken = loss_target("chicken", 18)
    turkey = loss_target("turkey", 28)
    pigeon = loss_target("pigeon", 17)
    assert chicken is not None
    assert turkey is not None
    assert pigeon is not None
    assert (chicken.target_pct, chicken.low_pct, chicken.high_pct) == (12, 10.5, 13)
    assert (turkey.target_pct, turkey.low_pct, turkey.high_pct) == (12, 11, 13)
    assert (pigeon.target_pct, pigeon.low_pct, pigeon.high_pct, pigeon.source) == (15, 12.5, 17.5, "AR80")
    assert loss_target("phoenix", 18) is None
    for code, known in SPECIES.items():
        target = loss_target(code, known.lockdown_day)
        assert target is not None
        assert 0 < target.low_pct <= target.target_pct <= target.high_pct < 20
