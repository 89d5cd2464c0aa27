"""What all tests share: how hypothesis searches. A failure prints the example and how to run it again."""

import os

from hypothesis import HealthCheck, settings

# The machines that run this are slow at times: no deadline for one example. A gate says the same of the same code each
# time; `make search` looks by chance, and ten times as far.
settings.register_profile(
    "house", deadline=None, print_blob=True, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("search", settings.get_profile("house"), derandomize=False, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "house"))
