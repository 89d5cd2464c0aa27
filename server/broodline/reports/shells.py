"""Whether a setting's eggs let light through: dark shells are first candled later. Mirrored in book/shells.ts."""

from typing import Literal

from broodline.book.moments import instant
from broodline.book.standing import Setting, Standing
from broodline.trade.calendar import Calendar, incubation_calendar
from broodline.trade.species import Species

Shells = Literal["dark", "mixed", "plain"]


def shells_of(standing: Standing, setting: Setting) -> Shells:
    """dark: every lot is of a family with dark shells; mixed: some are. An unknown family or shell counts as plain."""
    families = [standing.families.get(standing.lots[lot].family or "") for lot in setting.lots]
    dark = [family is not None and family.shell == "dark" for family in families]
    return "plain" if not any(dark) else "dark" if all(dark) else "mixed"


def setting_calendar(standing: Standing, setting: Setting, species: Species) -> Calendar:
    """The milestones of one setting: its own lockdown day, and its first candling by its shells."""
    dark = shells_of(standing, setting) == "dark"
    return incubation_calendar(species, instant(setting.set_at_ms), setting.lockdown_day, dark_shells=dark)
