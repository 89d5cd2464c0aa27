// The frame around a screen: connection line on top, ways along the bottom or, at the desk, down the side.
import type { ComponentChildren } from "preact";
import { capital } from "../app/words/capital.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { ownWords } from "../book/own-words.ts";
import { attention, connection } from "../state/connection.ts";
import { standing } from "../state/standing.ts";
import { later } from "./later.tsx";
import { useNow } from "./now.ts";
import { BottomBar, SideBar, type Way } from "./parts/bars.tsx";
import { ConnectionLine } from "./parts/connection-line.tsx";
import { ago, clock } from "./told-time.ts";

/** What is wrong is seldom needed, and in the page soon after the start. */
export const AttentionNotices = later(
  () => import("./attention.tsx").then((it) => it.AttentionNotices),
  true,
);

const { nav, connection: words } = everywhere;

/** The four ways, the third by the keeper's own word. */
const mainWays = () => [
  { href: "/due", text: nav.due },
  { href: "/rooms", text: nav.rooms },
  { href: "/families", text: capital(ownWords(standing.value.keeper.words).family.many) },
  { href: "/book", text: nav.book },
];

const under = (path: string, href: string) =>
  path === href ||
  path.startsWith(`${href}/`) ||
  (href === "/rooms" && /^\/(setting|broods?|mark|again)(\/|$)/.test(path)) ||
  (href === "/families" && /^\/(eggs|birds?|pairing|plan)(\/|$)/.test(path));

const ways = (path: string, list: readonly { href: string; text: string }[]): Way[] =>
  list.map((way) => ({ ...way, here: under(path, way.href) }));

/** The connection in words. */
export function Connection() {
  const now_ms = useNow();
  const state = connection.value;
  if (state.kind === "only_here") {
    const since = state.oldest_ms === null ? "" : words.since(ago(state.oldest_ms, now_ms, words));
    return <ConnectionLine held="phone" what={words.onlyHere(state.n)} since={since} href="/phone" />;
  }
  if (state.kind === "saving")
    return <ConnectionLine held="phone" what={words.saving(state.n)} since="" href="/phone" />;
  if (state.kind === "new")
    return <ConnectionLine held="phone" what={words.nothing} since="" href="/phone" />;
  // The first question for a zone takes longer than all the rest of a start.
  const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;
  const at = state.complete_ms === null ? "" : clock(state.complete_ms, zone());
  return <ConnectionLine held="server" what={words.server} since={at} href="/phone" />;
}

interface ShellProps {
  readonly path: string;
  readonly children: ComponentChildren;
  /** A tally has its own ways out and needs the room of the bottom bar. */
  readonly bare: boolean;
}

export function Shell({ path, children, bare }: ShellProps) {
  const main = mainWays();
  const desk = [...main.slice(0, 3), { href: "/season", text: nav.season }, ...main.slice(3)];
  return (
    <div class="shell">
      <SideBar
        ways={ways(path, desk)}
        lower={ways(path, [{ href: "/phone", text: nav.phone }])}
        holding={standing.value.keeper.holding}
        names={{ main: nav.main, lower: nav.more }}
      />
      <div>
        <header>
          <Connection />
          {attention.value.length > 0 && <AttentionNotices />}
        </header>
        <main>{children}</main>
      </div>
      {!bare && <BottomBar ways={ways(path, main)} name={nav.main} />}
    </div>
  );
}
