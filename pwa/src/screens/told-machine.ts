// What was done at a machine, as a line of the book: the figures as they were written, in the keeper's units.
import { gauge } from "../app/words/air.ts";
import { machine, power, toldMachine as words } from "../app/words/machine.ts";
import type { Entry } from "../book/entries.ts";
import { momentMs } from "../book/moments.ts";
import type { Standing } from "../book/standing.ts";
import { degreesText, massText, massUnit, temperatureText, temperatureUnit } from "./measures.ts";
import { placeName } from "./names.ts";
import { bodyOf } from "./told-entry.ts";

/** The heading of an entry about a machine; null for other kinds and for a body that lacks its figures. */
export function machineHeading(entry: Entry, totals: Standing): string | null {
  const unit = temperatureUnit(totals);
  const named = (place: string | undefined) =>
    placeName(totals, place && (totals.rootOf.get(place) ?? place));
  switch (entry.kind) {
    case "air": {
      const { dry_c, wet_c, humidity_pct, place } = bodyOf(entry, "air");
      if (typeof dry_c !== "number") return null;
      const parts = [
        temperatureText(dry_c, unit),
        typeof wet_c === "number" ? words.wet(temperatureText(wet_c, unit)) : null,
        typeof humidity_pct === "number" ? `${Math.round(humidity_pct)} %` : null,
      ];
      return words.air(named(place), parts.filter((part) => part !== null).join(", "));
    }
    case "gauge_checked": {
      const { gauge: name = "dry", reads, true_value, place } = bodyOf(entry, "gauge_checked");
      if (typeof reads !== "number" || typeof true_value !== "number") return null;
      const off = true_value - reads;
      const by =
        name === "humidity" ? `${Math.abs(off).toFixed(1)} ${gauge.percent}` : degreesText(off, unit);
      const found = off === 0 ? gauge.finds.true : off < 0 ? words.high(by) : words.low(by);
      return words.gauge(gauge.names[name], named(place), found);
    }
    case "turned": {
      const { side, place } = bodyOf(entry, "turned");
      return words.at(side ? machine.turnTo[side] : machine.act.turned, named(place));
    }
    case "watered":
    case "vented":
      return words.at(machine.act[entry.kind], named(bodyOf(entry, entry.kind).place));
    case "outage": {
      const { from, until } = bodyOf(entry, "outage");
      const [fromMs, untilMs] = [from, until].map((at) => (typeof at === "string" ? momentMs(at) : null));
      if (fromMs == null) return null;
      if (untilMs == null) return machine.powerOff;
      const minutes = Math.max(0, Math.round((untilMs - fromMs) / 60_000));
      return power.title.was(power.hours(Math.floor(minutes / 60), minutes % 60));
    }
    case "eggs_weighed": {
      const { n = 0, gross_g, tare_g, setting } = bodyOf(entry, "eggs_weighed");
      if (typeof gross_g !== "number" || typeof tare_g !== "number" || n < 1) return null;
      const place = totals.settings.get(totals.rootOf.get(setting ?? "") ?? setting ?? "")?.place;
      return words.weighed(n, massText((gross_g - tare_g) / n, massUnit(totals)), placeName(totals, place));
    }
    default:
      return null;
  }
}
