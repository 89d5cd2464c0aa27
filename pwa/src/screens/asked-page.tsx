// A page whose answer is the server's: what stands there until it came, where it did not come, and the way back.
import type { ComponentChildren } from "preact";
import { asking } from "../app/words/asking.ts";
import { desk } from "../state/desk.ts";
import type { Told } from "../state/told.ts";
import type { Asked } from "./asked.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { clock, dayWords } from "./told-time.ts";

interface AskedPageProps<T> {
  readonly headline: string;
  readonly under?: string;
  readonly asked: Asked<T>;
  /** The question, asked again where it has no answer. */
  readonly ask: () => Promise<Told<T>>;
  readonly children: ComponentChildren;
}

export function AskedPage<T>({ headline, under, asked, ask, children }: AskedPageProps<T>) {
  const { value, fault, act } = asked;
  return (
    <Page headline={headline} {...(under === undefined ? {} : { under })}>
      {fault && (
        <Notice tone="watch" live>
          {fault}
        </Notice>
      )}
      {!value && !fault && <p role="status">{asking.waiting}</p>}
      {!value && fault && (
        <div class="acts">
          <Press onPress={() => void act(ask())}>{asking.again}</Press>
        </div>
      )}
      {children}
      <div class="acts">
        <a class="press plain" href="/phone">
          {asking.toPhone}
        </a>
      </div>
    </Page>
  );
}

/** A moment of the server's, by the holding's clock. */
export function whenThere(at_ms: number): string {
  const zone = desk.value?.zone() ?? "UTC";
  return `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
}
