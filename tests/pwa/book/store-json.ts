import type { EggStore } from "../../../pwa/src/book/egg-store.ts";

/** The store in the words of the server's report. */
export function storeJson({ on, n, families }: EggStore): unknown {
  return {
    on,
    n,
    families: families.map(({ oldestDays, kept7d, parcels, ...rest }) => ({
      ...rest,
      oldest_days: oldestDays,
      kept_7d: kept7d,
      parcels: parcels.map(({ ageDays, ...parcel }) => ({ ...parcel, age_days: ageDays })),
    })),
  };
}
