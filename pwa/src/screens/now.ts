// The time a screen shows. It moves on by itself, so that "since 3 h" and the pin of today stay true.
import { useEffect, useState } from "preact/hooks";
import { correction_ms } from "../state/connection.ts";
import { openDesk } from "../state/desk.ts";

const EVERY_MS = 20_000;

/** Milliseconds since 1970 by the book's clock, anew every 20 s and when the app is looked at again. */
export function useNow(): number {
  const [phone_ms, setNow] = useState(() => openDesk().now_ms());
  useEffect(() => {
    const look = () => setNow(openDesk().now_ms());
    const timer = setInterval(look, EVERY_MS);
    document.addEventListener("visibilitychange", look);
    return () => {
      clearInterval(timer);
      document.removeEventListener("visibilitychange", look);
    };
  }, []);
  return phone_ms + correction_ms.value;
}
