"""The built app as files. Names with a hash in them never change; everything else is asked for anew each time.

A path that names no file is a place inside the app and gets its first page, so that a bookmark works.
"""

from pathlib import Path, PurePosixPath

from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.staticfiles import NotModifiedResponse

from broodline.errors import NotFound
from broodline.web.auth import asking_device, put_cookie, sign_in_demo, signs_in_by_itself
from broodline.web.desk import Desk

BUILT = Path(__file__).parent.parent / "_pwa"
FIRST_PAGE = "index.html"
LONGEST_NAME_BYTES = 255  # no file system has longer ones, and asking for one is an error of its own

FOREVER = "public, max-age=31536000, immutable"
ASK_AGAIN = "no-cache"
PACKED = ".gz"  # the build lays a packed copy beside each text, so that nothing is packed while somebody waits

# Own table: what the system thinks of .js or .webmanifest differs between machines, and browsers are told not to guess.
MEDIA_TYPES = {
    ".css": "text/css",
    ".html": "text/html",
    ".ico": "image/x-icon",
    ".js": "text/javascript",
    ".json": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
}


async def give_file(desk: Desk, request: Request) -> Response:
    """Answer for every address that is not in the route table. Raises NotFound."""
    path = file_for(request.url.path, BUILT) if request.method in ("GET", "HEAD") else None
    if path is None:
        raise NotFound("There is nothing at this address.", remedy="Open Broodline at its first page.")
    response = _file_reply(path, request)
    opens_demo = path.name == FIRST_PAGE and signs_in_by_itself(request, desk.settings)
    if opens_demo and await asking_device(desk, request) is None:
        put_cookie(response, request, desk.settings, (await sign_in_demo(desk)).token)
    return response


def file_for(path: str, built: Path) -> Path | None:
    """The file a path of the address names, the first page for a place inside the app, or None."""
    parts = PurePosixPath(path.lstrip("/")).parts
    if any(part.startswith(".") or "\\" in part or "\0" in part or ":" in part for part in parts):
        return None
    if any(len(part.encode("utf-8", "replace")) > LONGEST_NAME_BYTES for part in parts):
        return None
    wanted = built.joinpath(*parts)
    if parts and wanted.suffix in MEDIA_TYPES and wanted.is_file():
        return wanted
    if parts and (parts[0] in ("api", "assets") or "." in parts[-1]):
        return None
    first = built / FIRST_PAGE
    return first if first.is_file() else None


def _file_reply(path: Path, request: Request) -> Response:
    headers = {"cache-control": FOREVER if path.parent.name == "assets" else ASK_AGAIN}
    sent, packed = path, path.with_name(path.name + PACKED)
    if packed.is_file():
        headers["vary"] = "accept-encoding"
        if "gzip" in request.headers.get("accept-encoding", ""):
            sent = packed
            headers["content-encoding"] = "gzip"
    response = FileResponse(sent, stat_result=sent.stat(), media_type=MEDIA_TYPES[path.suffix], headers=headers)
    if request.headers.get("if-none-match") == response.headers["etag"]:
        return NotModifiedResponse(response.headers)
    return response
