import { useEffect, useId, useRef, type ReactNode } from 'react';
import './dialog.css';

export interface DialogProps {
  readonly title: string;
  readonly children: ReactNode;
  /** The row of buttons at the foot. */
  readonly actions: ReactNode;
  /** Called for Escape; the owner takes the dialog away. */
  readonly onClose: () => void;
  /** Called for Enter in a field or a submit button. */
  readonly onSubmit?: () => void;
}

/** A slip that has to be answered first. While it is shown nothing behind it can be reached. */
export function Dialog({ title, children, actions, onClose, onSubmit }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const shown = dialog.current;
    if (!shown) return undefined;
    shown.showModal();
    // Closing gives the focus back to what had it before.
    return () => shown.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      className="dialog"
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          onSubmit?.();
        }}
      >
        <h2 id={titleId}>{title}</h2>
        <div className="dialog-body">{children}</div>
        <div className="dialog-actions">{actions}</div>
      </form>
    </dialog>
  );
}
