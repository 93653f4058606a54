import type { ReactNode } from 'react';
import './full-panel.css';

export interface FullPanelProps {
  readonly title: string;
  readonly detail?: ReactNode;
  readonly advice?: ReactNode;
  readonly actions?: ReactNode;
  /** `trouble` has the head line of a warning. */
  readonly kind?: 'plain' | 'trouble';
  readonly children?: ReactNode;
}

/** A state of the whole window, in place of every view: first start, an archive that is away, an engine that stopped. */
export function FullPanel({ title, detail, advice, actions, kind = 'plain', children }: FullPanelProps) {
  return (
    <main className="full-panel" aria-labelledby="full-panel-title">
      <div className={kind === 'trouble' ? 'full-panel-card full-panel-trouble' : 'full-panel-card'}>
        <h1 id="full-panel-title">{title}</h1>
        {detail === undefined ? null : <p>{detail}</p>}
        {advice === undefined ? null : <p className="full-panel-advice">{advice}</p>}
        {children}
        {actions === undefined ? null : <div className="full-panel-actions">{actions}</div>}
      </div>
    </main>
  );
}
