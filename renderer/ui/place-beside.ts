/** Where a list that opens from a button goes, in pixels of the window. */
export type Place = {
  readonly left: number;
  readonly top: number;
  readonly maxHeight: number;
  readonly minWidth: number;
};

const EDGE_PX = 8;

/** Below the button where there is room for `wantedPx`, else on the side with more of it. */
export function placeBeside(
  button: { left: number; right: number; top: number; bottom: number },
  windowSize: { width: number; height: number },
  wantedPx: number,
  widthPx: number,
): Place {
  const below = windowSize.height - button.bottom - EDGE_PX;
  const above = button.top - EDGE_PX;
  const goesBelow = below >= wantedPx || below >= above;
  const maxHeight = Math.max(Math.min(goesBelow ? below : above, wantedPx), 40);
  const minWidth = button.right - button.left;
  return {
    left: Math.max(EDGE_PX, Math.min(button.left, windowSize.width - Math.max(minWidth, widthPx) - EDGE_PX)),
    top: goesBelow ? button.bottom + 2 : button.top - maxHeight - 2,
    maxHeight,
    minWidth,
  };
}
