// That the keeper turned reminders off on this phone: kept on it, because the server may not have heard of it yet. Read
// anew each time, for another window of the same app may have turned them on again.
const KEY = "broodline-reminders-off";
let here = false;

export function isTurnedOff(): boolean {
  try {
    return localStorage.getItem(KEY) !== null;
  } catch {
    return here;
  }
}

export function noteTurnedOff(off: boolean): void {
  here = off;
  try {
    if (off) localStorage.setItem(KEY, "yes");
    else localStorage.removeItem(KEY);
  } catch {
    // It lasts as long as the page.
  }
}
