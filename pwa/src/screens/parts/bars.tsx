// The ways through the app: four along the bottom of a phone, a column at the desk.

export interface Way {
  readonly href: string;
  readonly text: string;
  readonly here: boolean;
}

function Links({ ways }: { ways: readonly Way[] }) {
  return (
    <>
      {ways.map((way) => (
        <a key={way.href} href={way.href} aria-current={way.here ? "page" : undefined}>
          <span>{way.text}</span>
        </a>
      ))}
    </>
  );
}

export function BottomBar({ ways, name }: { ways: readonly Way[]; name: string }) {
  return (
    <nav class="bottom" aria-label={name}>
      <Links ways={ways} />
    </nav>
  );
}

interface SideBarProps {
  readonly ways: readonly Way[];
  readonly lower: readonly Way[];
  readonly holding: string;
  readonly names: { readonly main: string; readonly lower: string };
}

export function SideBar({ ways, lower, holding, names }: SideBarProps) {
  return (
    <aside class="aside">
      <span class="name">Broodline</span>
      <span class="quiet">{holding}</span>
      <nav aria-label={names.main}>
        <Links ways={ways} />
      </nav>
      <nav class="lower" aria-label={names.lower}>
        <Links ways={lower} />
      </nav>
    </aside>
  );
}
