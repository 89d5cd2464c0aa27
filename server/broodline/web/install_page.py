"""The page a phone opens first in a house with an authority of its own: how to trust it, and then where to go.

It comes over plain http, because nothing else is trusted yet. So it asks for nothing and sets nothing, and the
fingerprint on it is worth as much as the comparison with the one the server printed in its terminal. The names of
phones' settings are from memory.
"""

from collections.abc import Iterable
from html import escape

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from broodline.jobs.house_authority import Authority
from broodline.web.guards import EVERY_REPLY

CERTIFICATE_PATH = "/broodline-authority.crt"
STYLE_PATH = "/page.css"
_POLICY = "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
_HEADERS = {**EVERY_REPLY, "content-security-policy": _POLICY, "cache-control": "no-store"}

STEPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "iPhone, iPad",
        (
            "Open this page in Safari and tap “Take the certificate”. Allow the download.",
            "Settings, General, VPN & Device Management: tap the profile “Broodline at {name}”, compare its SHA-256 "
            "fingerprint under More Details with the one above, and install it.",
            "Settings, General, About, Certificate Trust Settings: switch it on there too. Both are needed.",
            "Open the address below in Safari, share the page, and add it to the Home Screen.",
        ),
    ),
    (
        "Android",
        (
            "Tap “Take the certificate”. Android keeps the file and does not install it from here.",
            "Settings, Security, More, Encryption & credentials, Install a certificate, CA certificate: choose the "
            "file. The names differ a little from phone to phone; search the settings for “CA certificate”.",
            "Android will say that the network may be monitored. This authority can vouch for nothing but {name} and "
            "for addresses inside a house.",
            "Open the address below in Chrome, and install the app from its menu.",
        ),
    ),
    (
        "Computer",
        (
            "Windows: open the file, Install Certificate, Local Machine, and place it in “Trusted Root Certification "
            "Authorities”.",
            "Mac: open it in Keychain Access, then open the entry, Trust, “Always Trust”.",
            "Linux, and Firefox everywhere: the browser's settings, Certificates, Authorities, Import; tick websites.",
        ),
    ),
)

STYLE = """:root { color-scheme: light dark; --paper: #f6f2e7; --ink: #241f1a; --yolk: #f2a900; }
@media (prefers-color-scheme: dark) { :root { --paper: #191613; --ink: #f3ede0; } }
body { margin: 0 auto; max-width: 40rem; padding: 1.5rem 1rem 4rem; background: var(--paper); color: var(--ink);
  font: 1.125rem/1.5 system-ui, sans-serif; }
h1 { font-size: 1.75rem; line-height: 1.2; border-bottom: 4px solid var(--yolk); padding-bottom: 0.75rem; }
h2 { font-size: 1.25rem; margin-top: 2rem; }
li { margin-top: 0.5rem; }
.act { display: block; min-height: 56px; line-height: 56px; text-align: center; border: 2px solid; border-radius: 14px;
  color: inherit; font-weight: 700; text-decoration: none; }
.print { font: 1rem/1.6 ui-monospace, monospace; overflow-wrap: anywhere; }
"""


def install_app(authority: Authority, addresses: Iterable[str]) -> Starlette:
    """The page, its style and the certificate; nothing else. addresses: of the book, the one to prefer first."""
    page = page_for(authority, list(addresses)).encode()

    async def give_page(_: Request) -> Response:
        return Response(page, media_type="text/html")

    async def give_style(_: Request) -> Response:
        return Response(STYLE, media_type="text/css")

    async def give_certificate(_: Request) -> Response:
        return Response(authority.der, media_type="application/x-x509-ca-cert")  # phones know it by its type

    return Starlette(
        routes=[
            Route("/", give_page),
            Route(STYLE_PATH, give_style),
            Route(CERTIFICATE_PATH, give_certificate),
        ],
        middleware=[Middleware(_Guarded)],
    )


def page_for(authority: Authority, addresses: list[str]) -> str:
    """The page as HTML, without scripts."""
    name = escape(authority.name)
    steps = ""
    for title, told in STEPS:
        lines = "".join(f"<li>{escape(step, quote=False).format(name=name)}</li>" for step in told)
        steps += f"<h2>{title}</h2><ol>{lines}</ol>"
    links = "".join(f'<p><a class="act" href="{escape(one)}/">{escape(one)}</a></p>' for one in addresses)
    return f"""<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width"><title>Trust this house's Broodline</title>
<link rel="stylesheet" href="{STYLE_PATH}"></head><body><main>
<h1>Three steps, once for each phone</h1>
<p>Phones keep the app for use without signal only from a server they trust. This one vouches for itself, with an
authority that holds for {name} and for addresses inside a house, and for nothing else.</p>
<p><a class="act" href="{CERTIFICATE_PATH}">Take the certificate</a></p>
<h2>Compare before you trust</h2>
<p>Its SHA-256 fingerprint, as the server's terminal prints it and the phone shows it. If they differ, stop: somebody
stands between this phone and the server.</p>
<p class="print">{authority.fingerprint}</p>
{steps}
<h2>Then open the book</h2>
<p>A phone keeps its book under the address it was opened at. Use one of these, the same on every day, and never
change it: under another address the phone begins with an empty book, and what was not sent stays under the old one.
The first needs a name your router knows; an address in digits must be fixed in the router.</p>
{links}
<p>Open it, add it to the home screen, and pair the phone there with the code from <b>broodline pair</b>. Under This
phone, <b>Is this phone ready?</b> says what is still missing.</p>
</main></body></html>"""


class _Guarded:
    """Adds the headers of every reply."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def send_guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] += [(name.encode(), value.encode()) for name, value in _HEADERS.items()]
            await send(message)

        await self._app(scope, receive, send_guarded)
