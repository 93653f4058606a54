// A second part of what the tests use of the package: CIE Lab under D50.
declare module 'culori' {
  export function converter(
    mode: 'rgb',
  ): (colour: { mode: 'lab'; l: number; a: number; b: number }) => { r: number; g: number; b: number };
}
