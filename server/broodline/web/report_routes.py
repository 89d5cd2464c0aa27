"""Reports over HTTP: the answer of a report, with when it was computed and how many entries it saw."""

from datetime import datetime
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from broodline.book.standing import Standing
from broodline.errors import EnvelopeError
from broodline.jobs.kept_answers import Report
from broodline.reports.agenda import due
from broodline.reports.brood import brood_report
from broodline.reports.choosing import choosing_report, keeping_of
from broodline.reports.egg_store import egg_store
from broodline.reports.family import family_report
from broodline.reports.flock import flock_report
from broodline.reports.growth import growth_report
from broodline.reports.matings import Wishes, matings_report, wished
from broodline.reports.plan import plan_report, wanted_of
from broodline.reports.season import season_report
from broodline.reports.season_year import season_of
from broodline.reports.setting import setting_report
from broodline.store.devices import Device
from broodline.store.shelf import Shelf
from broodline.web.desk import Desk
from broodline.web.replies import json_bytes, packed_reply


async def give_setting(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/setting/{id}"""
    setting_id = request.path_params["id"]
    return await _report(desk, request, device, lambda standing, now: setting_report(standing, setting_id, now))


async def give_season(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/season/{year}"""
    year = request.path_params["year"]
    return await _report(desk, request, device, _season(year))


async def give_brood(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/brood/{lot}"""
    lot = request.path_params["lot"]
    return await _report(desk, request, device, lambda standing, now: brood_report(standing, lot, now))


async def give_growth(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/growth"""
    return await _report(desk, request, device, growth_report)


async def give_due(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/due"""
    return await _report(desk, request, device, due)


async def give_store(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/store"""
    return await _report(desk, request, device, egg_store)


async def give_family(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/family"""
    return await _report(desk, request, device, family_report)


async def give_flock(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/flock"""
    return await _report(desk, request, device, flock_report)


def mating_wishes(request: Request) -> Wishes:
    """What the query asks of a plan of pens. Raises EnvelopeError."""
    wishes = wished(request.query_params)
    if wishes is None:
        remedy = (
            "Pens, hens, cocks: whole numbers from 1 to 1000. Limit: a percentage over 0, at most 50. Pairs: cock:hen."
        )
        raise EnvelopeError("query", "The plan was asked for in words that cannot be read.", remedy=remedy)
    return wishes


async def give_matings(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/matings?pens=&hens=&cocks=&limit=&moves=&apart=&under_limit=&kept=&must=&never=&breed="""
    wishes = mating_wishes(request)
    return await _report(desk, request, device, lambda standing, now: matings_report(standing, wishes, now))


async def give_choose(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/choose?cocks=&hens=&by=&breed="""
    wishes = keeping_of(request.query_params)
    if wishes is None:
        remedy = "Cocks and hens are whole numbers from 0 to 1000; birds are chosen by score or by weight."
        raise EnvelopeError("query", "The choice was asked for in words that cannot be read.", remedy=remedy)
    return await _report(desk, request, device, lambda standing, now: choosing_report(standing, wishes, now))


async def give_plan(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reports/plan?pullets=&cockerels=&chance=&family=&hatch_on="""
    wanted = wanted_of(request.query_params)
    if wanted is None:
        remedy = "Ask for 0 to 100 pullets and cockerels, a chance of 1 to 99.9 percent, and a day as 2026-04-30."
        raise EnvelopeError("query", "The plan was asked for in words that cannot be read.", remedy=remedy)
    return await _report(desk, request, device, lambda standing, now: plan_report(standing, wanted, now))


def _season(year: int) -> Report:
    return lambda standing, now: season_report(standing, year, now)


async def waiting_reports(desk: Desk) -> list[tuple[str, Report]]:
    """What is worth working out after a sync: of what was asked lately what it concerns, and the running season."""

    def wait(_: Shelf, standing: Standing) -> list[tuple[str, Report]]:
        year = season_of(standing, desk.now_ms())
        season = f"/api/v1/reports/season/{year}?"
        concerned = desk.kept.concerned(standing)
        first = [one for one in concerned if one[0] == season] if desk.kept.knows(season) else [(season, _season(year))]
        return [*first, *(one for one in concerned if one[0] != season)]

    return await desk.look(wait)


async def _report(desk: Desk, request: Request, device: Device, report: Report) -> Response:
    kept = await desk.report(device.holding, f"{request.url.path}?{request.url.query}", report)
    return packed_reply(request, json_bytes(stamped(kept.answer, kept.at, kept.entries)))


def stamped(answer: dict[str, Any], now: datetime, entries: int) -> dict[str, Any]:
    """An answer with the moment it was computed for and the number of entries it saw."""
    computed_at = now.isoformat(timespec="milliseconds").replace("+00:00", "Z")
    return {**answer, "computed_at": computed_at, "entries": entries}
