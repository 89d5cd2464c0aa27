"""What a keeper wishes of a plan of pens, as options of a command: the report and the paper take the same."""

from argparse import BooleanOptionalAction, Namespace, _ActionsContainer
from dataclasses import replace

from broodline.errors import WrongUse
from broodline.reports.matings import MOST_OF_ANYTHING, Wishes, wished

_NUMBERS = ("pens", "hens", "cocks", "moves", "apart", "under_limit", "kept")


def add_mating_wishes(parser: _ActionsContainer) -> None:
    """Declare the options."""
    parser.add_argument("--pens", type=_count, metavar="N", help="how many pens (default: one for each family)")
    parser.add_argument("--hens", type=_count, metavar="N", help="hens in each pen (default: shared out evenly)")
    parser.add_argument("--cocks", type=_count, metavar="N", default=1, help="cocks in each pen (default: 1)")
    parser.add_argument(
        "--moves",
        action=BooleanOptionalAction,
        help="pens that follow the year's moves of males (default: if neither --pens, --hens nor --apart is given)",
    )
    parser.add_argument("--apart", action="store_true", help="hens of one family only in each pen")
    parser.add_argument("--limit", metavar="PERCENT", help="inbreeding a mating should stay under (default: 12.5)")
    parser.add_argument("--under-limit", action="store_true", help="rule out matings at or over the limit")
    parser.add_argument("--kept", action="store_true", help="of the young birds only those to keep (report choose)")
    parser.add_argument("--must", action="append", default=[], metavar="BIRD", help="to be used; COCK:HEN: in one pen")
    parser.add_argument("--never", action="append", default=[], metavar="COCK:HEN", help="a pair that must not meet")
    parser.add_argument("--breed", metavar="NAME", help="of which breed (default: that with most birds)")


def mating_wishes(options: Namespace) -> Wishes:
    """The wishes. Raises WrongUse."""
    named = {name: ",".join(getattr(options, name)) for name in ("must", "never")}
    asked = wished({"limit": options.limit, "breed": options.breed, **named})
    if asked is None:
        raise WrongUse(
            "The limit or a pair cannot be read.",
            remedy="Give a percentage over 0, at most 50, and pairs as COCK:HEN, by ring, name or id.",
        )
    return replace(asked, **{name: getattr(options, name) for name in _NUMBERS})


def _count(text: str) -> int:
    """A whole number from 1 to 1000."""
    number = int(text)
    if not 1 <= number <= MOST_OF_ANYTHING:
        raise ValueError(text)
    return number
