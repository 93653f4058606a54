import { useMemo, useRef, useState } from 'react';
import type { BathEntry } from '../../../shared/api/methods/bath-methods.ts';
import type {
  DevelopmentDetails,
  DevelopmentPlan,
  PlanStep,
} from '../../../shared/api/methods/development-methods.ts';
import { runStateAt } from '../../../shared/domain/development/run-sheet.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { useArchive } from '../../api/use-query.ts';
import { useRemembered } from '../../state/remembered.ts';
import { useViewState } from '../../state/view-state.tsx';
import { today } from '../today.ts';
import { BigButton } from './big-button.tsx';
import { EndPanel } from './end-panel.tsx';
import { ReadyCheck } from './ready-check.tsx';
import { RunClock } from './run-clock.tsx';
import { useRunLog } from './run-log.ts';
import { RunSteps } from './run-steps.tsx';
import { RunTape } from './run-tape.tsx';
import { StopDialog } from './stop-dialog.tsx';
import { LongerNotice } from './longer-notice.tsx';
import { readPad, TemperaturePanel, type Pad } from './temperature-panel.tsx';
import { useAwake } from './use-awake.ts';
import { useClockShift } from './use-clock-shift.ts';
import { useCues } from './use-cues.ts';
import { useNow } from './use-now.ts';
import { useRed } from './use-red.ts';
import { useSpace } from './use-space.ts';
import './run-sheet.css';

/** How bright the sheet is, one after the other. */
const LIGHTS = [1, 0.75, 0.55];

type OnOff = 'on' | 'off';
const readOnOff = (text: string): OnOff | null => (text === 'on' || text === 'off' ? text : null);

/** The run sheet of a development: fills the window until the run is over. */
export function RunSheet({ id }: { readonly id: number }) {
  const { data: development } = useArchive('developments.get', { id });
  const { data: baths } = useArchive('baths.list', {});
  if (!development || !baths) return <div className="run-sheet" aria-busy="true" />;
  if (development.plan === null) {
    return (
      <div className="run-sheet">
        <p>Development {id} was recorded afterwards; there is no run to show.</p>
      </div>
    );
  }
  return <Sheet development={development} plan={development.plan} baths={baths} />;
}

interface SheetProps {
  readonly development: DevelopmentDetails;
  readonly plan: DevelopmentPlan;
  readonly baths: readonly BathEntry[];
}

function Sheet({ development, plan, baths }: SheetProps) {
  const { id, events } = development;
  const viewState = useViewState();
  const sheet = useRef<HTMLDivElement>(null);
  const nowMs = useNow();
  const log = useRunLog(id);
  const [red, setRed] = useRemembered<OnOff>('run.red', 'on', readOnOff);
  const [sound, setSound] = useRemembered<OnOff>('run.sound', 'on', readOnOff);
  const [voice, setVoice] = useRemembered<OnOff>('run.voice', 'on', readOnOff);
  const [light, setLight] = useState(0);
  const [stopping, setStopping] = useState(false);
  const [pad, setPad] = useState<Pad | null>(null);
  const shift = useClockShift((seconds) => void log.note({ kind: 'clock_shifted', seconds }));
  useRed(red === 'on');
  useAwake();
  useSpace(sheet);
  useCues(plan.steps, events, nowMs, { sound: sound === 'on', voice: voice === 'on' });

  const state = useMemo(() => runStateAt(plan.steps, events, nowMs), [plan.steps, events, nowMs]);
  const { running, phase, nextStep, record } = state;
  const shownAt = running?.record.step ?? nextStep ?? 0;
  // Before the first pour it is the developer that is measured.
  const shown =
    phase === 'ready' ? plan.steps.find((step) => step.key === plan.developerKey) : plan.steps[shownAt];
  const lastReading = events.findLast((event) => event.kind === 'temperature_read');
  const lastRead = lastReading?.kind === 'temperature_read' ? lastReading.celsius : null;
  const figure = pad ?? {
    text: (lastRead ?? middleOf(shown?.temperature ?? null)).toFixed(1),
    touched: false,
  };
  const isEnding =
    running !== null && (running.cue.action === 'pour_out' || running.cue.action === 'next_bath');
  const measuredBefore = record.readingsBetween.at(-1)?.celsius ?? null;
  const readHere = running === null ? record.readingsBetween : running.record.readings;
  const takenBack = new Set(events.flatMap((event) => event.corrects ?? []));
  const canTakeBack =
    lastReading !== undefined && readHere.length > 0 && !takenBack.has(lastReading.id)
      ? lastReading.id
      : null;

  function noteTemperature(): void {
    const celsius = readPad(figure.text);
    if (celsius === null) return;
    void log.note({ kind: 'temperature_read', celsius }).then((noted) => {
      if (noted) setPad({ text: celsius.toFixed(1), touched: false });
    });
  }
  function pourIn(step: number): void {
    setPad(null);
    void log.note({ kind: 'step_started', step });
  }

  if (phase === 'finished' || phase === 'aborted') {
    return (
      <div ref={sheet} className="run-sheet">
        <EndPanel development={development} plan={plan} record={record} />
      </div>
    );
  }
  if (!shown) return null;
  return (
    <div ref={sheet} className="run-sheet" style={{ filter: `brightness(${LIGHTS[light] ?? 1})` }}>
      <header className="run-head">
        <p className="run-head-title">Development {id}</p>
        <p>{rollWords(plan)}</p>
        <p>{plan.process.name}</p>
        {plan.volumeMl === null ? null : <p>{Math.round(plan.volumeMl)} ml</p>}
        <div className="run-row run-head-buttons">
          <BigButton pressed={sound === 'on'} onPress={() => setSound(sound === 'on' ? 'off' : 'on')}>
            Sound {sound}
          </BigButton>
          <BigButton pressed={voice === 'on'} onPress={() => setVoice(voice === 'on' ? 'off' : 'on')}>
            Voice {voice}
          </BigButton>
          <BigButton pressed={red === 'on'} onPress={() => setRed(red === 'on' ? 'off' : 'on')}>
            Red {red}
          </BigButton>
          <BigButton onPress={() => setLight((light + 1) % LIGHTS.length)}>Dimmer</BigButton>
          <BigButton onPress={() => setStopping(true)}>Stop the run</BigButton>
        </div>
      </header>
      {log.trouble === null ? null : (
        <p role="alert" className="run-trouble">
          {log.trouble}
        </p>
      )}
      {state.clockInDoubt ? (
        <p role="alert" className="run-trouble">
          The clock of this machine stands before what was noted last. The time shown waits until it has
          caught up.
        </p>
      ) : null}
      {shift.aheadSeconds === null ? null : (
        <div role="alert" className="run-trouble run-row">
          <p>
            The clock leapt ahead by {formatDuration(shift.aheadSeconds)}. If the machine slept, the time is
            right.
          </p>
          <BigButton
            onPress={() => {
              void log.note({ kind: 'clock_shifted', seconds: shift.aheadSeconds ?? 0 });
              shift.clear();
            }}
          >
            The clock was set
          </BigButton>
          <BigButton onPress={shift.clear}>It slept</BigButton>
        </div>
      )}
      <div className="run-middle">
        {phase === 'ready' ? (
          <ReadyCheck
            plan={plan}
            baths={baths}
            developerC={measuredBefore}
            today={today()}
            onPour={() => pourIn(0)}
          />
        ) : (
          <RunClock
            plan={plan}
            state={state}
            isEnding={isEnding}
            onPourIn={pourIn}
            onFinish={() => void log.note({ kind: 'run_finished' })}
            onAdd={(seconds) => void log.note({ kind: 'time_added', seconds })}
          />
        )}
        <TemperaturePanel
          step={shown}
          readings={running?.record.readings ?? []}
          elapsedSeconds={running?.elapsedSeconds ?? null}
          lengthSeconds={running?.lengthSeconds ?? shown.seconds}
          pad={figure}
          onPad={setPad}
          onNote={noteTemperature}
          onTakeBack={
            canTakeBack === null
              ? null
              : () => void log.note({ kind: 'taken_back' }, { corrects: canTakeBack })
          }
          spaceNotes={figure.touched && running !== null && !isEnding}
          log={log}
        />
      </div>
      <LongerNotice
        plan={plan}
        state={state}
        onLonger={(seconds) => void log.note({ kind: 'time_added', seconds })}
      />
      <RunTape
        step={shown}
        lengthSeconds={running?.lengthSeconds ?? shown.seconds}
        elapsedSeconds={running?.elapsedSeconds ?? 0}
      />
      <RunSteps steps={plan.steps} state={state} />
      {stopping ? (
        <StopDialog
          begun={record.steps.length > 0}
          onClose={() => setStopping(false)}
          onLeave={() => viewState.go({ view: 'development' })}
          onStop={() => {
            setStopping(false);
            void log.note({ kind: 'run_aborted' });
          }}
        />
      ) : null}
    </div>
  );
}

/** Where the pad starts: what a step is meant for, or the room, °C. */
function middleOf(temperature: PlanStep['temperature']): number {
  const { aimC = null, lowC = null, highC = null } = temperature ?? {};
  return aimC ?? (lowC === null || highC === null ? 20 : (lowC + highC) / 2);
}

function rollWords({ rolls }: DevelopmentPlan): string {
  const numbers = rolls.map((roll) => roll.number).join(', ');
  return `${rolls.length} ${rolls.length === 1 ? 'roll' : 'rolls'}: ${numbers}`;
}
