// A button for wet fingers: it acts when the first pointer lifts inside it, at once, and never twice.
// Once it wrote into the book it swallows what is left of a double tap, on itself and on whatever lies there by then.
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
/** So far apart one finger that taps twice may land (common practice, no source). */
const DOUBLE_PX = 24;

type Tap = UIEvent & { readonly clientX: number; readonly clientY: number };

/** The last tap, where it wrote or was swallowed. */
let wrote: { readonly tap: Tap; readonly on: EventTarget | null } | null = null;

/** A click that comes without a pointer has no place: then only the button itself counts. */
function isSecond(tap: Tap): boolean {
  const ms = wrote ? tap.timeStamp - wrote.tap.timeStamp : 0; // where the page's clock stands still, nobody can tell
  if (!wrote || ms <= 0 || ms >= DOUBLE_MS) return false;
  const apart = Math.abs(tap.clientX - wrote.tap.clientX) + Math.abs(tap.clientY - wrote.tap.clientY);
  return wrote.on === tap.currentTarget || (tap.type !== "click" && apart < DOUBLE_PX);
}

/** The entry written last; taking one back writes nothing here. */
const newest = () => recent.value.at(-1)?.id ?? "";

type Pointer = PointerEvent & { readonly currentTarget: HTMLButtonElement };

function within(event: Pointer): boolean {
  const box = event.currentTarget.getBoundingClientRect();
  return (
    event.clientX >= box.left &&
    event.clientX <= box.right &&
    event.clientY >= box.top &&
    event.clientY <= box.bottom
  );
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
    const second = isSecond(tap);
    const before = newest();
    if (!second) props.onPress();
    // A form that was refused for a fault in it wrote nothing, and may be sent again as fast as it is put right.
    wrote = second || (!props.counts && newest() > before) ? { tap, on } : null;
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
        const same = event.isPrimary && down.current === event.pointerId && within(event);
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
