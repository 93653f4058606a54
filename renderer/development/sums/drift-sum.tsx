import {
  coolingPerMinute,
  driftOver,
  type Drift,
  type DriftRefusal,
} from '../../../shared/domain/development/tank-drift.ts';
import { USUAL_C } from '../../../shared/domain/development/temperature-question.ts';
import { accept, type Checked } from '../../../shared/domain/checked.ts';
import type { WorkingLine } from '../../../shared/domain/development/working.ts';
import type { TankEntry } from '../../../shared/api/methods/bath-methods.ts';
import { describeMixReason } from '../../../shared/text/describe-mix.ts';
import { formatTemperature } from '../../../shared/text/format.ts';
import { useCommand } from '../../api/use-command.ts';
import { useArchive } from '../../api/use-query.ts';
import { Button } from '../../ui/button.tsx';
import { ChoiceRow } from '../../ui/choice-row.tsx';
import { NumberField, TemperatureField, TimeField } from './sum-fields.tsx';
import { Sum } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

const FIRST = {
  way: 'readings',
  start: '38.5',
  end: '36.9',
  after: '3:15',
  room: '21',
  constant: '0.03',
  step: '3:15',
  aim: '37.8',
};

interface DriftFound {
  readonly perMinute: number;
  readonly drift: Drift;
  readonly lines: readonly WorkingLine[];
}

/** What a tank in a room does over a step: from two readings, or from what is known of the tank. */
export function DriftSum() {
  const form = useTyped('drift', FIRST);
  const { data: tanks = [] } = useArchive('tanks.list', {});
  const byReadings = form.text('way') === 'readings';
  const startC = form.celsius('start', USUAL_C.bath);
  const endC = form.celsius('end', USUAL_C.bath);
  const roomC = form.celsius('room', USUAL_C.room);
  const aimC = form.celsius('aim', USUAL_C.bath);
  const after = form.seconds('after');
  const step = form.seconds('step');
  const constant = form.number('constant');

  function find(): Checked<DriftFound, DriftRefusal> | null {
    if (startC === null || roomC === null || aimC === null || step === null) return null;
    if (byReadings && (endC === null || after === null)) return null;
    if (!byReadings && constant === null) return null;
    const tank =
      byReadings && endC !== null && after !== null
        ? coolingPerMinute(startC, endC, after, roomC)
        : accept({ value: constant ?? 0, lines: [] });
    if (!tank.ok) return tank;
    const perMinute = tank.value.value;
    const drift = driftOver(startC, roomC, perMinute, step, aimC);
    if (!drift.ok) return drift;
    return accept({
      perMinute,
      drift: drift.value.value,
      lines: [...tank.value.lines, ...drift.value.lines],
    });
  }

  const worked = find();
  const found = worked?.ok === true ? worked.value : null;
  return (
    <Sum
      title="Drift of a tank"
      says="A tank goes towards the temperature of the room, the faster the further it is from it. The mean over the step is what the film gets."
      fields={
        <>
          <ChoiceRow
            label="From"
            value={byReadings ? 'readings' : 'tank'}
            onChange={(way) => form.set('way', way)}
            options={[
              { value: 'readings', label: 'two readings' },
              { value: 'tank', label: 'a tank that is known' },
            ]}
          />
          <TemperatureField form={form} name="start" label="Start" usualC={USUAL_C.bath} />
          {byReadings ? (
            <>
              <TemperatureField form={form} name="end" label="Later" usualC={USUAL_C.bath} />
              <TimeField form={form} name="after" label="Read after" />
            </>
          ) : (
            <>
              <NumberField
                form={form}
                name="constant"
                label="Constant"
                reading="per minute; two readings give it"
              />
              <KnownTanks tanks={tanks} onTake={(perMinute) => form.set('constant', String(perMinute))} />
            </>
          )}
          <TemperatureField form={form} name="room" label="Room" usualC={USUAL_C.room} />
          <TimeField form={form} name="step" label="Step" />
          <TemperatureField form={form} name="aim" label="Mean wanted" usualC={USUAL_C.bath} />
        </>
      }
      summed={{
        lines: found?.lines ?? null,
        refused: worked?.ok === false ? describeMixReason(worked.reason) : null,
      }}
    >
      {found === null ? null : (
        <>
          <p className="sum-result">
            Mean {formatTemperature(found.drift.meanC)}; start at{' '}
            {formatTemperature(found.drift.startForMeanC)} for a mean of {formatTemperature(aimC ?? 0)}
          </p>
          {byReadings ? <KeepConstant tanks={tanks} perMinute={found.perMinute} /> : null}
        </>
      )}
    </Sum>
  );
}

function KnownTanks({
  tanks,
  onTake,
}: {
  readonly tanks: readonly TankEntry[];
  readonly onTake: (perMinute: number) => void;
}) {
  return (
    <div className="development-row">
      {tanks.map(({ id, name, coolingPerMinute: perMinute }) =>
        perMinute === null ? null : (
          <Button key={id} look="quiet" onPress={() => onTake(perMinute)}>
            {name}: {perMinute}
          </Button>
        ),
      )}
    </div>
  );
}

/** Keeps what two readings say of a tank, so that the room alone is enough next time. */
function KeepConstant({
  tanks,
  perMinute,
}: {
  readonly tanks: readonly TankEntry[];
  readonly perMinute: number;
}) {
  const change = useCommand('tanks.change');
  const rounded = Number(perMinute.toFixed(4));
  return (
    <div className="development-row">
      {tanks.map(({ id, ...tank }) =>
        tank.coolingPerMinute === rounded ? (
          <span key={id}>“{tank.name}” has this constant.</span>
        ) : rounded > 0 ? (
          <Button
            key={id}
            look="quiet"
            busy={change.pending}
            onPress={() => void change.run({ id, tank: { ...tank, coolingPerMinute: rounded } })}
          >
            Keep {rounded} for “{tank.name}”
          </Button>
        ) : null,
      )}
    </div>
  );
}
