import { useEffect, useRef } from 'react';
import type { PlanStep, RunEventValue } from '../../../shared/api/methods/development-methods.ts';
import { cuesBetween, type RunCue } from '../../../shared/domain/development/run-sheet.ts';
import { sayCue } from '../../../shared/text/describe-run.ts';

/** A cue that is later than this is not sounded any more, ms: the machine slept. Our choice. */
const TOO_LATE_MS = 3000;

/** Pitches of the tones of a cue, hertz. Our choice: the more tones, the more urgent. */
const TONES: Readonly<Record<RunCue['kind'], readonly number[]>> = {
  agitate: [880],
  stand: [587],
  pour_out: [880, 880, 880],
  time_up: [659, 880, 1175],
};

const TONE_SECONDS = 0.12;
const GAP_SECONDS = 0.06;

function play(context: AudioContext, tones: readonly number[]): void {
  for (const [at, hertz] of tones.entries()) {
    const start = context.currentTime + at * (TONE_SECONDS + GAP_SECONDS);
    const oscillator = context.createOscillator();
    const volume = context.createGain();
    oscillator.frequency.value = hertz;
    volume.gain.setValueAtTime(0.0001, start);
    volume.gain.exponentialRampToValueAtTime(0.3, start + 0.01);
    volume.gain.exponentialRampToValueAtTime(0.0001, start + TONE_SECONDS);
    oscillator.connect(volume).connect(context.destination);
    oscillator.start(start);
    oscillator.stop(start + TONE_SECONDS);
  }
}

function speak(words: string): void {
  if (!('speechSynthesis' in window)) return;
  // What was still being said is old by now.
  window.speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(words);
  said.lang = 'en';
  window.speechSynthesis.speak(said);
}

/**
 * Sounds and says every cue of a run once, when it falls due by the wall clock. Sound begins with the first key or
 * touch, as browsers demand.
 */
export function useCues(
  plan: readonly PlanStep[],
  events: readonly RunEventValue[],
  nowMs: number,
  { sound, voice }: { readonly sound: boolean; readonly voice: boolean },
): void {
  const heardMs = useRef(nowMs);
  const context = useRef<AudioContext | null>(null);

  useEffect(() => {
    function begin(): void {
      if (typeof AudioContext === 'undefined') return;
      context.current ??= new AudioContext();
      void context.current.resume();
    }
    window.addEventListener('keydown', begin);
    window.addEventListener('pointerdown', begin);
    return () => {
      window.removeEventListener('keydown', begin);
      window.removeEventListener('pointerdown', begin);
      void context.current?.close();
      context.current = null;
    };
  }, []);

  useEffect(() => {
    const fromMs = Math.max(heardMs.current, nowMs - TOO_LATE_MS);
    heardMs.current = nowMs;
    for (const cue of cuesBetween(plan, events, fromMs, nowMs)) {
      if (sound && context.current) play(context.current, TONES[cue.kind]);
      if (voice) speak(sayCue(cue, plan[cue.step + 1]?.name ?? null));
    }
  }, [plan, events, nowMs, sound, voice]);
}
