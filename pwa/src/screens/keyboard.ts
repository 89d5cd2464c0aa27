// Keys that answer wherever the focus is, for a pedal or a keypad; never while the keeper types.
import { useLayoutEffect, useRef } from "preact/hooks";

/** Calls `onKey` with each key pressed by itself, as long as the component is shown. */
export function useKeyboard(onKey: (key: string) => void): void {
  const latest = useRef(onKey);
  latest.current = onKey;
  useLayoutEffect(() => {
    const press = (event: KeyboardEvent) => {
      const typing = event.target instanceof HTMLElement && event.target.matches("input, select, textarea");
      if (typing || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
      latest.current(event.key);
    };
    document.addEventListener("keydown", press);
    return () => document.removeEventListener("keydown", press);
  }, []);
}
