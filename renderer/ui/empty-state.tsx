import type { ReactNode } from 'react';
import './empty-state.css';

export interface EmptyStateProps {
  /** What goes here: “Rolls that are developed and not yet filed lie here.” */
  readonly says: string;
  /** The one action that fills it. */
  readonly action?: ReactNode;
  /** The empty thing itself, drawn dashed. */
  readonly drawing?: ReactNode;
}

/** A place with nothing in it yet: the empty thing, what goes there, and the way to put something in. */
export function EmptyState({ says, action, drawing }: EmptyStateProps) {
  return (
    <div className="empty-state">
      {drawing === undefined ? <div className="empty-state-strip" aria-hidden="true" /> : drawing}
      <p>{says}</p>
      {action === undefined ? null : <div>{action}</div>}
    </div>
  );
}
