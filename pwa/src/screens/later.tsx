import type { ComponentType, FunctionComponent } from "preact";
import { useEffect, useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { path } from "../state/whereabouts.ts";
import { Page } from "./page.tsx";

type Load<P> = () => Promise<ComponentType<P>>;

/** A screen whose script comes after the first ones. `fetch` brings it before anybody asks for it. */
export type LaterScreen<P> = FunctionComponent<P> & { readonly fetch: () => Promise<void> };

/**
 * A screen that is not needed to open the app and count eggs, so its script does not hold those up. The service
 * worker keeps it with the rest of the build; where there is no worker, `fetch` at the start keeps it in the page.
 * isPart: only a part of a screen, whose want says nothing.
 */
export function later<P extends object>(load: Load<P>, isPart = false): LaterScreen<P> {
  let screen: ComponentType<P> | null = null;
  const fetch = async () => {
    screen ??= await load();
  };

  function Later(props: P) {
    const [state, setState] = useState<"waiting" | "here" | "missing">(screen ? "here" : "waiting");
    useEffect(() => {
      let shown = true;
      const settle = (now: "here" | "missing") => shown && setState(now);
      fetch().then(
        () => settle("here"),
        () => settle("missing"),
      );
      return () => {
        shown = false;
      };
    }, []);
    if (state === "missing" && !isPart) return <Missing />;
    const Screen = screen;
    return Screen && <Screen {...props} />;
  }

  return Object.assign(Later, { fetch });
}

/** A link with a target is the browser's: it loads the page anew, and with it the script. */
function Missing() {
  const { title, remedy, go } = everywhere.screenMissing;
  return (
    <Page headline={title} under={remedy}>
      <a class="press" href={path.value} target="_self">
        {go}
      </a>
    </Page>
  );
}
