import { useId, type ReactNode } from 'react';
import './check-box.css';

export interface CheckBoxProps {
  readonly children: ReactNode;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
}

/** A thing that is so or not so. */
export function CheckBox({ children, checked, onChange }: CheckBoxProps) {
  const id = useId();
  return (
    <div className="check-box">
      <input
        id={id}
        type="checkbox"
        checked={checked}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
      <label htmlFor={id}>{children}</label>
    </div>
  );
}
