"""Draws the app's PNG icons from public/icons/broodline.svg with Chromium. Run again after the drawing changes:

python pwa/draw_icons.py [path of a Chromium]
"""

import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

ICONS = Path(__file__).parent / "public" / "icons"
# name, px, whole field filled (for masks and for systems that round the corners themselves), scale of the drawing
SIZES = (
    ("icon-192", 192, False, 1.0),
    ("icon-512", 512, False, 1.0),
    ("maskable-192", 192, True, 0.8),
    ("maskable-512", 512, True, 0.8),
    ("apple-touch-180", 180, True, 0.94),
)


def page_of(drawing: str, filled: bool, scale: float) -> str:
    """The page that shows the icon at 100 % of its width."""
    ground = "#16130f" if filled else "transparent"
    return (
        f"<style>html,body{{margin:0;height:100%;background:{ground}}}"
        f"svg{{display:block;width:100%;height:100%;transform:scale({scale})}}</style>{drawing}"
    )


def main() -> None:
    """Writes every size beside the drawing."""
    drawing = (ICONS / "broodline.svg").read_text()
    chromium = sys.argv[1] if len(sys.argv) > 1 else "/usr/bin/chromium"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for name, px, filled, scale in SIZES:
            page = browser.new_page(viewport={"width": px, "height": px})
            page.set_content(page_of(drawing, filled, scale))
            page.screenshot(path=ICONS / f"{name}.png", omit_background=not filled)
            page.close()
        browser.close()


if __name__ == "__main__":
    main()
