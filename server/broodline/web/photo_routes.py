"""Pictures over HTTP. A picture never changes under its name, so a browser may keep what it got."""

from starlette.requests import Request
from starlette.responses import Response

from broodline.errors import TooLarge
from broodline.store.devices import Device
from broodline.sync.photos import MOST_PICTURE_BYTES, find_picture, keep_picture
from broodline.web.desk import Desk
from broodline.web.guards import read_bytes
from broodline.web.replies import reply

_KEPT = {"cache-control": "private, max-age=31536000, immutable", "content-disposition": "inline"}


async def take_photo(desk: Desk, request: Request, device: Device) -> Response:
    """PUT /api/v1/photos/{sha256}: the bytes as they are; what the sender calls their type is not asked."""
    sha256 = request.path_params["sha256"]
    content = await read_bytes(request, MOST_PICTURE_BYTES)
    if content is None:
        raise TooLarge("The picture is over 2 MiB.", remedy="Take the picture again: this app makes it smaller.")
    new = await desk.writer.run(
        lambda shelf: keep_picture(shelf.photos, device.holding, sha256, content, brought_by=device.id)
    )
    return reply({"sha256": sha256, "status": "stored" if new else "duplicate"})


async def give_photo(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/photos/{sha256}"""
    sha256 = request.path_params["sha256"]
    picture = await desk.reader.run(lambda shelf: find_picture(shelf.photos, device.holding, sha256))
    return Response(picture.content, media_type=picture.type, headers=_KEPT)
