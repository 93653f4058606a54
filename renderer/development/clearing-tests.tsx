import { useState } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { formatDuration, parseDuration } from '../../shared/units/duration.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { WorkingLines } from './working-lines.tsx';

/** A fixer by its clearing tests: what the newest says of each film, what went through since it was good, a new test. */
export function ClearingTests({
  id,
  clearing,
  tests,
  rollsSinceGood,
}: { readonly id: number } & Pick<Output<'baths.get'>, 'clearing' | 'tests' | 'rollsSinceGood'>) {
  const spent = clearing.some((each) => each.spent);
  const numbers = rollsSinceGood.map((roll) => (
    <RouteLink key={roll.id} to={{ view: 'rolls', ids: [roll.id] }}>
      {roll.number}
    </RouteLink>
  ));
  return (
    <section className="clearing" aria-labelledby="clearing">
      <h3 id="clearing">Clearing test</h3>
      {tests.length === 0 ? (
        <p className="plan-words">
          Clear a scrap of film in the fixer while it is fresh and again later: at twice the time it is spent.
        </p>
      ) : null}
      {clearing.map((each) => (
        <div key={each.stock?.id ?? 0}>
          <p role={each.spent ? 'alert' : undefined}>
            {each.stock?.name ?? 'Film'} cleared in {formatDuration(each.seconds)} against{' '}
            {formatDuration(each.freshSeconds)} fresh:{' '}
            {each.spent ? 'the fixer is spent' : `good; fix for at least ${formatDuration(each.fixSeconds)}`}.
          </p>
          <WorkingLines lines={each.lines} />
        </div>
      ))}
      {numbers.length === 0 ? null : (
        <p role={spent ? 'alert' : undefined} className="development-row numbers">
          Fixed since it was last found good: {numbers}
          {spent ? ' Look at them, and fix them again in a fresh bath.' : ''}
        </p>
      )}
      <NewTest id={id} />
    </section>
  );
}

function NewTest({ id }: { readonly id: number }) {
  const test = useCommand('baths.test');
  const { data: stocks = [] } = useArchive('stocks.list', {});
  const [time, setTime] = useState('');
  const [fresh, setFresh] = useState(false);
  const [stock, setStock] = useState('any');
  const seconds = parseDuration(time);
  const wrong = time.trim() !== '' && (seconds === null || seconds <= 0);
  return (
    <>
      <Select
        label="Scrap of"
        value={stock}
        onChange={setStock}
        options={[
          { value: 'any', label: 'film not said' },
          ...stocks.map(({ id: stockId, name }) => ({ value: String(stockId), label: name })),
        ]}
      />
      <TextField
        label="Cleared in"
        value={time}
        onChange={setTime}
        placeholder="0:45"
        numbers
        error={wrong ? 'a time such as 0:45' : undefined}
      />
      <CheckBox checked={fresh} onChange={setFresh}>
        The fixer is fresh
      </CheckBox>
      <div>
        <Button
          busy={test.pending}
          onPress={() => {
            if (seconds === null) return;
            const stockId = stock === 'any' ? null : Number(stock);
            void test.run({ id, seconds, fresh, stockId }).then(({ ok }) => (ok ? setTime('') : undefined));
          }}
          unavailable={seconds === null || wrong ? 'Enter a time such as 0:45' : undefined}
        >
          Note the test
        </Button>
      </div>
    </>
  );
}
