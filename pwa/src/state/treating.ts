import type { Order, Treated } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { record } from "./actions.ts";
import { amend } from "./holding.ts";
import { standing } from "./standing.ts";

/** A treatment; its days are those that were typed. */
export function treat(body: Treated): Promise<Entry> {
  return record("treated", body);
}

/** A treatment that was changed: most often its end, or a day read again on the label. */
export function changeTreatment(id: string, body: Treated): Promise<Entry> {
  return amend(id, "treated", body);
}

/** An authority's order. */
export function takeOrder(body: Order): Promise<Entry> {
  return record("order", body);
}

/** An order is lifted: its last day. */
export function endOrder(id: string, until: string): Promise<Entry> {
  const head = standing.value.heads.order?.find(({ root }) => root === id);
  if (!head) throw new Error(`there is no order ${id}`);
  return amend(id, "order", { ...head.body, until });
}
