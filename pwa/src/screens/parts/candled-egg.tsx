// What a lamp shows through a shell, as a picture for each finding. Drawn by us.
import type { JSX } from "preact";
import { line, ShellDrawing, solid } from "./shell-drawing.tsx";

export type LampPicture = "live" | "clear" | "blood_ring" | "quitter" | "air_cell";

const DRAWINGS: Record<LampPicture, () => JSX.Element> = {
  live: () => (
    <>
      <ellipse cx="40" cy="52" rx="6" ry="5" {...solid} />
      <path
        d="M35 49C26 44 22 38 20 32M46 49C54 44 58 38 60 31M34 54C24 56 17 60 14 66M46 54C56 56 63 60 66 66M40 57C39 68 34 76 28 82M41 57C43 68 48 76 54 81"
        {...line(2.2)}
      />
      <path d="M24 41L16 42M57 41L64 43M21 60L18 52M59 60L63 52M36 72L42 80" {...line(1.6)} />
    </>
  ),
  clear: () => <circle cx="40" cy="56" r="17" {...line(1.4)} stroke-dasharray="2 5" />,
  blood_ring: () => <ellipse cx="40" cy="54" rx="19" ry="16" {...line(4.5)} />,
  quitter: () => <path d="M22 60C20 48 34 42 44 46C56 50 62 62 54 72C46 82 24 78 22 60Z" {...solid} />,
  air_cell: () => (
    <>
      <path d="M22 19C31 24 49 24 58 19" {...line(2.2)} />
      <path d="M14 32C28 39 52 39 66 32" {...line(2.2)} stroke-dasharray="6 4" />
      <path d="M10 42C26 51 54 51 70 42" {...line(2.2)} stroke-dasharray="2 4" />
    </>
  ),
};

interface CandledEggProps {
  readonly shows: LampPicture;
  readonly height?: number;
}

export function CandledEgg({ shows, height }: CandledEggProps) {
  return <ShellDrawing height={height}>{DRAWINGS[shows]()}</ShellDrawing>;
}
