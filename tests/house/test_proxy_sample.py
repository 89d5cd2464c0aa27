"""The setting of a reverse proxy in README.md: it tells what web/guards.py believes, and lets the largest file in."""

import re
import shlex

from broodline.cli.main import command_line
from broodline.settings import SERVE_PORT
from broodline.web.import_routes import MOST_BODY_BYTES
from tests.house.tree import ROOT

CHAPTER = (ROOT / "README.md").read_text().split("### Behind nginx")[1].split("\n### ")[0]
HEADERS = dict(re.findall(r"proxy_set_header (\S+) (\S+);", CHAPTER))


def test_the_name_asked_for_and_the_sender_it_saw_itself_are_handed_on():
    assert HEADERS == {"Host": "$http_host", "X-Forwarded-Host": "$http_host", "X-Forwarded-For": "$remote_addr"}
    assert f"proxy_pass http://127.0.0.1:{SERVE_PORT};" in CHAPTER


def test_the_largest_spreadsheet_comes_through_and_little_more():
    [megabytes] = map(int, re.findall(r"client_max_body_size (\d+)m;", CHAPTER))
    assert MOST_BODY_BYTES <= megabytes * 1024 * 1024 < MOST_BODY_BYTES + 2 * 1024 * 1024


def test_the_command_beside_it_is_ours_and_names_the_same_address():
    [typed] = re.findall(r"`broodline (serve [^`]+)`", CHAPTER)
    words = shlex.split(typed)
    options = command_line(words).parse_args(words)
    [name] = set(re.findall(r"server_name (\S+);", CHAPTER))
    assert (options.public_origin, options.proxy) == (f"https://{name}", ["127.0.0.1"])
