// A large egg as the frame of a picture: what is drawn inside shows a finding. Drawn by us.
import type { ComponentChildren } from "preact";

const SHELL = "M40 4C56 4 74 30 74 58C74 81 59 96 40 96C21 96 6 81 6 58C6 30 24 4 40 4Z";

export const line = (width = 2.4) => ({
  fill: "none",
  stroke: "currentColor",
  "stroke-width": width,
  "stroke-linecap": "round" as const,
  "stroke-linejoin": "round" as const,
});
export const solid = { fill: "currentColor" };

interface ShellDrawingProps {
  /** Height in px at 100 % text. */
  readonly height?: number | undefined;
  readonly children: ComponentChildren;
}

/** Always beside its words: hidden from readers. */
export function ShellDrawing({ height = 72, children }: ShellDrawingProps) {
  return (
    <svg
      class="egg"
      style={{ height: `${height / 16}rem`, width: `${(height * 0.8) / 16}rem` }}
      viewBox="0 0 80 100"
      aria-hidden="true"
    >
      <path d={SHELL} {...line(2.6)} />
      {children}
    </svg>
  );
}
