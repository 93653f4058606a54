import { setTimeout as wait } from 'node:timers/promises';
import { z } from 'zod';
import { appError } from '../../shared/api/errors.ts';
import { method } from '../../shared/api/method.ts';
import { answerFrom, type Service } from '../../shared/api/rpc.ts';

/** A small table that meets everything a connection must carry. */
export const TEST_METHODS = {
  'things.echo': method(z.strictObject({ value: z.json() }), z.strictObject({ value: z.json() })),
  'things.count': method(
    z.strictObject({ from: z.number().int().default(1), name: z.string().trim().max(20) }),
    z.strictObject({ from: z.number(), name: z.string() }),
  ),
  'things.fail': method(z.strictObject({}), z.strictObject({})),
  'things.break': method(z.strictObject({}), z.strictObject({})),
  'things.lie': method(z.strictObject({}), z.strictObject({ sum: z.number() })),
  'things.wait': method(z.strictObject({}), z.strictObject({})),
  'things.calledOff': method(z.strictObject({}), z.strictObject({ count: z.number().int() })),
  'things.tell': method(z.strictObject({ text: z.string() }), z.strictObject({})),
} as const;

export const testEvent = z.strictObject({ type: z.literal('told'), text: z.string() });

/** What answers the test table. `things.wait` ends only when it is called off, and that is counted. */
export function makeTestService(): Service {
  const listeners = new Set<(event: unknown) => void>();
  let calledOff = 0;
  const call = answerFrom(
    TEST_METHODS,
    {
      'things.echo': ({ value }) => ({ value }),
      'things.count': (input) => input,
      'things.fail': () => {
        throw appError('roll_not_found', { name: '2024-031' });
      },
      'things.break': () => {
        throw new TypeError('secret path /home/someone');
      },
      // An answer that fits the types and not the schema: NaN is no JSON number.
      'things.lie': () => ({ sum: Number.NaN }),
      'things.wait': async (_input, { signal }) => {
        try {
          await wait(60_000, undefined, { signal });
        } finally {
          calledOff += 1;
        }
        return {};
      },
      'things.calledOff': () => ({ count: calledOff }),
      'things.tell': ({ text }) => {
        for (const listener of listeners) listener({ type: 'told', text });
        return {};
      },
    },
    true,
  );
  return {
    call,
    onEvent(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}
