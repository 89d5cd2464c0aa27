"""Rolling matings: the recursion against a simulation bird by bird, of this suite and of another hand."""

from math import sqrt
from statistics import fmean, stdev

import pytest

from broodline.trade.rolling import rolling_forecast
from tests.server.oracles.rolling_bird_by_bird import rolled

# Mean F in percent by year, one cock and one cockerel, 6 hens and 6 pullets: a simulation made before this program
# (this project's notes on breeding), good to half a percent.
BY_ANOTHER_HAND = {2: 5.9, 3: 12.5, 4: 16.5, 5: 20.8, 6: 25.1, 8: 32.7, 10: 39.6, 15: 53.9, 20: 64.8}


def test_the_curve_of_another_simulation() -> None:
    curve = rolling_forecast(cocks=1, cockerels=1, hens=6, pullets=6, years=20)
    assert {year: 100 * curve[year - 1] for year in BY_ANOTHER_HAND} == pytest.approx(BY_ANOTHER_HAND, abs=0.5)
    assert curve[0] == 0


@pytest.mark.parametrize("hens", [2, 6])
def test_bird_by_bird(hens: int) -> None:
    """Within four standard errors of 400 flocks, every year."""
    flocks = [rolled(seed, hens, 8) for seed in range(400)]
    curve = rolling_forecast(cocks=1, cockerels=1, hens=hens, pullets=hens, years=8)
    for year, told in enumerate(zip(*flocks, strict=True)):
        error = stdev(told) / sqrt(len(told))
        assert abs(fmean(told) - curve[year]) <= 4 * error + 1e-12, year


def test_more_birds_of_either_sex_never_make_it_worse() -> None:
    few = rolling_forecast(cocks=1, cockerels=1, hens=4, pullets=4, years=20)
    for more in ({"cocks": 2}, {"cockerels": 2}, {"hens": 8}, {"pullets": 8}):
        many = rolling_forecast(**{"cocks": 1, "cockerels": 1, "hens": 4, "pullets": 4, **more}, years=20)
        assert all(b <= a + 1e-12 for a, b in zip(few, many, strict=True))
        assert many[-1] < few[-1]
