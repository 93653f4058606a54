// The package ships no types; only what the colour tests use of it.
declare module 'culori' {
  type Rgb = { mode: 'rgb'; r: number; g: number; b: number };
  type Lab65 = { mode: 'lab65'; l: number; a: number; b: number };
  export function converter(mode: 'lab65'): (colour: Rgb) => Lab65;
  export function differenceCiede2000(): (one: Lab65, other: Lab65) => number;
}
