// An order of an authority that is in force, said beside every coming and going.
import { orders as words } from "../app/words/treating.ts";
import type { Order } from "../book/bodies.generated.ts";
import type { Standing } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { Notice } from "./parts/notice.tsx";
import { dayTold } from "./told-day.ts";

export interface OneOrder {
  readonly id: string;
  readonly body: Readonly<Order>;
}

/** Orders in force on a day, the latest first. Its first and its last day count. */
export function ordersOn({ heads }: Standing, day: string): OneOrder[] {
  return (heads.order ?? [])
    .map(({ root, body }) => ({ id: root, body }))
    .filter(({ body }) => body.since.slice(0, 10) <= day && (!body.until || day <= body.until.slice(0, 10)))
    .sort((a, b) => (a.body.since < b.body.since ? 1 : -1));
}

export function OrderNotice({ today }: { today: string }) {
  const running = ordersOn(standing.value, today);
  if (running.length === 0) return null;
  return (
    <Notice tone="watch">
      {running.map(({ id, body }) => (
        <p key={id}>
          <b>{words.running(body.text, dayTold(body.since.slice(0, 10)))}</b> {words.caution[body.kind]}
        </p>
      ))}
      <p>
        <a class="press bare" href="/birds/orders">
          {words.see}
        </a>
      </p>
    </Notice>
  );
}
