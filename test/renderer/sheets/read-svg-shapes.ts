import type { Shape } from './shapes.ts';

type Point = readonly [number, number];

function numberOf(element: Element, name: string): number {
  return Number(element.getAttribute(name) ?? '0');
}

/** Where `rotate(degrees x y)` takes a point. Source: SVG 2 / CSS Transforms 1, clockwise with y down. */
function turn(transform: string | null, [x, y]: Point): Point {
  const [degrees = 0, cx = 0, cy = 0] = (/^rotate\(([^)]*)\)$/.exec(transform ?? '')?.[1] ?? '0 0 0')
    .split(' ')
    .map(Number);
  const angle = (degrees * Math.PI) / 180;
  const [dx, dy] = [x - cx, y - cy];
  return [cx + dx * Math.cos(angle) - dy * Math.sin(angle), cy + dx * Math.sin(angle) + dy * Math.cos(angle)];
}

function cornersOf(element: Element): Point[] {
  const [x, y] = [numberOf(element, 'x'), numberOf(element, 'y')];
  return [
    [x, y],
    [x + numberOf(element, 'width'), y + numberOf(element, 'height')],
  ];
}

function readLine(element: Element): Shape {
  const points = (element.getAttribute('points') ?? '').split(' ').map((pair): Point => {
    const [x = 0, y = 0] = pair.split(',').map(Number);
    return [x, y];
  });
  return {
    kind: 'line',
    colour: element.getAttribute('stroke') ?? '',
    points,
    closed: element.tagName === 'polygon',
    cap: element.getAttribute('stroke-linecap') ?? '',
    widthMm: numberOf(element, 'stroke-width'),
  };
}

function readTexts(group: Element): Shape[] {
  return [...group.children].map((text) => {
    const [x, y] = [numberOf(text, 'x'), numberOf(text, 'y')];
    const transform = group.getAttribute('transform');
    return {
      kind: 'text',
      colour: group.getAttribute('fill') ?? '',
      text: text.textContent ?? '',
      start: turn(transform, [x, y]),
      end: turn(transform, [x + numberOf(text, 'textLength'), y]),
      sizeMm: numberOf(text, 'font-size'),
    };
  });
}

/** The shapes of a sheet's SVG in the order they are painted. Millimetres, origin top left. */
export function readSvgShapes(svg: Element): Shape[] {
  return [...svg.children].flatMap((element): Shape[] => {
    switch (element.tagName) {
      case 'rect':
        return [
          {
            kind: 'rect',
            colour: element.getAttribute('fill') ?? '',
            corners: cornersOf(element),
            radiusMm: numberOf(element, 'rx'),
          },
        ];
      case 'polyline':
      case 'polygon':
        return [readLine(element)];
      case 'g': {
        const place = element.querySelector(':scope > rect');
        return place ? [{ kind: 'image', corners: cornersOf(place) }] : readTexts(element);
      }
      default:
        throw new Error(`A sheet has no ${element.tagName}`);
    }
  });
}
