import { useState } from 'react';

/**
 * A choice of the user's that this machine remembers: a width, a theme, a column. `parse` gives null for what it
 * cannot read, and `initial` counts then.
 */
export function useRemembered<Value extends string | number>(
  name: string,
  initial: Value,
  parse: (text: string) => Value | null,
): [Value, (value: Value) => void] {
  const key = `edgeprint.${name}`;
  const [value, setValue] = useState<Value>(() => {
    const text = window.localStorage.getItem(key);
    return (text === null ? null : parse(text)) ?? initial;
  });
  return [
    value,
    (next) => {
      window.localStorage.setItem(key, String(next));
      setValue(next);
    },
  ];
}
