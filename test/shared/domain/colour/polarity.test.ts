import { describe, expect, it } from 'vitest';
import { lightOf } from '../../../../shared/domain/colour/picture.ts';
import type { Light } from '../../../../shared/domain/colour/picture.ts';
import { polarityOfFrame, polarityOfRoll } from '../../../../shared/domain/colour/polarity.ts';
import { NORMAL_FILM, randomFrom, scanScene } from '../../../support/film-simulator.ts';
import { panoramaViews } from '../../../support/panorama-views.ts';
import { pixelsOf } from '../../../support/pixels.ts';
import { sharedData } from '../../../support/shared-data.ts';

const scans = sharedData('scans');

/** Rolls of 18: one view of each of the 18 places. */
async function rolls(count: number): Promise<Light[][]> {
  const views = await panoramaViews();
  return Array.from({ length: count }, (_, at) =>
    views.filter((_view, place) => place % 18 === (at * 7) % 18).map((view) => lightOf(view.picture)),
  );
}

function onFilm(scene: Light): Light {
  const scanner = { gain: [1.8, 1.8, 1.8], encoding: 'linear', noise: 0.001, random: randomFrom(3) } as const;
  return lightOf(scanScene(scene, NORMAL_FILM, scanner, 1));
}

describe('negative or positive', () => {
  it('takes rolls of free pictures for colour positives', async () => {
    const kinds = (await rolls(3)).map((roll) => polarityOfRoll(roll.map(polarityOfFrame)));
    expect(kinds.map((kind) => `${kind.colour} ${kind.polarity}`)).toEqual(Array(3).fill('colour positive'));
  });

  it('takes the same rolls on masked film for colour negatives', async () => {
    const kinds = (await rolls(2)).map((roll) => polarityOfRoll(roll.map(onFilm).map(polarityOfFrame)));
    expect(kinds.map((kind) => `${kind.colour} ${kind.polarity}`)).toEqual(Array(2).fill('colour negative'));
    expect(Math.min(...kinds.map((kind) => kind.confidence))).toBeGreaterThan(0.8);
  });

  it('takes the same rolls on black-and-white film for monochrome negatives', async () => {
    const kinds = (await rolls(2)).map((roll) =>
      polarityOfRoll(
        roll.map((scene) => {
          const { green, ...rest } = onFilm(scene);
          return polarityOfFrame({ ...rest, red: green, green, blue: green });
        }),
      ),
    );
    expect(kinds.map((kind) => `${kind.colour} ${kind.polarity}`)).toEqual(
      Array(2).fill('monochrome negative'),
    );
  });

  it('knows nothing about a roll of blank frames', () => {
    const flat = new Float32Array(60 * 40).fill(0.5);
    const blank = { width: 60, height: 40, red: flat, green: flat, blue: flat };
    expect(polarityOfRoll([polarityOfFrame(blank)])).toEqual({
      polarity: 'unknown',
      colour: 'unknown',
      confidence: 0,
      frames: 0,
    });
  });
});

describe.runIf(scans !== null)('kinds of the test scans', () => {
  // Truth: truth.json (negative, monochrome, blank) and MANIFEST.md beside the scans.
  it.each([
    ['cast/neutral.jpg', 'colour', 'positive'],
    ['cast/ok-red-door.jpg', 'colour', 'positive'],
    ['cast/red-strong.jpg', 'colour', 'positive'],
    ['real-scans/minilab-blank-dates.jpg', 'colour', 'positive'],
    ['cast/ok-gray-saved-as-rgb.jpg', 'monochrome', 'positive'],
    ['cast/ok-toned-monochrome.jpg', 'toned', 'positive'],
    ['cast/unconverted-colour-negative.jpg', 'colour', 'negative'],
    ['cast/unconverted-bw-negative.jpg', 'monochrome', 'negative'],
  ])('takes %s for %s, %s', async (file, colour, polarity) => {
    const kind = polarityOfRoll([polarityOfFrame(lightOf(await pixelsOf(`${scans}/${file}`)))]);
    expect([kind.colour, kind.polarity]).toEqual([colour, polarity]);
  });

  it.each(['cast/black-blank.jpg', 'cast/clear-film-blank.jpg'])('takes %s for blank', async (file) => {
    expect(polarityOfFrame(lightOf(await pixelsOf(`${scans}/${file}`))).blank).toBe(true);
  });

  // A raw linear scan fills a small part of the range: dark, not blank (MANIFEST.md, rgb16-linear-untagged).
  it('does not take a dark linear picture for blank', async () => {
    const picture = await pixelsOf(`${scans}/cast/neutral.jpg`);
    const dark = lightOf(picture);
    const scale = (plane: Float32Array) => plane.map((value) => value * 0.22);
    const kind = polarityOfFrame({
      ...dark,
      red: scale(dark.red),
      green: scale(dark.green),
      blue: scale(dark.blue),
    });
    expect(kind.blank).toBe(false);
  });
});
