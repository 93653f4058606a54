import type { PlanStep } from '../../../shared/api/methods/development-methods.ts';
import {
  findMeanTemperature,
  type TemperatureReading,
} from '../../../shared/domain/development/effective-development.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { TemperatureChart } from '../temperature-chart.tsx';
import { BigButton } from './big-button.tsx';
import type { RunLog } from './run-log.ts';

/** The figure on the pad; `touched` says that it was set since the last reading, so that it is one. */
export interface Pad {
  readonly text: string;
  readonly touched: boolean;
}

export interface TemperaturePanelProps {
  readonly step: PlanStep;
  readonly readings: readonly TemperatureReading[];
  readonly elapsedSeconds: number | null;
  readonly lengthSeconds: number;
  readonly pad: Pad;
  readonly onPad: (pad: Pad) => void;
  readonly onNote: () => void;
  readonly onTakeBack: (() => void) | null;
  /** Whether the space bar notes it at present. */
  readonly spaceNotes: boolean;
  readonly log: RunLog;
}

const TENTH = 0.1;

/** A temperature as typed, `37.4` or `37,4`; null when it is none. */
export function readPad(text: string): number | null {
  const tidy = text.trim().replace(',', '.');
  return /^-?\d+(\.\d+)?$/.test(tidy) ? Number(tidy) : null;
}

/** What was measured in this step, and the pad on which the next reading is entered. */
export function TemperaturePanel(props: TemperaturePanelProps) {
  const { step, readings, elapsedSeconds, lengthSeconds, pad, onPad, onNote, onTakeBack, spaceNotes, log } =
    props;
  const celsius = readPad(pad.text);
  const turn = (by: number) =>
    onPad({ text: ((celsius ?? step.temperature?.aimC ?? 20) + by).toFixed(1), touched: true });
  const when = elapsedSeconds === null ? 'now' : `at ${formatDuration(Math.floor(elapsedSeconds))}`;
  return (
    <section className="run-temperature" aria-label="Temperature">
      <header className="run-temperature-head">
        <h2>Measured in the tank</h2>
        <p>{meanWords(step, readings, elapsedSeconds)}</p>
      </header>
      <TemperatureChart
        seconds={lengthSeconds}
        aimC={step.temperature?.aimC ?? null}
        lowC={step.temperature?.lowC ?? null}
        highC={step.temperature?.highC ?? null}
        readings={readings}
        widthPx={480}
        heightPx={200}
      />
      <div className="run-pad">
        <BigButton square name="A tenth cooler" onPress={() => turn(-TENTH)}>
          −
        </BigButton>
        <label className="run-pad-figure">
          <span className="unseen">Temperature in °C</span>
          <input
            className="run-pad-input"
            inputMode="decimal"
            autoComplete="off"
            value={pad.text}
            onChange={(event) => onPad({ text: event.currentTarget.value, touched: true })}
            onKeyDown={(event) => {
              if (event.key === 'Enter') onNote();
            }}
          />
          <span aria-hidden="true">°C</span>
        </label>
        <BigButton square name="A tenth warmer" onPress={() => turn(TENTH)}>
          +
        </BigButton>
      </div>
      {log.doubt === null ? (
        <BigButton main={spaceNotes} onPress={onNote} keys={spaceNotes ? 'Space' : undefined}>
          {celsius === null ? 'Set the figure first' : `Note ${celsius.toFixed(1)} ${when}`}
        </BigButton>
      ) : (
        <Doubted log={log} onMend={(text) => onPad({ text, touched: true })} />
      )}
      {onTakeBack === null ? null : <BigButton onPress={onTakeBack}>Take the last reading back</BigButton>}
    </section>
  );
}

function Doubted({ log, onMend }: { readonly log: RunLog; readonly onMend: (text: string) => void }) {
  const { doubt } = log;
  if (doubt === null) return null;
  return (
    <div role="alert" className="run-doubt">
      <p>{doubt.question}</p>
      <div className="run-row">
        <BigButton
          main
          onPress={() => {
            log.dropDoubt();
            onMend('');
          }}
        >
          Enter it again
        </BigButton>
        <BigButton
          onPress={() =>
            void log.note(
              { kind: 'temperature_read', celsius: doubt.celsius },
              { atMs: doubt.atMs, sure: true },
            )
          }
        >
          It is {doubt.celsius} °C
        </BigButton>
      </div>
    </div>
  );
}

function meanWords(
  step: PlanStep,
  readings: readonly TemperatureReading[],
  elapsedSeconds: number | null,
): string {
  const { aimC = null, lowC = null, highC = null } = step.temperature ?? {};
  const mean =
    elapsedSeconds === null || elapsedSeconds <= 0 ? null : findMeanTemperature(readings, elapsedSeconds);
  if (mean === null) {
    if (aimC !== null) return `meant ${aimC.toFixed(1)}`;
    return lowC === null || highC === null
      ? 'any temperature'
      : `meant ${lowC.toFixed(0)} to ${highC.toFixed(0)}`;
  }
  const off = aimC === null ? '' : `, ${Math.abs(mean - aimC).toFixed(1)} ${mean < aimC ? 'under' : 'over'}`;
  return `mean so far ${mean.toFixed(1)}${off}`;
}
