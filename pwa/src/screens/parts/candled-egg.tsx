// What a lamp shows through a shell, as a picture for each finding. Drawn by us.
import type { JSX } from "preact";

export type LampPicture = "live" | "clear" | "blood_ring" | "quitter" | "air_cell";

const SHELL = "M40 4C56 4 74 30 74 58C74 81 59 96 40 96C21 96 6 81 6 58C6 30 24 4 40 4Z";
const line = (width = 2.2) => ({
  fill: "none",
  stroke: "currentColor",
  "stroke-width": width,
  "stroke-linecap": "round" as const,
});
const solid = { fill: "currentColor" };

const DRAWINGS: Record<LampPicture, () => JSX.Element> = {
  live: () => (
    <>
      <ellipse cx="40" cy="52" rx="6" ry="5" {...solid} />
      <path
        d="M35 49C26 44 22 38 20 32M46 49C54 44 58 38 60 31M34 54C24 56 17 60 14 66M46 54C56 56 63 60 66 66M40 57C39 68 34 76 28 82M41 57C43 68 48 76 54 81"
        {...line()}
      />
      <path d="M24 41L16 42M57 41L64 43M21 60L18 52M59 60L63 52M36 72L42 80" {...line(1.6)} />
    </>
  ),
  clear: () => <circle cx="40" cy="56" r="17" {...line(1.4)} stroke-dasharray="2 5" />,
  blood_ring: () => <ellipse cx="40" cy="54" rx="19" ry="16" {...line(4.5)} />,
  quitter: () => <path d="M22 60C20 48 34 42 44 46C56 50 62 62 54 72C46 82 24 78 22 60Z" {...solid} />,
  air_cell: () => (
    <>
      <path d="M22 19C31 24 49 24 58 19" {...line()} />
      <path d="M14 32C28 39 52 39 66 32" {...line()} stroke-dasharray="6 4" />
      <path d="M10 42C26 51 54 51 70 42" {...line()} stroke-dasharray="2 4" />
    </>
  ),
};

/** Always beside its words: hidden from readers. */
export function CandledEgg({
  shows,
  height = 72,
}: {
  readonly shows: LampPicture;
  readonly height?: number;
}) {
  return (
    <svg
      class="egg"
      style={{ height: `${height / 16}rem`, width: `${(height * 0.8) / 16}rem` }}
      viewBox="0 0 80 100"
      aria-hidden="true"
    >
      <path d={SHELL} {...line(2.6)} />
      {DRAWINGS[shows]()}
    </svg>
  );
}
