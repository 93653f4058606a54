import { useState } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { ROLL_AREA_CM2 } from '../../shared/domain/film/film-area.ts';
import { useCommand } from '../api/use-command.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/text-field.tsx';
import { readNumber } from './read-number.ts';

/** The ledger of a bath, and film that went through without a run. */
export function BathUses({
  id,
  uses,
  inUse,
}: {
  readonly id: number;
  readonly uses: Output<'baths.get'>['uses'];
  readonly inUse: boolean;
}) {
  const remove = useCommand('baths.removeUse');
  return (
    <>
      {uses.length === 0 ? null : (
        <table className="bath-ledger">
          <caption>What went through</caption>
          <thead>
            <tr>
              <th scope="col">When</th>
              <th scope="col">Rolls of 80 sq in</th>
              <th scope="col">What</th>
              <th scope="col">
                <span className="unseen">Change</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {uses.map((use) => (
              <tr key={use.id}>
                <td>{use.usedAt.slice(0, 10)}</td>
                <td>{(use.weightedAreaCm2 / ROLL_AREA_CM2).toFixed(2)}</td>
                <td>
                  {use.developmentId === null ? (
                    (use.note ?? '')
                  ) : (
                    <RouteLink to={{ view: 'development', ids: [use.developmentId] }}>
                      development {use.developmentId}
                    </RouteLink>
                  )}
                  {use.afterEnd ? ', after it had ended' : ''}
                </td>
                <td>
                  {use.developmentId === null ? (
                    <Button
                      look="quiet"
                      busy={remove.pending}
                      onPress={() => void remove.run({ useId: use.id })}
                      name={`Strike out ${use.note ?? use.usedAt.slice(0, 10)}`}
                    >
                      Strike out
                    </Button>
                  ) : null}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {inUse ? <NewUse id={id} /> : null}
    </>
  );
}

function NewUse({ id }: { readonly id: number }) {
  const use = useCommand('baths.use');
  const [rolls, setRolls] = useState('');
  const [what, setWhat] = useState('');
  const number = readNumber(rolls);
  const wrong = rolls.trim() !== '' && (number === null || number <= 0);
  return (
    <div className="development-row">
      <TextField
        label="Film"
        value={rolls}
        onChange={setRolls}
        numbers
        placeholder="rolls"
        error={wrong ? 'rolls such as 1.5' : undefined}
      />
      <TextField label="What" value={what} onChange={setWhat} placeholder="test strip" />
      <Button
        busy={use.pending}
        onPress={() =>
          void use
            .run({
              id,
              areaCm2: (number ?? 0) * ROLL_AREA_CM2,
              note: what.trim() === '' ? null : what.trim(),
            })
            .then(({ ok }) => (ok ? setRolls('') : undefined))
        }
        unavailable={number === null || wrong ? 'Say how many rolls' : undefined}
      >
        It went through
      </Button>
    </div>
  );
}
