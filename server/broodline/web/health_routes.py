"""Whether the server is well: asked by keepers, by their monitors, and by tests."""

from starlette.requests import Request
from starlette.responses import Response

from broodline import __version__
from broodline.store.shelf import Shelf
from broodline.web.desk import Desk
from broodline.web.replies import reply

MS_PER_HOUR = 3_600_000


async def give_health(desk: Desk, request: Request) -> Response:
    """GET /healthz"""

    def look(shelf: Shelf) -> tuple[int, int | None]:
        return shelf.log.count(shelf.holdings.current().id), shelf.backups.age_ms()

    entries, age_ms = await desk.reader.run(look)
    age_h = None if age_ms is None else round(age_ms / MS_PER_HOUR, 2)
    told = {"ok": True, "version": __version__, "entries": entries, "backup_age_h": age_h}
    return reply({**told, "server_ms": desk.now_ms()})  # a phone sets its own clock beside it
