// One foot of a bird, drawn by us: three toes, two webs. A punched web is a ring with nothing in it, told in words too.
import type { Pattern, Web } from "../../trade/marks.ts";
import { Press } from "./press.tsx";

type Side = "left" | "right";

/** The webs of each foot from left to right, seen from behind. */
export const WEBS_OF: Readonly<Record<Side, readonly [Web, Web]>> = {
  left: ["LO", "LI"],
  right: ["RI", "RO"],
};

const LEFT_WEB = "M82 150Q48 118 20 64Q56 78 82 28Z";
const RIGHT_WEB = "M82 150Q116 118 144 64Q108 78 82 28Z";
const TOES = "M82 192V146M82 150Q46 118 17 56M82 150V16M82 150Q118 118 147 56";
const HOLES = [59, 105] as const;
const HOLE_Y = 94;

interface FootDrawingProps {
  readonly side: Side;
  readonly punched: Pattern;
  /** Soles up: what was on the left is on the right. */
  readonly mirrored: boolean;
}

export function FootDrawing({ side, punched, mirrored }: FootDrawingProps) {
  const shown = mirrored ? [...WEBS_OF[side]].reverse() : WEBS_OF[side];
  // The hind toe turns inward; it tells left from right even where no word is read.
  const inward = (side === "left") !== mirrored ? "M82 160Q96 178 116 182" : "M82 160Q68 178 48 182";
  return (
    <svg class="foot-drawing" viewBox="0 0 164 200" aria-hidden="true">
      {shown.map((web, at) => (
        <path key={web} class="web" d={at === 0 ? LEFT_WEB : RIGHT_WEB} />
      ))}
      <path class="toes" d={TOES} />
      <path class="toes thin" d={inward} />
      {mirrored && <path class="pads" d="M18 59h0M82 20h0M146 59h0M82 150h0" />}
      {shown.map((web, at) =>
        punched.includes(web) ? <circle key={web} class="hole" cx={HOLES[at]} cy={HOLE_Y} r="15" /> : null,
      )}
    </svg>
  );
}

interface FeetProps {
  readonly punched: Pattern;
  readonly mirrored: boolean;
  readonly onTap: (web: Web) => void;
  readonly words: {
    readonly feet: Readonly<Record<Side, string>>;
    readonly web: Readonly<Record<Web, string>>;
    readonly webName: (web: Web) => string;
    readonly punched: string;
    readonly whole: string;
  };
}

/** Both feet with a button on each web, in the order in which they are seen. */
export function Feet({ punched, mirrored, onTap, words }: FeetProps) {
  const sides: readonly Side[] = mirrored ? ["right", "left"] : ["left", "right"];
  return (
    <div class="feet">
      {sides.map((side) => {
        const webs = mirrored ? [...WEBS_OF[side]].reverse() : WEBS_OF[side];
        return (
          <fieldset class="foot" key={side} aria-label={words.feet[side]}>
            <FootDrawing side={side} punched={punched} mirrored={mirrored} />
            <div class="foot-taps">
              {webs.map((web) => (
                <Press
                  key={web}
                  kind="bare"
                  role="switch"
                  name={words.webName(web)}
                  checked={punched.includes(web)}
                  onPress={() => onTap(web)}
                >
                  <span class="foot-words">
                    {words.web[web]}
                    <br />
                    <b>{punched.includes(web) ? words.punched : words.whole}</b>
                  </span>
                </Press>
              ))}
            </div>
            <span class="quiet" aria-hidden="true">
              {words.feet[side]}
            </span>
          </fieldset>
        );
      })}
    </div>
  );
}

/** Both feet small, as they stand: what one chick will look like. */
export function FeetPreview({
  punched,
  mirrored,
}: {
  readonly punched: Pattern;
  readonly mirrored: boolean;
}) {
  const sides: readonly Side[] = mirrored ? ["right", "left"] : ["left", "right"];
  return (
    <div class="feet-preview">
      {sides.map((side) => (
        <FootDrawing key={side} side={side} punched={punched} mirrored={mirrored} />
      ))}
    </div>
  );
}
