import { RollField } from '../api/roll-field.tsx';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Select } from '../ui/select.tsx';
import type { ChosenRolls } from './use-chosen-rolls.ts';

export interface ChooseRollsProps {
  readonly chosen: ChosenRolls;
  readonly onRolls: (rollIds: readonly number[]) => void;
  readonly onBinder: (binderId: number) => void;
  readonly onClose: () => void;
}

/** What goes on the sheet: one roll, several, or a whole binder. */
export function ChooseRolls({ chosen, onRolls, onBinder, onClose }: ChooseRollsProps) {
  const binders = useArchive('binders.list', {});
  const named = (binders.data ?? []).filter(({ rolls }) => rolls > 0);
  return (
    <Dialog
      title="What goes on the sheet"
      onClose={onClose}
      onSubmit={onClose}
      actions={
        <Button look="main" submit onPress={onClose}>
          Done
        </Button>
      }
    >
      <RollField
        label="Add a roll"
        roll={null}
        onRoll={({ id }) => onRolls([...new Set([...(chosen.binderId === null ? chosen.rollIds : []), id])])}
      />
      {chosen.binderId === null && chosen.rolls.length > 0 ? (
        <ul className="sheets-chosen" aria-label="Rolls on the sheet">
          {chosen.rolls.map((roll) => (
            <li key={roll.id}>
              <span className="numbers sheets-chosen-number">{roll.number}</span>
              <span>{roll.title ?? roll.stock?.name ?? ''}</span>
              <Button
                look="quiet"
                name={`Take ${roll.number} off the sheet`}
                onPress={() => onRolls(chosen.rollIds.filter((id) => id !== roll.id))}
              >
                Take off
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
      {named.length > 0 ? (
        <Select
          label="Or a binder"
          options={[
            { value: '', label: 'none' },
            ...named.map(({ id, name, rolls }) => ({
              value: String(id),
              label: `${name}, ${rolls === 1 ? '1 roll' : `${rolls} rolls`}`,
            })),
          ]}
          value={chosen.binderId === null ? '' : String(chosen.binderId)}
          onChange={(value) => (value === '' ? onRolls([]) : onBinder(Number(value)))}
        />
      ) : null}
    </Dialog>
  );
}
