/**
 * The CSS transform that lays a picture over a frame, when both are drawn `widthPx` × `heightPx` from one upper left
 * corner. `homography`: fractions of the picture to fractions of the frame, row by row.
 */
export function overlayMatrix(homography: readonly number[], widthPx: number, heightPx: number): string {
  const [a = 1, b = 0, c = 0, d = 0, e = 1, f = 0, g = 0, h = 0, i = 1] = homography;
  const columns = [
    [a, (d * heightPx) / widthPx, 0, g / widthPx],
    [(b * widthPx) / heightPx, e, 0, h / heightPx],
    [0, 0, 1, 0],
    [c * widthPx, f * heightPx, 0, i],
  ];
  // Without exponents, which some readers of CSS do not take.
  return `matrix3d(${columns
    .flat()
    .map((value) => value.toFixed(9))
    .join(', ')})`;
}
