import { Component, type ReactNode } from 'react';
import { Key } from './key.tsx';

interface Wish {
  /** What is in here, for the sentence: "this paper", "the picture of the car". */
  readonly what: string;
  readonly children: ReactNode;
}

/** One part of the screen that breaks does not take the rest with it: what is kept is on the server. */
export class BrokenPart extends Component<Wish, { readonly fault: string | null }> {
  override state = { fault: null as string | null };

  static getDerivedStateFromError(fault: unknown): { readonly fault: string } {
    return { fault: fault instanceof Error ? fault.message : String(fault) };
  }

  override render(): ReactNode {
    const { what, children } = this.props;
    if (this.state.fault === null) return children;
    return (
      <div className="paper" role="alert">
        <p>
          <strong>▲ A fault of the program in {what}.</strong> Nothing that was kept is lost.
        </p>
        <p className="small soft">{this.state.fault}</p>
        <div className="keys">
          <Key onClick={() => this.setState({ fault: null })}>Try again</Key>
          <Key onClick={() => location.reload()}>Load the page again</Key>
        </div>
      </div>
    );
  }
}
