// No book could be opened: why, what to do, and copies of what lies in this browser.
import { attention } from "../app/words/attention.ts";
import type { storageFault } from "../state/opening.ts";
import { Notice } from "./parts/notice.tsx";
import { Rescue } from "./rescue.tsx";

export function UnopenedScreen({ fault }: { readonly fault: NonNullable<typeof storageFault.value> }) {
  const { what, remedy } = attention.storage[fault];
  return (
    <main class="page">
      <Notice tone="watch" live>
        <b>{what}</b> {remedy}
      </Notice>
      <Rescue />
    </main>
  );
}
