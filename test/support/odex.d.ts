/** Ernst Hairer's ODEX (extrapolation by Gragg, Bulirsch and Stoer), as far as tests use it. The package brings its source only. */
export class Solver {
  constructor(dimensions: number);
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(
    derivatives: (x: number, y: readonly number[]) => number[],
    x: number,
    y: readonly number[],
    xEnd: number,
  ): { readonly y: readonly number[] };
}
