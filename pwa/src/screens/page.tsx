// The page of a screen: a headline that states what is so, then the rest. The headline takes the focus on arrival.
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";

interface PageProps {
  readonly headline: string;
  readonly over?: string;
  readonly under?: ComponentChildren;
  readonly children?: ComponentChildren;
  readonly wide?: boolean;
  readonly beside?: ComponentChildren;
}

export function Page({ headline, over, under, children, wide = false, beside }: PageProps) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus({ preventScroll: true }), []);
  useEffect(() => {
    document.title = `${headline} – ${everywhere.app}`;
  }, [headline]);
  return (
    <div class={wide ? "page wide" : "page"}>
      <header>
        {over && <span class="over">{over}</span>}
        <div class="title-line">
          <h1 tabIndex={-1} ref={title}>
            {headline}
          </h1>
          {beside}
        </div>
        {under && <p class="quiet">{under}</p>}
      </header>
      {children}
    </div>
  );
}
