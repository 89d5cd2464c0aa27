import { computed, type ReadonlySignal } from "@preact/signals";
import { desk } from "./desk.ts";
import { syncState } from "./opening.ts";

/** Whether what only the server makes can be had now, as far as the last exchange tells. */
export const serverNear: ReadonlySignal<"near" | "away" | "unpaired"> = computed(() => {
  if (desk.value?.card.paired_ms == null) return "unpaired";
  const fault = syncState.value?.fault?.code;
  return fault === "unreachable" || fault === "not_ours" ? "away" : "near";
});
