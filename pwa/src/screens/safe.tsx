// A page that breaks takes nothing along: in its place stand what happened, that nothing is lost, and ways on.
import { Component, type ComponentChildren } from "preact";
import { everywhere } from "../app/words/everywhere.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";

const { broken: words, nav } = everywhere;

interface SafeProps {
  /** The path that is shown; another one is tried anew. */
  readonly at: string;
  readonly children?: ComponentChildren;
}

interface SafeState {
  readonly at: string;
  readonly fault: unknown;
}

export class Safe extends Component<SafeProps, SafeState> {
  override state: SafeState = { at: this.props.at, fault: null };

  static override getDerivedStateFromProps({ at }: SafeProps, state: SafeState): SafeState | null {
    return at === state.at ? null : { at, fault: null };
  }

  override componentDidCatch(fault: unknown) {
    this.setState({ fault });
  }

  override render({ children }: SafeProps, { fault }: SafeState) {
    if (fault === null) return children;
    return (
      <Page headline={words.what} under={words.remedy}>
        <div class="acts">
          <Press onPress={() => this.setState({ fault: null })}>{words.again}</Press>
          <a class="press plain" href="/book">
            {nav.book}
          </a>
          <a class="press plain" href="/phone">
            {nav.phone}
          </a>
        </div>
        <p class="quiet small">{String(fault)}</p>
      </Page>
    );
  }
}
