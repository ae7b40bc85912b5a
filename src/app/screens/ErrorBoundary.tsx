import { Component, type ReactNode } from 'react';

interface Props {
  onError?: () => void;
  /** Shown instead of what failed. */
  otherwise?: ReactNode;
  children: ReactNode;
}

/** Catches what goes wrong inside a part of the page, so that the rest stands. */
export class ErrorBoundary extends Component<Props, { failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }

  override componentDidCatch(): void {
    this.props.onError?.();
  }

  override render(): ReactNode {
    return this.state.failed ? (this.props.otherwise ?? null) : this.props.children;
  }
}
