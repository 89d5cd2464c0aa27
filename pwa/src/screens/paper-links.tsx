// Papers about what a page shows, made by the server; said so where it cannot be reached.
import { papers as words } from "../app/words/papers.ts";
import { serverNear } from "../state/server-near.ts";
import { Section } from "./section.tsx";

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

export function Paper({ path, what, of }: PaperLink & { readonly of: string }) {
  return (
    <a class="press plain" href={`/api/v1/${path}`} aria-label={words.named(what, of)} download>
      {what}
    </a>
  );
}
