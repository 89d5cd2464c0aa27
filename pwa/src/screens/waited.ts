// How long a screen has waited for the server.
import { useEffect, useState } from "preact/hooks";

/** Whole seconds since `busy` became true; 0 where it is not. */
export function useWaited(busy: boolean): number {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    setSeconds(0);
    if (!busy) return;
    const timer = setInterval(() => setSeconds((so_far) => so_far + 1), 1000);
    return () => clearInterval(timer);
  }, [busy]);
  return seconds;
}
