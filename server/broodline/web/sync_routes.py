"""Push and pull over HTTP."""

from starlette.requests import Request
from starlette.responses import Response

from broodline.store.devices import Device
from broodline.store.shelf import Shelf
from broodline.sync.pull import page_bytes, pull
from broodline.sync.push import push
from broodline.web.desk import Desk
from broodline.web.guards import read_json_body
from broodline.web.replies import packed_reply, reply


async def take_push(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/push. Parsing and storing happen on the writer's thread, in the order requests came."""
    body = await read_json_body(request)
    pushed = await desk.writer.run(lambda shelf: push(shelf.log, device.holding, body, device.id))
    if any(placed.status == "stored" for placed in pushed.results):
        desk.news.set()
    results = [
        {"id": placed.id, "status": placed.status}
        if placed.position is None
        else {"id": placed.id, "status": placed.status, "position": placed.position}
        for placed in pushed.results
    ]
    return reply({"epoch": pushed.epoch, "server_ms": desk.now_ms(), "results": results})


async def give_pull(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/pull?cursor=&limit="""
    asked = request.query_params

    def read(shelf: Shelf) -> Response:
        page = pull(shelf.log, device.holding, asked.get("cursor"), asked.get("limit"))
        return packed_reply(request, page_bytes(page, desk.now_ms()))

    return await desk.reader.run(read)
