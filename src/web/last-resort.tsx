import { Component, type ReactNode } from "react";

/** When a page breaks, what was typed is still on the device: this says so, instead of showing nothing. */
export class LastResort extends Component<{ readonly children: ReactNode }, { readonly broken: boolean }> {
  override state = { broken: false };

  static getDerivedStateFromError(): { readonly broken: boolean } {
    return { broken: true };
  }

  override render(): ReactNode {
    if (!this.state.broken) return this.props.children;
    return (
      <main className="home">
        <p className="headline">This page broke. What you typed is kept on this device.</p>
        <p>Reload. If it breaks again, open the first screen and tell whoever looks after Veinwright.</p>
        <p>
          <a href="#/" onClick={() => location.assign("#/")}>
            First screen
          </a>
        </p>
      </main>
    );
  }
}
