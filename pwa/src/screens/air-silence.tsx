// A thermometer's alarm, silenced for a while: while the machine is cleaned, or the keeper is at it anyway.
import { air as words } from "../app/words/air.ts";
import { airSilencedUntil, silenceAir } from "../state/machine.ts";
import { standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { clock, dayWords } from "./told-time.ts";

const HOURS = 4;
const HOUR_MS = 3_600_000;

export function AirSilence({ place, now_ms }: { place: string; now_ms: number }) {
  const until_ms = airSilencedUntil(place, now_ms);
  const { zone } = standing.value.keeper;
  return (
    <Section title={words.silence.title}>
      <p class="quiet">{words.silence.why}</p>
      {until_ms === null ? (
        <div class="acts">
          <Press onPress={() => void silenceAir(place, new Date(now_ms + HOURS * HOUR_MS))}>
            {words.silence.act(HOURS)}
          </Press>
        </div>
      ) : (
        <p role="status">{words.silence.until(`${dayWords(until_ms, zone)}, ${clock(until_ms, zone)}`)}</p>
      )}
    </Section>
  );
}
