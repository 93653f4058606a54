import { useId, useState, type ReactNode } from 'react';
import './tooltip.css';

export interface TooltipProps {
  /** What there is to know, beyond the name the thing has anyway. */
  readonly says: string;
  /** Gets the id of the words, for `aria-describedby`. */
  readonly children: (describedBy: string) => ReactNode;
}

/** A word about a thing, while the mouse or the focus is on it. Escape puts it away (WCAG 2.2, 1.4.13). */
export function Tooltip({ says, children }: TooltipProps) {
  const id = useId();
  const [shown, setShown] = useState(false);
  return (
    // The thing inside takes the focus and the keys; this only listens.
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
    <span
      className="tooltip"
      onMouseEnter={() => setShown(true)}
      onMouseLeave={() => setShown(false)}
      onFocus={() => setShown(true)}
      onBlur={() => setShown(false)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') setShown(false);
      }}
    >
      {children(id)}
      <span role="tooltip" id={id} className="tooltip-words" hidden={!shown}>
        {says}
      </span>
    </span>
  );
}
