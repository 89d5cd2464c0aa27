// One egg, drawn by us. Its state is told by shape and position, never by hue; no two shapes look alike when blurred.
import type { JSX } from "preact";

export type EggShape =
  | "hand"
  | "live"
  | "clear"
  | "blood_ring"
  | "quitter"
  | "unsure"
  | "locked"
  | "hatched"
  | "pipped"
  | "weak"
  | "lost"
  | "cracked"
  | "rotten"
  | "gone"
  | "missing"
  | "unhatched"
  | "infertile"
  | "dead_early"
  | "dead_mid"
  | "dead_late"
  | "dead_internal_pip"
  | "dead_external_pip";

const SHELL = "M13 2C19 2 23 11 23 18C23 25 18.5 30 13 30C7.5 30 3 25 3 18C3 11 7 2 13 2Z";
const LOWER_HALF = "M3.2 17H22.8C22.8 25 18.4 30 13 30C7.6 30 3.2 25 3.2 17Z";
const LEFT_HALF = "M13 2C7 2 3 11 3 18C3 25 7.5 30 13 30Z";
const BODY =
  "M5.2 11C8 13 18 13 20.8 11C22.4 14 23 16 23 18C23 25 18.5 30 13 30C7.5 30 3 25 3 18C3 16 3.6 14 5.2 11Z";
const CAP = "M4.4 11.5L8 14L13 10.2L18 14L21.6 11.5C20 5 17 1 13 1C9 1 6 5 4.4 11.5Z";
const CUP =
  "M2.5 19.5L7 23L10 19L13 23L16 19L19 23L23.5 19.5C22.5 27.5 18.5 31 13 31C7.5 31 3.5 27.5 2.5 19.500Z";

const line = (width: number) => ({
  fill: "none",
  stroke: "currentColor",
  "stroke-width": width,
  "stroke-linejoin": "round" as const,
});
const solid = { fill: "currentColor" };
const shell = (width = 2) => <path d={SHELL} {...line(width)} />;
const hollow = { fill: "var(--paper)" };

/** Draws the inside of a 26 x 32 field for each state. */
const DRAWINGS: Record<EggShape, () => JSX.Element> = {
  hand: () => shell(1.3),
  live: () => <path d={SHELL} {...solid} />,
  locked: () => (
    <>
      {shell()}
      <path
        d="M13 8C17 8 19 14 19 18C19 23 16.5 25.5 13 25.500C9.5 25.5 7 23 7 18C7 14 9 8 13 8Z"
        {...solid}
      />
    </>
  ),
  clear: () => shell(2.2),
  blood_ring: () => (
    <>
      {shell(1.3)}
      <circle cx="13" cy="18.500" r="5.500" {...line(3.6)} />
    </>
  ),
  quitter: () => (
    <>
      {shell()}
      <path d={LOWER_HALF} {...solid} />
    </>
  ),
  unsure: () => (
    <>
      {shell()}
      <path d={LEFT_HALF} {...solid} />
    </>
  ),
  hatched: () => (
    <>
      <path d={CUP} {...solid} />
      <path d={CAP} {...line(2)} />
    </>
  ),
  weak: () => (
    <>
      <path d={CUP} {...line(2)} />
      <path d={CAP} {...solid} />
    </>
  ),
  lost: () => (
    <>
      <path d={CUP} {...line(2)} />
      <path d="M6 3L20 13M20 3L6 13" {...line(2.6)} />
    </>
  ),
  pipped: () => (
    <>
      <path d={SHELL} {...solid} />
      <path d="M13 4L16 8L21 7L18.5 11L22 15L16.5 14L13 17.500L12.5 13L8 11.500L12.5 9Z" {...hollow} />
    </>
  ),
  cracked: () => (
    <>
      {shell()}
      <path
        d="M13 2C18 2 22 9.5 22.900 16L18.500 13L15.500 19L12 13L9.500 18.500L3.200 15.500C4.500 9 8 2 13 2Z"
        {...solid}
      />
    </>
  ),
  rotten: () => (
    <>
      {shell()}
      <path d="M20.2 7.5C22 11 23 15 23 18C23 25 18.5 30 13 30C9.8 30 7 28.4 5.2 25.8Z" {...solid} />
    </>
  ),
  gone: () => (
    <>
      <path
        d="M13 13C16.5 13 18.5 18 18.5 21.5C18.5 26 16 28.5 13 28.5C10 28.5 7.5 26 7.5 21.5C7.5 18 9.5 13 13 13Z"
        {...line(2)}
      />
      <path d="M8 4H18M14.5 1L18 4L14.5 7" {...line(2)} />
    </>
  ),
  missing: () => <path d={SHELL} {...line(2)} stroke-dasharray="3.2 4" />,
  unhatched: () => (
    <>
      {shell(1.3)}
      <path d="M4 17.500H22" {...line(6)} />
    </>
  ),
  infertile: () => (
    <path
      d="M13 4.300C17.500 4.3 20.700 12 20.700 18C20.700 23.500 17.500 27.700 13 27.700C8.500 27.7 5.300 23.500 5.300 18C5.300 12 8.500 4.3 13 4.300Z"
      {...line(4.6)}
    />
  ),
  dead_early: () => (
    <>
      {shell(1.3)}
      <circle cx="13" cy="22.500" r="4.600" {...solid} />
    </>
  ),
  dead_mid: () => (
    <>
      {shell(1.3)}
      <circle cx="13" cy="19.500" r="7.600" {...solid} />
    </>
  ),
  dead_late: () => (
    <>
      {shell()}
      <path d={BODY} {...solid} />
    </>
  ),
  dead_internal_pip: () => (
    <>
      {shell()}
      <path d={BODY} {...solid} />
      <path d="M6.5 13L13 3L19.5 13Z" {...solid} />
    </>
  ),
  dead_external_pip: () => (
    <>
      {shell()}
      <path d="M15 4L14 9L18 9.500L16.5 13.500L22 15" {...line(2.2)} />
      <path d="M4 17H22.800C22.8 25 18.4 30 13 30C7.6 30 3.2 25 4 17Z" {...solid} />
    </>
  ),
};

interface EggProps {
  readonly shape: EggShape;
  /** Height in px at 100 % text. */
  readonly height?: number;
  readonly lying?: boolean;
}

/** An egg standing, or lying on its side once it is out of the machine. Always beside a word: hidden from readers. */
export function Egg({ shape, height = 28, lying = false }: EggProps) {
  const rem = (px: number) => `${px / 16}rem`;
  const width = (height * 26) / 32;
  return lying ? (
    <svg
      class="egg"
      style={{ width: rem(height), height: rem(width) }}
      viewBox="0 0 32 26"
      aria-hidden="true"
    >
      <g transform="translate(32 0) rotate(90)">{DRAWINGS[shape]()}</g>
    </svg>
  ) : (
    <svg
      class="egg"
      style={{ width: rem(width), height: rem(height) }}
      viewBox="0 0 26 32"
      aria-hidden="true"
    >
      {DRAWINGS[shape]()}
    </svg>
  );
}
