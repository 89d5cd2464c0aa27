// The two plain states, always in sight: how much is only on this phone, or that all is on the server.

interface ConnectionLineProps {
  readonly held: "phone" | "server";
  readonly what: string;
  readonly since: string;
  readonly href: string;
}

export function ConnectionLine({ held, what, since, href }: ConnectionLineProps) {
  return (
    <a class="connection" data-held={held} href={href} aria-label={`${what} ${since}`.trim()}>
      <b role="status">{what}</b> <span class="quiet">{since}</span>
    </a>
  );
}
