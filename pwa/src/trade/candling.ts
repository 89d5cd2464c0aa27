/** What matters while eggs are looked through with a lamp, from the table that names each figure's source. */
import table from "@tables/candling.json";

interface Figure<Value> {
  readonly value: Value;
  readonly source: string;
}

/** Minutes a tray may stand outside the machine. */
export const TRAY_OUT_MIN: Figure<number> = table.tray_out;
/** Days until an egg one was not sure of is looked at again, from and to. */
export const LOOK_AGAIN_DAYS: Figure<readonly number[]> = table.look_again_days;
