// Papers about what a page shows, made by the server; said so where it cannot be reached.
import { useState } from "preact/hooks";
import { asking } from "../app/words/asking.ts";
import { papers as words } from "../app/words/papers.ts";
import { takeFile } from "../state/files.ts";
import { serverNear } from "../state/server-near.ts";
import { download } from "./parts/download.ts";
import { Section } from "./section.tsx";
import { useWaited } from "./waited.ts";

interface PaperLink {
  /** Behind /api/v1/. */
  readonly path: string;
  readonly what: string;
}

/** of: what the papers are about, for whoever hears the links. */
export function PaperLinks({ of, links }: { of: string; links: readonly PaperLink[] }) {
  const near = serverNear.value;
  return (
    <div class="no-print">
      <Section title={words.onPaper}>
        {near === "near" ? (
          <div class="acts">
            {links.map((link) => (
              <Paper key={link.path} {...link} of={of} />
            ))}
          </div>
        ) : (
          <p class="quiet">
            {links.map(({ what }) => what).join(", ")}: {words.madeThere[near]}
          </p>
        )}
      </Section>
    </div>
  );
}

/** A link all the same, so that it can be opened in a tab of its own; a tap shows how long the server is at it. */
export function Paper({ path, what, of }: PaperLink & { readonly of: string }) {
  const [state, setState] = useState<string>("still");
  const seconds = useWaited(state === "making");
  const href = `/api/v1/${path}`;
  const take = async () => {
    setState("making");
    const told = await takeFile(href);
    if (told.kind === "ok") download(told.value.name, told.value.file);
    setState(told.kind === "ok" ? "still" : told.kind === "away" ? "away" : told.words);
  };
  const said = state === "still" ? "" : state === "making" ? words.making(seconds) : state;
  return (
    <>
      <a
        class="press plain"
        href={href}
        aria-label={words.named(what, of)}
        target="_self"
        download
        onClick={(event) => {
          event.preventDefault();
          if (state !== "making") void take();
        }}
      >
        {what}
      </a>
      <span role="status" class={said ? "paper-told" : "heard"}>
        {said && `${what}: ${said === "away" ? asking.away : said}`}
      </span>
    </>
  );
}
