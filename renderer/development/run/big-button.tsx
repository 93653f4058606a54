import type { ReactNode } from 'react';
import { Keys } from '../../ui/keys.tsx';

export interface BigButtonProps {
  readonly children: ReactNode;
  readonly onPress: () => void;
  readonly main?: boolean;
  readonly keys?: string | undefined;
  readonly pressed?: boolean;
  readonly name?: string;
  readonly square?: boolean;
}

/** A target for wet hands. It does not keep the focus, so that the space bar stays that of the sheet. */
export function BigButton({
  children,
  onPress,
  main = false,
  keys,
  pressed,
  name,
  square = false,
}: BigButtonProps) {
  const look = main ? 'run-button run-button-main' : 'run-button';
  return (
    <button
      type="button"
      className={square ? `${look} run-button-square` : look}
      aria-label={name}
      aria-pressed={pressed}
      data-space={keys === 'Space' || undefined}
      onClick={(event) => {
        // A press by mouse or finger leaves the space bar to the sheet; one by keyboard keeps its place.
        if (event.detail > 0) event.currentTarget.blur();
        onPress();
      }}
    >
      {children}
      {keys === undefined ? null : <Keys keys={keys} />}
    </button>
  );
}
