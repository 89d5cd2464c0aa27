// A newer app is ready: said on every screen, put in place when the keeper says so.
import { useState } from "preact/hooks";
import { UpdatePrompt } from "../screens/parts/update-prompt.tsx";
import { newerApp } from "../state/newer-app.ts";
import { isHalfTyped } from "./half-typed.ts";
import { update } from "./words/update.ts";

export function NewerApp() {
  const [state, setState] = useState<"told" | "warned" | "later">("told");
  const newer = newerApp.value;
  if (!newer || (state === "later" && !newer.needed)) return null;
  const { half, ...words } = update;
  return (
    <UpdatePrompt
      words={state === "warned" ? { ...words, ...half } : words}
      onNow={() => {
        if (state !== "warned" && isHalfTyped()) setState("warned");
        else newer.take();
      }}
      onLater={() => setState("later")}
    />
  );
}
