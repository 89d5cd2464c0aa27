// The width a drawing has, and the size of its text, so that it can be drawn at one to one.
import { useLayoutEffect, useRef, useState } from "preact/hooks";

export interface DrawnWidth {
  readonly width: number;
  /** px of 1 rem: the keeper's text size. */
  readonly text: number;
}

/** Follows the width of the element that holds `ref`. Starts at a phone's width. */
export function useDrawnWidth<T extends Element>(start = 354) {
  const ref = useRef<T>(null);
  const [size, setSize] = useState<DrawnWidth>({ width: start, text: 16 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element || typeof ResizeObserver === "undefined") return;
    const measure = () => {
      const width = Math.round(element.getBoundingClientRect().width);
      const text = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
      if (width > 0) setSize((old) => (old.width === width && old.text === text ? old : { width, text }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return { ref, ...size };
}
