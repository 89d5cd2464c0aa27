// What the ticks of the bars below are, in a table's head: the first and the last flush with the ends of the axis.

interface BarAxisProps {
  /** Place as a share of the axis, and its figure; the first of rates has the unit, for there is room. */
  readonly marks: readonly (readonly [number, string])[];
}

export function BarAxis({ marks }: BarAxisProps) {
  return (
    <svg class="interval axis-words" aria-hidden="true" height="20">
      {marks.map(([at, told]) => (
        <text
          key={told}
          x={`${at * 100}%`}
          y="80%"
          text-anchor={at === 0 ? "start" : at === 1 ? "end" : "middle"}
        >
          {told}
        </text>
      ))}
    </svg>
  );
}

/** Of rates from 0 to `most`, a share of 1. */
export const rateMarks = (most = 1): BarAxisProps["marks"] => [
  [0, "0 %"],
  [0.5, String(most * 50)],
  [1, String(most * 100)],
];
