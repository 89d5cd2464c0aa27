"""The units in README.md: whole, and every command in them is one that `broodline` knows."""

import configparser
import re
import shlex
import textwrap

from broodline.cli.main import command_line
from tests.house.tree import ROOT

CHAPTER = (ROOT / "README.md").read_text().split("### A small server that starts by itself")[1].split("\n## ")[0]
INDENTED = re.compile(r"(?:^    .*\n|^\n(?=    ))+", re.MULTILINE)
BLOCKS = [textwrap.dedent(block) for block in INDENTED.findall(CHAPTER)]


def units():
    found = []
    for block in BLOCKS:
        unit = configparser.RawConfigParser(strict=True)
        unit.optionxform = str  # type: ignore[assignment,method-assign]
        unit.read_string(block)
        found.append(unit)
    return found


def test_there_are_a_service_a_copy_and_its_timer():
    service, copy, timer = units()
    assert service["Service"]["User"] == copy["Service"]["User"] == "broodline"
    assert (service["Service"]["ProtectSystem"], service["Service"]["NoNewPrivileges"]) == ("strict", "true")
    assert copy["Service"]["Type"] == "oneshot"
    assert copy["Service"]["UMask"] == service["Service"]["UMask"] == "0077"
    assert timer["Timer"]["Persistent"] == "true"
    assert (service["Install"]["WantedBy"], timer["Install"]["WantedBy"]) == ("multi-user.target", "timers.target")


def test_a_copy_is_laid_on_the_other_disk_or_not_at_all():
    """systemd.unit(5): the disk is mounted first, and where nothing is mounted the unit fails."""
    _, copy, _ = units()
    target = re.search(r" backup (\S+)/[^/ ]+ ", copy["Service"]["ExecStart"])
    assert target is not None
    assert copy["Unit"]["RequiresMountsFor"] == copy["Unit"]["AssertPathIsMountPoint"] == target[1]


def test_their_commands_are_ours():
    commands = []
    for unit in units()[:2]:
        words = shlex.split(unit["Service"]["ExecStart"].replace("%%", "%").replace("$$", "$"))
        if words[0] == "/bin/sh":
            words = shlex.split(words[2].removeprefix("exec ").replace("$(date +%u)", "4"))
        assert words[0] == "/opt/broodline/bin/broodline"
        options = command_line(words[1:]).parse_args(words[1:])
        assert str(options.data) == "/var/lib/broodline"
        commands.append(words[1])
    assert commands == ["serve", "backup"]
