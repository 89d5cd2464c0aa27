"""Faults put into the browser's own storage, under the app: what phones do when memory or disk run short.

From outside the app nothing is known of its code, only that it keeps its book in IndexedDB.
"""

from playwright.sync_api import BrowserContext, Page

# `faults.write`: what befalls the next transactions that write entries; `faults.times`: how many of them.
#   UnknownError, InvalidStateError   the handle is dead, as WebKit leaves it after a pause in the background
#   abort                             the request succeeds and the transaction is aborted at its end, error null
#   hang                              the transaction takes the request and does not end while this stands
#   refuse                            no write at all, of whatever, as in some private windows
SCRIPT = """
(() => {
  const faults = { write: null, times: Infinity, opened: 0, met: 0 };
  Object.defineProperty(globalThis, 'faults', { value: faults });
  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (...words) {
    faults.opened += 1;
    return open.apply(this, words);
  };
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (stores, mode, ...more) {
    const named = [stores].flat();
    if (mode !== 'readwrite' || faults.write === null || faults.times <= 0) {
      return transaction.call(this, stores, mode, ...more);
    }
    if (faults.write === 'refuse') {
      throw new DOMException('A mutation operation was attempted on a database that did not allow mutations.',
        'InvalidStateError');
    }
    if (!named.includes('entries')) return transaction.call(this, stores, mode, ...more);
    faults.times -= 1;
    faults.met += 1;
    if (faults.write.endsWith('Error')) {
      throw new DOMException('Connection to Indexed Database server lost. Refresh the page to try again', faults.write);
    }
    const made = transaction.call(this, stores, mode, ...more);
    const { write } = faults;
    const store = made.objectStore('entries');
    const again = () => {
      const request = store.get('nobody');
      request.onsuccess = () => {
        if (write === 'abort') made.abort();
        else if (faults.write === 'hang') again();
      };
    };
    again();
    return made;
  };
})();
"""


def put_faults_in(context: BrowserContext) -> None:
    """From the next page on; all is well until `befall`."""
    context.add_init_script(SCRIPT)


def befall(page: Page, write: str | None, times: int | None = None) -> None:
    """What happens to the next writes; None: all is well again."""
    page.evaluate("([write, times]) => { faults.write = write; faults.times = times ?? Infinity }", [write, times])


def opened(page: Page) -> int:
    """How often the app asked for a database since the page came."""
    return int(page.evaluate("faults.opened"))
