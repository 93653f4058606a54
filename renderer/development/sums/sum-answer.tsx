import type { ReactNode } from 'react';
import type { WorkingLine } from '../../../shared/domain/development/working.ts';
import { WorkingLines } from '../working-lines.tsx';

/** What a sum comes to. `refused`: why it comes to nothing, in words; null lines: something is still to be entered. */
export interface Summed {
  readonly lines: readonly WorkingLine[] | null;
  readonly refused: string | null;
}

/** A sum: its fields, what it comes to in one sentence, and its working line by line. */
export function Sum({
  title,
  says,
  fields,
  summed,
  children,
}: {
  readonly title: string;
  /** What it works out, and what it takes for granted. */
  readonly says: string;
  readonly fields: ReactNode;
  readonly summed: Summed;
  /** The answer in a sentence, and what can be done with it. */
  readonly children: ReactNode;
}) {
  const { lines, refused } = summed;
  return (
    <section className="sum" aria-labelledby="sum">
      <h1 id="sum">{title}</h1>
      <p className="plan-words">{says}</p>
      <div className="sum-fields">{fields}</div>
      <div className="sum-answer" role="status">
        {refused === null ? null : <p>That cannot be worked out: {refused}.</p>}
        {refused === null && lines === null ? (
          <p>The working stands here as soon as every field is filled and no question is open.</p>
        ) : null}
        {lines === null ? null : children}
      </div>
      {lines === null ? null : <WorkingLines lines={lines} />}
    </section>
  );
}
