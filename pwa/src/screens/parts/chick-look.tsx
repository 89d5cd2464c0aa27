// Chicks in a brooder from above, drawn by us: a round wall, the heat as a broken ring, a dozen bodies with a beak each.
import type { Look } from "../../book/warmth.ts";

/** Where a chick stands (of 120 by 100) and which way it looks, degrees from the right. */
type Chick = readonly [x: number, y: number, turn: number];

const CHICKS: Readonly<Record<Look, readonly Chick[]>> = {
  spread: [
    [24, 34, 20],
    [44, 22, 200],
    [72, 20, 90],
    [96, 34, 160],
    [30, 60, 300],
    [51, 44, 40],
    [73, 50, 220],
    [98, 60, 10],
    [42, 80, 350],
    [64, 74, 120],
    [84, 80, 240],
  ],
  huddled: [
    [49, 41, 45],
    [61, 37, 90],
    [72, 42, 135],
    [46, 51, 10],
    [58, 48, 60],
    [69, 52, 180],
    [75, 55, 200],
    [50, 60, 320],
    [61, 59, 270],
    [70, 63, 235],
    [56, 66, 290],
  ],
  away: [
    [19, 40, 190],
    [29, 26, 215],
    [46, 16, 250],
    [75, 16, 290],
    [92, 25, 320],
    [102, 41, 350],
    [102, 60, 10],
    [91, 77, 45],
    [29, 77, 135],
    [18, 61, 170],
    [60, 87, 90],
  ],
  one_side: [
    [17, 42, 180],
    [25, 31, 200],
    [17, 54, 170],
    [27, 44, 185],
    [28, 56, 175],
    [24, 67, 160],
    [36, 36, 200],
    [37, 49, 180],
    [36, 62, 170],
    [34, 74, 150],
    [36, 24, 210],
  ],
};

/** Without a name: what it shows stands in words beside it. */
export function ChickLook({ look }: { look: Look }) {
  return (
    <svg class="chick-look" viewBox="0 0 120 100" aria-hidden="true">
      <ellipse class="wall" cx="60" cy="51" rx="55" ry="46" />
      <circle class="heat-ring" cx="60" cy="51" r="24" />
      {look === "one_side" && (
        <path class="draught" d="M116 36q-9-6-17 0t-17 0M116 51q-9-6-17 0t-17 0M116 66q-9-6-17 0t-17 0" />
      )}
      {CHICKS[look].map(([x, y, turn]) => (
        <g key={`${x} ${y}`} transform={`translate(${x} ${y}) rotate(${turn})`}>
          <path class="chick" d="M-8 0C-8-5-2-6 2-4.5A4.6 4.6 0 1 1 2 4.5C-2 6-8 5-8 0Z" />
          <path class="beak" d="M8.5-1.8 12.5 0 8.5 1.8Z" />
        </g>
      ))}
    </svg>
  );
}
