import type { ReactNode } from 'react';
import { Button } from './button.tsx';
import './notice.css';

export interface NoticeProps {
  /** `failed`: something did not happen; `warning`: it will not, as it stands; `said`: it did, and this is worth knowing. */
  readonly kind: 'failed' | 'warning' | 'said';
  readonly title: string;
  readonly detail?: ReactNode;
  readonly advice?: ReactNode;
  /** Ways out, as buttons. */
  readonly actions?: ReactNode;
  /** Takes it away. A notice stays until then; it never leaves by itself. */
  readonly onDismiss?: () => void;
}

/** What the program has to say: what did not happen, to which thing, and what to do. */
export function Notice({ kind, title, detail, advice, actions, onDismiss }: NoticeProps) {
  return (
    <div role={kind === 'said' ? 'status' : 'alert'} className={`notice notice-${kind}`}>
      <div className="notice-words">
        <p className="notice-title">{title}</p>
        {detail === undefined ? null : <p>{detail}</p>}
        {advice === undefined ? null : <p className="notice-advice">{advice}</p>}
      </div>
      {actions === undefined && onDismiss === undefined ? null : (
        <div className="notice-actions">
          {actions}
          {onDismiss === undefined ? null : (
            <Button look="quiet" onPress={onDismiss} name={`Put away: ${title}`}>
              Put away
            </Button>
          )}
        </div>
      )}
    </div>
  );
}
