import { z } from 'zod';
import type { BathEntry, clearingTest } from '../../../shared/api/methods/bath-methods.ts';
import type { Output } from '../../../shared/api/contract.ts';
import { judgeClearing } from '../../../shared/domain/development/clearing-test.ts';
import { query, type ReadableDb } from '../db/query.ts';

type Test = z.output<typeof clearingTest>;
type Verdict = Output<'baths.get'>['clearing'][number];

const testRow = z.object({
  id: z.number(),
  stockId: z.number().nullable(),
  stockName: z.string().nullable(),
  testedAt: z.string(),
  seconds: z.number(),
  fresh: z.number(),
});

/** The clearing tests of a bath, oldest first. */
export function testsOfBath(db: ReadableDb, bathId: number): Test[] {
  return query(
    db,
    testRow,
    `SELECT clearing_test.id, stock.id AS stockId, stock.name AS stockName, tested_at AS testedAt, seconds, fresh
     FROM clearing_test LEFT JOIN stock ON stock.id = stock_id WHERE bath_id = :bathId
     ORDER BY tested_at, clearing_test.id`,
  )
    .all({ bathId })
    .map(({ id, stockId, stockName, testedAt, seconds, fresh }) => ({
      id,
      stock: stockId === null || stockName === null ? null : { id: stockId, name: stockName },
      testedAt,
      seconds,
      fresh: fresh === 1,
    }));
}

/** A test against the last one made with the same film when the bath was fresh; null without such a one. */
function judge(tests: readonly Test[], test: Test): Verdict | null {
  const same = (other: Test) => (other.stock?.id ?? null) === (test.stock?.id ?? null);
  const fresh = tests.findLast((other) => other.fresh && same(other));
  if (!fresh) return null;
  const judged = judgeClearing(fresh.seconds, test.seconds);
  if (!judged.ok) return null;
  const { value, lines } = judged.value;
  return { stock: test.stock, freshSeconds: fresh.seconds, seconds: test.seconds, ...value, lines };
}

/** The newest test of each film against the fresh one, the newest film first. */
export function judgeTests(tests: readonly Test[]): Verdict[] {
  const newest = new Map<number | null, Test>();
  for (const test of tests) if (!test.fresh) newest.set(test.stock?.id ?? null, test);
  return [...newest.values()].toReversed().flatMap((test) => judge(tests, test) ?? []);
}

const rollRow = z.object({ id: z.number(), number: z.string() });

/** Rolls that went through since the last test that found the bath good, or through it at all without such a test. */
export function rollsSinceGoodTest(
  db: ReadableDb,
  bath: Pick<BathEntry, 'id'>,
  tests: readonly Test[],
): z.output<typeof rollRow>[] {
  const good = tests.findLast((test) => test.fresh || judge(tests, test)?.spent === false);
  return query(
    db,
    rollRow,
    `SELECT DISTINCT roll.id, roll.number FROM bath_use
     JOIN development_roll ON development_roll.development_id = bath_use.development_id
     JOIN roll ON roll.id = development_roll.roll_id
     WHERE bath_use.bath_id = :bathId AND bath_use.used_at >= :since ORDER BY roll.number_sort`,
  ).all({ bathId: bath.id, since: good?.testedAt ?? '' });
}
