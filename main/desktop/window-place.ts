import { existsSync, readFileSync, writeFileSync } from 'node:fs';

/** Where a window stood, in pixels of the desktop. */
export interface WindowPlace {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly maximised: boolean;
}

interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The size of a first window: what the views are laid out for. */
const FIRST = { width: 1440, height: 900 };

/** This much of a window has to lie on a screen, or it could not be taken hold of. Our choice. */
const IN_SIGHT_PX = 80;

/** The place that `file` remembers, where it still lies on one of the screens. */
export function readWindowPlace(file: string, screens: readonly Area[]): WindowPlace | null {
  const place = existsSync(file) ? parsePlace(readFileSync(file, 'utf8')) : null;
  if (!place) return null;
  const seen = screens.some(
    (screen) =>
      Math.min(place.x + place.width, screen.x + screen.width) - Math.max(place.x, screen.x) >= IN_SIGHT_PX &&
      place.y >= screen.y - 1 &&
      place.y <= screen.y + screen.height - IN_SIGHT_PX,
  );
  return seen ? place : null;
}

/** The size of a first window on a screen: the layout's own where that fits, else nine tenths of the screen. */
export function firstWindowSize(screen: Area): { width: number; height: number } {
  return {
    width: Math.round(Math.min(FIRST.width, screen.width * 0.9)),
    height: Math.round(Math.min(FIRST.height, screen.height * 0.9)),
  };
}

/** Remembers a place. */
export function writeWindowPlace(file: string, place: WindowPlace): void {
  writeFileSync(file, JSON.stringify(place));
}

function parsePlace(text: string): WindowPlace | null {
  try {
    const value: unknown = JSON.parse(text);
    return isPlace(value) ? value : null;
  } catch {
    // A place that cannot be read is no place: the window opens as the first time.
    return null;
  }
}

function isPlace(value: unknown): value is WindowPlace {
  return (
    typeof value === 'object' &&
    value !== null &&
    ['x', 'y', 'width', 'height'].every((name) => Number.isInteger(Reflect.get(value, name))) &&
    typeof Reflect.get(value, 'maximised') === 'boolean' &&
    Number(Reflect.get(value, 'width')) >= 200 &&
    Number(Reflect.get(value, 'height')) >= 200
  );
}
