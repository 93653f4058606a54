import { useId, type ReactNode } from 'react';
import { Keys } from './keys.tsx';
import './button.css';

export interface ButtonProps {
  readonly children: ReactNode;
  readonly onPress: () => void;
  /** `main` is the one thing a slip is for; `plain` has an edge; `quiet` is underlined words. */
  readonly look?: 'main' | 'plain' | 'quiet';
  /** The keys that do the same. */
  readonly keys?: string;
  /** Why it cannot be pressed now. The button stays in reach, and says so. */
  readonly unavailable?: string | undefined;
  readonly busy?: boolean;
  /** For a button that keeps something on or off. */
  readonly pressed?: boolean;
  /** The name for screen readers, where the words alone do not say it. */
  readonly name?: string;
  readonly submit?: boolean;
}

/** A button. While it is busy or unavailable it keeps its focus and does nothing. */
export function Button(props: ButtonProps) {
  const {
    children,
    onPress,
    look = 'plain',
    keys,
    unavailable,
    busy = false,
    pressed,
    name,
    submit = false,
  } = props;
  const reasonId = useId();
  const still = busy || unavailable !== undefined;
  return (
    <>
      <button
        type={submit ? 'submit' : 'button'}
        className={`button button-${look}`}
        aria-disabled={still || undefined}
        aria-busy={busy || undefined}
        aria-pressed={pressed}
        aria-label={name}
        aria-describedby={unavailable === undefined ? undefined : reasonId}
        onClick={(event) => {
          if (still) event.preventDefault();
          else if (!submit) onPress();
        }}
      >
        {children}
        {keys === undefined ? null : <Keys keys={keys} />}
      </button>
      {unavailable === undefined ? null : (
        <span id={reasonId} className="button-reason">
          {unavailable}
        </span>
      )}
    </>
  );
}
