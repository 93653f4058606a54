import { useRef, type KeyboardEvent, type PointerEvent, type ReactNode } from 'react';
import './split.css';

export interface SplitProps {
  /** What is made wider or narrower: “Width of the roll card”. */
  readonly label: string;
  readonly first: ReactNode;
  readonly second: ReactNode;
  /** Width of the second part in pixels, between the limits. */
  readonly widthPx: number;
  readonly minPx: number;
  readonly maxPx: number;
  readonly onWidth: (widthPx: number) => void;
}

const STEP_PX = 16;

/** Two parts side by side with a seam between them that can be moved by mouse and by arrow keys. */
export function Split({ label, first, second, widthPx, minPx, maxPx, onWidth }: SplitProps) {
  const grip = useRef<{ x: number; widthPx: number } | null>(null);
  const set = (width: number) => onWidth(Math.round(Math.min(Math.max(width, minPx), maxPx)));

  function press(event: KeyboardEvent): void {
    if (event.key === 'ArrowLeft') set(widthPx + STEP_PX);
    else if (event.key === 'ArrowRight') set(widthPx - STEP_PX);
    else if (event.key === 'Home') set(maxPx);
    else if (event.key === 'End') set(minPx);
    else return;
    event.preventDefault();
  }
  function take(event: PointerEvent<HTMLDivElement>): void {
    grip.current = { x: event.clientX, widthPx };
    event.currentTarget.setPointerCapture(event.pointerId);
  }
  function drag(event: PointerEvent): void {
    if (grip.current) set(grip.current.widthPx + grip.current.x - event.clientX);
  }

  return (
    <div className="split" style={{ gridTemplateColumns: `minmax(0, 1fr) 9px ${widthPx}px` }}>
      <div className="split-part">{first}</div>
      <div
        role="separator"
        aria-label={label}
        aria-orientation="vertical"
        aria-valuenow={widthPx}
        aria-valuemin={minPx}
        aria-valuemax={maxPx}
        // A separator that can be moved takes the focus (WAI-ARIA 1.2, "separator").
        // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
        tabIndex={0}
        className="split-seam"
        onKeyDown={press}
        onPointerDown={take}
        onPointerMove={drag}
        onPointerUp={() => {
          grip.current = null;
        }}
      />
      <div className="split-part">{second}</div>
    </div>
  );
}
