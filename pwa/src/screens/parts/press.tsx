// A button for wet fingers: it acts when the first pointer lifts inside it, at once, and never twice.
// Once it wrote into the book what is left of a double tap is swallowed, by it and by whatever took its place.
import type { ComponentChildren } from "preact";
import { useRef } from "preact/hooks";
import { recent } from "../../state/recording.ts";

interface PressProps {
  readonly onPress: () => void;
  readonly children: ComponentChildren;
  readonly kind?: "main" | "firm" | "plain" | "bare";
  readonly class?: string;
  readonly off?: boolean;
  /** Each tap counts, however fast: one egg, one chick, one bird of a list. */
  readonly counts?: boolean;
  readonly name?: string;
  readonly role?: "radio" | "tab" | "switch";
  readonly checked?: boolean;
  readonly selected?: boolean;
  readonly expanded?: boolean;
  readonly keys?: string;
  readonly id?: string;
}

/** The default of Windows for a double click; phones take 300 ms (from memory). */
const DOUBLE_MS = 500;

/** Nobody sees what slid under the finger, and means it, sooner (common practice, no source). */
const SLID_MS = 400;
/** So far apart one finger that taps twice may land: half of what Android allows, 100 (from memory). */
const SLID_PX = 50;

type Tap = (PointerEvent | MouseEvent) & { readonly currentTarget: HTMLElement };

/** The last tap of any button, where it wrote or was swallowed. */
let wrote: { readonly tap: Tap; readonly on: HTMLElement } | null = null;

/** Whether a tap is what is left of a double tap. Where the page's clock stands still, nobody can tell. */
function isSecond(tap: Tap): boolean {
  if (!wrote) return false;
  const { tap: first, on } = wrote;
  const ms = tap.timeStamp - first.timeStamp;
  if (on === tap.currentTarget) return ms > 0 && ms < DOUBLE_MS;
  const apart = Math.abs(tap.clientX - first.clientX) + Math.abs(tap.clientY - first.clientY);
  return ms > 0 && ms < SLID_MS && apart < SLID_PX && tap.type !== "click" && !holds(on, first);
}

/** The entry written last; taking one back writes nothing here. */
const newest = () => recent.value.at(-1)?.id ?? "";

/** Whether a button lies where a tap was. */
function holds(on: HTMLElement, { clientX, clientY }: Tap): boolean {
  const box = on.getBoundingClientRect();
  return clientX >= box.left && clientX <= box.right && clientY >= box.top && clientY <= box.bottom;
}

/** A day outside what its field takes (a year of two digits, a day ahead) is shown to the keeper, and nothing saved. */
function hasImpossibleDay(): boolean {
  const wrong = document.querySelector<HTMLInputElement>('main input[type="date"]:invalid');
  wrong?.reportValidity();
  return wrong !== null;
}

export function Press(props: PressProps) {
  const down = useRef<number | null>(null);
  const acted = useRef(false);
  const act = (tap: Tap) => {
    if (props.off || (props.kind === "main" && hasImpossibleDay())) return;
    const on = tap.currentTarget;
    if (isSecond(tap)) {
      if (wrote?.on === on) wrote = { tap, on };
      return;
    }
    const before = newest();
    props.onPress();
    // A form that was refused for a fault in it wrote nothing, and may be sent again as fast as it is put right.
    wrote = !props.counts && newest() > before ? { tap, on } : null;
  };
  const spoken = {
    role: props.role,
    "aria-checked": props.checked,
    "aria-selected": props.selected,
    "aria-expanded": props.expanded,
    "aria-keyshortcuts": props.keys,
  };
  return (
    <button
      type="button"
      id={props.id}
      class={`press ${props.kind ?? "firm"} ${props.class ?? ""}`.trim()}
      aria-disabled={props.off ? "true" : undefined}
      aria-label={props.name}
      {...spoken}
      onPointerDown={(event) => {
        acted.current = false;
        down.current = event.isPrimary && event.button === 0 ? event.pointerId : null;
      }}
      onPointerCancel={() => {
        down.current = null;
      }}
      onPointerUp={(event) => {
        const same = event.isPrimary && down.current === event.pointerId && holds(event.currentTarget, event);
        down.current = null;
        if (!same) return;
        acted.current = true;
        act(event);
      }}
      // The browser makes a click out of a touch; left alone it would fall on whatever now lies under the finger.
      onTouchEnd={(event) => {
        if (!acted.current || !event.cancelable) return;
        event.preventDefault();
        acted.current = false; // no click follows; the next one is a keyboard's or a screen reader's own
      }}
      // Keyboards and screen readers send a click without a pointer.
      onClick={(event) => {
        if (acted.current) acted.current = false;
        else act(event);
      }}
    >
      {props.children}
    </button>
  );
}
