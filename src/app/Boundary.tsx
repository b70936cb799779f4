import { Component, type ReactNode } from 'react';

interface State {
  readonly failed: boolean;
  /** The message was read; what failed stays away. */
  readonly closed?: boolean;
}

/** Catches a part of the window that cannot be loaded or drawn, so that the rest, and what is open, stays. */
export class Boundary extends Component<{ readonly children: ReactNode }, State> {
  override state: State = { failed: false };

  static getDerivedStateFromError(): State {
    return { failed: true };
  }

  override render(): ReactNode {
    const { failed, closed } = this.state;
    if (!failed) return this.props.children;
    if (closed === true) return null;
    return (
      <section className="sheet" role="alert">
        <h2>A part of the window could not be loaded</h2>
        <p className="soft">
          The server does not answer, or it has a newer version by now. Save a file, then reload.
        </p>
        <div className="group">
          <button type="button" className="button" onClick={() => location.reload()}>
            Reload
          </button>
          <button type="button" className="button" onClick={() => this.setState({ closed: true })}>
            Close
          </button>
        </div>
      </section>
    );
  }
}
