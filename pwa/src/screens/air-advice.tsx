// What to do about air that strayed: in words, with what was published, and what nobody has checked.
import { air as words } from "../app/words/air.ts";
import { airLine, machine, power, status } from "../app/words/machine.ts";
import { publishedOn } from "../trade/guidance.ts";
import type { AirView } from "./air-view.ts";

export function AirAdvice({ view, place }: { view: AirView; place: string }) {
  const { wanted, unchecked } = view;
  const way = wanted.find((one) => one.way !== null)?.way ?? null;
  const air = wanted.find((one) => one.air !== null)?.air ?? null;
  const isLaid = wanted.some((one) => one.stage === "setter");
  return (
    <section class="section">
      {(way || air) && <h2>{words.todo}</h2>}
      {way && <p>{words[way]}</p>}
      {way && (
        <ul class="rows">
          {publishedOn(way).map((one) => (
            <li key={one.words}>
              {one.words}{" "}
              <span class="quiet small">{power.source(one.source, status[one.status] ?? "")}</span>
            </li>
          ))}
        </ul>
      )}
      {air && <p>{air === "dry" ? words.dryAir : words.moistAir}</p>}
      {air && isLaid && <p>{words.scales}</p>}
      {(way || air) && <p class="quiet small">{words.judgement}</p>}
      {unchecked.length > 0 && <p>{airLine.unchecked(unchecked.map((gauge) => airLine.gauges[gauge]))}</p>}
      <div class="acts">
        <a class="press plain" href={`/rooms/${place}/gauge`}>
          {machine.gauge}
        </a>
      </div>
    </section>
  );
}
