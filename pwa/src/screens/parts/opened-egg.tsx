// An egg opened at the blunt end, cut through, as a picture for each stage at which it may have died. Drawn by us.
import type { JSX } from "preact";
import { line, ShellDrawing, solid } from "./shell-drawing.tsx";

export type OpenedStage =
  | "infertile"
  | "dead_early"
  | "dead_mid"
  | "dead_late"
  | "dead_internal_pip"
  | "dead_external_pip";

const AIR_CELL = "M17.5 26C29 33 51 33 62.5 26";
const HEAD = "M31 42a11.500 11.500 0 1 1 18 9";

const soft = { fill: "var(--band)", stroke: "currentColor", "stroke-width": 2 };

/** Down: short strokes along a back. */
const DOWN = "M24 66l-5 3M24 74l-5 4M28 81l-4 5M36 86l-1 6M46 87l2 5M55 82l4 5M59 74l5 4M60 66l5 2";

const DRAWINGS: Record<OpenedStage, () => JSX.Element> = {
  // A yolk with its pale spot, and nothing else.
  infertile: () => (
    <>
      <circle cx="40" cy="61" r="20" {...soft} />
      <circle cx="40" cy="56" r="2.600" {...solid} />
    </>
  ),
  // Blood on the yolk, a speck with an eye.
  dead_early: () => (
    <>
      <circle cx="40" cy="61" r="20" {...soft} />
      <circle cx="40" cy="58" r="12" {...line(2.6)} />
      <path d="M40 58L28 58M40 58L47 68M40 58L48 49M40 58L33 68" {...line(1.8)} />
      <path d="M36 60C35 54 43 52 44 57C44.500 60 41 62 39 61Z" {...solid} />
    </>
  ),
  // A small bare body: more head than anything, a great eye.
  dead_mid: () => (
    <>
      <path
        d="M33 46C37 38 51 39 52 49C52.500 55 47 57 48 62C50 72 44 80 34 78C25 76 23 67 28 60C31 56 30 52 33 46Z"
        {...soft}
      />
      <circle cx="44" cy="48" r="4.200" {...solid} />
      <path d="M52 50L57 52L51 54M31 64L24 62M38 77L40 84M31 76L28 82" {...line()} />
    </>
  ),
  // Down all over, the yolk still outside, the head below the air cell.
  dead_late: () => (
    <>
      <path
        d="M27 56C20 70 28 86 41 86C55 86 63 70 55 56C52 50 50 51 48 52L33 52C31 51 29 52 27 56Z"
        {...soft}
      />
      <path d={HEAD} {...soft} />
      <path d={DOWN} {...line(1.8)} />
      <circle cx="41" cy="44" r="2.200" {...solid} />
      <path d="M31 43L24 47L32 48" {...line()} />
      <path d="M33 70a8.500 8.500 0 1 0 16 0" fill="var(--paper)" stroke="currentColor" stroke-width="2" />
    </>
  ),
  // The beak is through into the air cell.
  dead_internal_pip: () => (
    <>
      <path d="M20 50C12 68 22 90 40 90C59 90 68 68 60 50C55 42 25 42 20 50Z" {...soft} />
      <circle cx="40" cy="40" r="11" {...soft} />
      <path d={DOWN} {...line(1.8)} />
      <circle cx="43" cy="40" r="2.200" {...solid} />
      <path d="M35 31L38 17L45 30Z" {...solid} />
    </>
  ),
  // The shell itself is broken, the beak in the hole.
  dead_external_pip: () => (
    <>
      <path d="M20 50C12 68 22 90 40 90C59 90 68 68 60 50C55 42 25 42 20 50Z" {...soft} />
      <circle cx="42" cy="38" r="11" {...soft} />
      <path d={DOWN} {...line(1.8)} />
      <circle cx="43" cy="37" r="2.200" {...solid} />
      <path d="M52 31L66 27L53 41Z" {...solid} />
      <path d="M58 14L64 22L72 19L70 29L78 34L69 37L70 46L63 41" {...line(2.6)} />
    </>
  ),
};

interface OpenedEggProps {
  readonly stage: OpenedStage;
  readonly height?: number;
}

export function OpenedEgg({ stage, height }: OpenedEggProps) {
  return (
    <ShellDrawing height={height}>
      <path d={AIR_CELL} {...line(1.8)} />
      {DRAWINGS[stage]()}
    </ShellDrawing>
  );
}
