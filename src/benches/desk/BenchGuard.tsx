import type { ErrorInfo, ReactNode } from 'react';
import { Component } from 'react';
import { Button, Notice } from '../../ui/index.ts';

interface Props {
  readonly benchLabel: string;
  readonly children: ReactNode;
}

interface State {
  readonly fault: string | undefined;
}

/** When a bench breaks, the rest of the desk stands, and the job with it. Give it the bench as its key. */
export class BenchGuard extends Component<Props, State> {
  override state: State = { fault: undefined };

  static getDerivedStateFromError(error: unknown) {
    return { fault: error instanceof Error ? error.message : String(error) };
  }

  override componentDidCatch(error: unknown, info: ErrorInfo) {
    console.error(error, info.componentStack);
  }

  override render() {
    const { fault } = this.state;
    if (fault === undefined) return this.props.children;
    return (
      <Notice kind="problem" title={`The ${this.props.benchLabel} bench has stopped`} announce>
        <p>
          The job is safe: it is kept outside this bench, and every other bench goes on. What
          happened: {fault}
        </p>
        <p>
          <Button onClick={() => this.setState({ fault: undefined })}>Open it again</Button>
        </p>
        <p>If it stops again, undo the last change, or reload the page.</p>
      </Notice>
    );
  }
}
