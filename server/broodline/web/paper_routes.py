"""Papers over HTTP, as PDF. Each takes ?paper=a4 or us-letter; without it the keeper's country decides. ?boxes=1: a
box for each letter that the fonts lack, instead of a refusal."""

from collections.abc import Callable
from datetime import date

from starlette.requests import Request
from starlette.responses import Response

from broodline.book.standing import Standing
from broodline.exchange.typeset import Printed
from broodline.store.devices import Device
from broodline.trade.calendar import local_date
from broodline.web.desk import Desk
from broodline.web.guards import origin_asked_for
from broodline.web.papers import (
    PAPERS_BY_DAYS,
    Wanted,
    bird_paper,
    cards_paper,
    marks_paper,
    matings_paper,
    season_paper,
    setting_paper,
    tally_paper,
    wanted_days,
    wanted_paper,
)
from broodline.web.report_routes import mating_wishes

PDF = "application/pdf"


async def give_season_paper(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/season/{year}.pdf"""
    year = request.path_params["year"]
    return await _paper(desk, request, device, lambda book, wanted: season_paper(book, year, wanted), f"season-{year}")


async def give_marks_paper(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/marks/{year}.pdf"""
    year = request.path_params["year"]
    return await _paper(desk, request, device, lambda book, wanted: marks_paper(book, year, wanted), f"marks-{year}")


async def give_setting_paper(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/setting/{id}.pdf"""
    one = request.path_params["id"]
    return await _paper(desk, request, device, lambda book, wanted: setting_paper(book, one, wanted), "setting")


async def give_cards(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/cards/{id}.pdf: of a setting"""
    one = request.path_params["id"]
    return await _paper(desk, request, device, lambda book, wanted: cards_paper(book, one, wanted), "cards")


async def give_tally_card(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/tally/{id}.pdf: of a setting"""
    one = request.path_params["id"]
    return await _paper(desk, request, device, lambda book, wanted: tally_paper(book, one, wanted), "count")


async def give_pedigree(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/pedigree/{id}.pdf: a bird's certificate and parents' sheet"""
    one = request.path_params["id"]
    return await _paper(desk, request, device, lambda book, wanted: bird_paper(book, one, wanted), "bird")


async def give_matings_paper(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/matings.pdf?pens=&hens=&cocks=&limit=&moves=&apart=&under_limit=&kept=&must=&never=&breed="""
    wishes = mating_wishes(request)
    return await _paper(desk, request, device, lambda book, wanted: matings_paper(book, wishes, wanted), "pens")


async def give_away(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/away.pdf?from=&until="""
    return await _of_days(desk, request, device, "away")


async def give_inspection(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/papers/inspection.pdf?from=&until="""
    return await _of_days(desk, request, device, "inspection")


async def _of_days(desk: Desk, request: Request, device: Device, name: str) -> Response:
    make, ahead_days = PAPERS_BY_DAYS[name]
    first, last = request.query_params.get("from"), request.query_params.get("until")

    def print_it(standing: Standing, wanted: Wanted) -> Printed:
        today = date.fromisoformat(local_date(wanted.now, standing.keeper.zone))
        return make(standing, *wanted_days(first, last, today, ahead_days), wanted)

    return await _paper(desk, request, device, print_it, name)


async def _paper(
    desk: Desk, request: Request, device: Device, make: Callable[[Standing, Wanted], Printed], name: str
) -> Response:
    wanted = Wanted(
        desk.clock(),
        wanted_paper(request.query_params.get("paper")),
        origin_asked_for(request.headers, desk.settings),
        boxes=request.query_params.get("boxes") == "1",
    )
    printed, _ = await desk.answer(device.holding, lambda standing: make(standing, wanted))
    headers = {"cache-control": "no-store", "content-disposition": f'inline; filename="broodline-{name}.pdf"'}
    return Response(printed.content, headers=headers, media_type=PDF)
