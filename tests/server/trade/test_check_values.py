"""Where each published check value is tested. Files lie in tests/server/; the source stands beside each test.

Incubation
  1-5    trade/test_air.py::test_all_24_published_cells
  6      trade/test_air.py::test_ashraes_own_example
  7      trade/test_air.py::test_published_pairs
  8      trade/test_air.py::test_gas_movement_at_height
  9      trade/test_weight_loss.py::test_bee_eater
  10-12  trade/test_weight_loss.py::test_guam_kingfishers
  13-14  trade/test_weight_loss.py::test_amazon_lines
  15     trade/test_weight_loss.py::test_sixteen_percent_is_mass_over_six_and_a_quarter
  16     trade/test_weight_loss.py::test_conductance_of_turkey_eggs
  17-20  trade/test_proportions.py::test_published_hatch_counts
  21     trade/test_proportions.py::test_hatch_of_fertile_of_native_lines
  22     trade/test_breakout.py::test_deaths_of_siruvidai_close
  23     trade/test_breakout.py::test_stored_flocks_close
  24     trade/test_hatch_time.py::test_published_windows_lie_inside_the_fit
  25     trade/test_weight_loss.py::test_loss_of_held_chicks
  26     trade/test_storage.py::test_published_slopes
  27     trade/test_calendar.py::test_transfer_at_444_hours_is_day_18_and_a_half
  30     trade/test_breakout.py::test_two_phases_of_death
  31     trade/test_species.py::test_published_days
  33     trade/test_proportions.py::test_published_hatch_counts
  34     trade/test_climate.py::test_chicken_in_forced_air
Impossible
  weights            trade/test_weight_loss.py::test_weights_that_cannot_be
  nothing fertile    reports/test_rates.py::test_nothing_fertile_gives_no_rate_instead_of_nought
  wet above dry      trade/test_air.py::test_bulbs_that_no_air_gives_are_refused
  rows not closing   trade/test_breakout.py::test_published_rows_that_do_not_close_say_by_how_much
Statistics
  22     trade/test_proportions.py::test_newcombes_table_of_single_shares
  23     trade/test_proportions.py::test_newcombes_table_of_differences
  24     trade/test_comparisons.py::test_fisher_published
  24     trade/test_comparisons.py::test_holm
  25     trade/test_shrinkage.py::test_rat_tumours
  26     trade/test_shrinkage.py::test_batting_averages
  27     trade/test_shrinkage.py::test_families_that_differ
  27     trade/test_shrinkage.py::test_families_that_do_not_differ_share_one_rate
  28     trade/test_hatch_model.py::test_orob2_without_spread_is_the_plain_regression
  28     trade/test_hatch_model.py::test_orob2_with_random_plates
  28     trade/test_hatch_model.py::test_cbpp
  30     trade/test_hatch_time.py::test_h1_is_scipys_and_rs_fit
  30     trade/test_hatch_time.py::test_h1_shares

Of 25 and 26 the maximum-likelihood figures are tested; the moment and James-Stein figures belong to methods not used.

Not here: effective size (28, 29) and toe webs (32) of the first list, survival (29), Turnbull and log-logistic fits
(31) and the sex ratio (32) of the last. No module of these two storeys works them out.
"""

import re
from pathlib import Path

import pytest

SERVER = Path(__file__).parents[1]
NAMED = sorted(set(re.findall(r"(?:trade|reports)/test_\w+\.py(?:::test_\w+)?", __doc__ or "")))


@pytest.mark.parametrize("named", NAMED)
def test_every_named_test_is_there(named: str) -> None:
    file, _, function = named.partition("::")
    text = (SERVER / file).read_text(encoding="utf-8")
    assert f"def {function or 'test_'}" in text


def test_the_list_is_not_empty() -> None:
    assert len(NAMED) > 30
