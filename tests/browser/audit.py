"""What a screen is held to: axe with target-size, letters of 16 px and up, targets of 56 and 72 px, nothing cut off."""

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

AXE = Path(__file__).parents[2] / "pwa" / "node_modules" / "axe-core" / "axe.min.js"
AUDIT = """async (only) => {
  const rules = only ? { runOnly: only } : { rules: { 'target-size': { enabled: true } } };
  const { violations } = await axe.run(document, { ...rules, resultTypes: ['violations'] });
  return violations.map((one) => `${one.id}: ${one.nodes[0].target}`);
}"""
OF_THEMES = ["color-contrast", "link-in-text-block", "target-size"]
"""What may differ from theme to theme, where markup and words are the same."""
MEASURE = """() => {
  const shown = (element) => element.getClientRects().length > 0;
  const told = (element) => (element.textContent || element.tagName).trim().slice(0, 30);
  const small = [...document.querySelectorAll('button, a, input, select, summary')].filter(shown).filter((element) => {
    const { width, height } = element.getBoundingClientRect();
    const least = element.closest('.keys, .mark-keys, .foot-taps') ? 72 : 56;
    return height < least - 0.5 || (width < least - 0.5 && !element.closest('.tabs'));
  });
  const tiny = [...document.querySelectorAll('body *')].filter(shown).filter((element) =>
    [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim()) &&
    parseFloat(getComputedStyle(element).fontSize) < 16);
  const cut = [...document.querySelectorAll('nav.bottom a')].some((one) => one.scrollWidth > one.clientWidth);
  const sideways = cut || document.documentElement.scrollWidth > innerWidth;
  return { small: small.map(told), tiny: tiny.map(told), sideways };
}"""
SOUND = {"small": [], "tiny": [], "sideways": False}


def audit(page: Page, only: list[str] | None = None) -> dict[str, Any]:
    """only: axe's rules to ask; None: all of them."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text())
    return {"axe": page.evaluate(AUDIT, only), **page.evaluate(MEASURE)}


def audit_large(page: Page) -> dict[str, Any]:
    """The same again at 320 px and with letters twice as large (WCAG 2.2, 1.4.4 and 1.4.10)."""
    wide = page.viewport_size
    page.set_viewport_size({"width": 320, "height": 640})
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.wait_for_timeout(100)  # drawings follow the width a frame later
    found = audit(page)
    page.evaluate("document.documentElement.style.fontSize = ''")
    if wide is not None:
        page.set_viewport_size(wide)
    _as_opened(page)
    return found


def _as_opened(page: Page) -> None:
    """A phone that turns keeps what share of the page it showed: after wide letters it would stand magnified."""
    asked = page.context.new_cdp_session(page)
    for _ in range(100):  # asked again: a page that is still being laid out takes the scale up anew
        asked.send("Emulation.resetPageScaleFactor")
        page.wait_for_timeout(20)
        if page.evaluate("visualViewport.scale") == 1:
            asked.detach()
            return
        page.wait_for_timeout(80)
    raise AssertionError("the page stays magnified")


def assert_sound(page: Page) -> None:
    """All of it as the screen stands now, what is open and typed on it included."""
    assert audit(page) == {"axe": [], **SOUND}
    assert audit_large(page) == {"axe": [], **SOUND}


def assert_large_keys(page: Page) -> None:
    page.locator(".keys").wait_for()
    sizes = page.locator(".keys button").evaluate_all(
        "(keys) => keys.map((key) => key.getBoundingClientRect()).map(({ width, height }) => [width, height])"
    )
    assert len(sizes) >= 6
    assert min(min(size) for size in sizes) >= 72, sizes
