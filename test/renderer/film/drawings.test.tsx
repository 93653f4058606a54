// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { FilmPicture } from '../../../renderer/film/film-picture.tsx';
import { FilmStrip } from '../../../renderer/film/film-strip.tsx';
import { PageSmall } from '../../../renderer/film/page-small.tsx';
import { PencilMarks } from '../../../renderer/film/pencil-marks.tsx';
import { Spine } from '../../../renderer/film/spine.tsx';
import { ToleranceLine } from '../../../renderer/film/tolerance-line.tsx';
import { bareFrame } from './some-film.ts';

afterEach(cleanup);

const box = { kind: 'box', x: null, y: null, width: null, height: null } as const;
const dot = { ...box, kind: 'dot' } as const;
const pencil = (element: Element) =>
  [...element.querySelectorAll('.pencil-wax')].map((path) => path.getAttribute('d'));

describe('pencil marks', () => {
  it('look the same whenever the same frame is drawn', () => {
    const draw = () =>
      pencil(render(<PencilMarks marks={[box]} seed="7" widthMm={36} heightMm={24} />).container);
    expect(draw()).toEqual(draw());
  });

  it('look different on another frame', () => {
    const draw = (seed: string) =>
      pencil(render(<PencilMarks marks={[box]} seed={seed} widthMm={36} heightMm={24} />).container);
    expect(draw('7')).not.toEqual(draw('8'));
  });

  it('are drawn along their stroke only when they come later', () => {
    const marks = (list: (typeof box | typeof dot)[]) => (
      <PencilMarks marks={list} seed="7" widthMm={36} heightMm={24} />
    );
    const { container, rerender } = render(marks([box]));
    expect(container.querySelectorAll('.pencil-fresh')).toHaveLength(0);
    rerender(marks([box, dot]));
    expect(container.querySelectorAll('.pencil-fresh')).toHaveLength(1);
  });

  it('leaves out crop lines that were not drawn to the end', () => {
    const crop = { kind: 'crop', x: 0.1, y: 0.1, width: null, height: null } as const;
    const { container } = render(<PencilMarks marks={[crop]} seed="7" widthMm={36} heightMm={24} />);
    expect(pencil(container)).toEqual([]);
  });
});

describe('a picture in its place', () => {
  const picture = {
    address: '/preview/small/a',
    region: { x: 0.25, y: 0, width: 0.5, height: 1 },
    turned: 0,
    mirrored: false,
    widthPx: 4000,
    heightPx: 1000,
  } as const;
  const styles = (element: Element) => {
    const part = element.querySelector('.film-picture');
    const image = element.querySelector('img');
    if (!(part instanceof HTMLElement) || !image) throw new Error('Nothing drawn');
    return { part: part.style, image: image.style };
  };

  it('shows a part of a picture, whole, in the middle', () => {
    // The part is 2000 × 1000 px; in a place of 36 × 24 it is 36 × 18: 100 % and 75 %.
    const { container } = render(<FilmPicture picture={picture} width={36} height={24} />);
    const { part, image } = styles(container);
    expect([part.width, part.height]).toEqual(['100%', '75%']);
    // The whole is twice as wide as the part, which begins at a quarter of it: half the part's width.
    expect([image.width, image.left]).toEqual(['200%', '-50%']);
  });

  it('fits a turned part by its sides as turned', () => {
    // 2000 × 1000 px turned is 1000 × 2000; in 36 × 24 that is 12 × 24, so unturned 24 × 12: 66.7 % and 50 %.
    const { container } = render(<FilmPicture picture={{ ...picture, turned: 90 }} width={36} height={24} />);
    const { part } = styles(container);
    expect(Number.parseFloat(part.width)).toBeCloseTo(66.667, 2);
    expect(part.height).toBe('50%');
    expect(part.transform).toContain('rotate(90deg)');
  });

  it('mirrors before it turns', () => {
    const { container } = render(
      <FilmPicture picture={{ ...picture, turned: 90, mirrored: true }} width={36} height={24} />,
    );
    // CSS applies the last first.
    expect(styles(container).part.transform).toMatch(/rotate\(90deg\) scaleX\(-1\)$/);
  });
});

describe('a strip that is looked at', () => {
  it('is one picture with a name', () => {
    render(
      <FilmStrip
        label="Frames 1 to 2 of A"
        filmFormat="135"
        frames={[bareFrame(1), bareFrame(2)]}
        pxPerMm={2.8}
      />,
    );
    expect(screen.getByRole('img', { name: 'Frames 1 to 2 of A' })).toBeDefined();
    expect(screen.queryAllByRole('gridcell')).toEqual([]);
  });

  it('shows film that nobody scanned as clear film with its number', () => {
    const { container } = render(
      <FilmStrip label="A" filmFormat="135" frames={[bareFrame(12)]} pxPerMm={2.8} />,
    );
    expect(container.querySelector('.film-clear')?.textContent).toBe('no scan');
    expect(container.querySelector('.film-number')?.textContent).toBe('12');
    // Edge numbers step by half frames: 12 is followed by 12A (frame-label.ts).
    expect(container.querySelector('.film-half')?.textContent).toBe('12A');
  });

  it('leaves edge print out where it could not be read', () => {
    const { container } = render(
      <FilmStrip label="A" filmFormat="135" frames={[bareFrame(12)]} pxPerMm={1} />,
    );
    expect(container.querySelector('.film-number')).toBeNull();
  });
});

describe('a page in small', () => {
  it('lights a row and puts the pencil on its place', () => {
    const strips = [1, 2, 3].map((row) => ({ row, from: 0, to: 1 }));
    const { container } = render(
      <PageSmall
        rows={3}
        strips={strips}
        litRow={2}
        litPlace={{ from: 0.5, to: 0.75 }}
        label="Page 4, row 2"
      />,
    );
    expect(screen.getByRole('img', { name: 'Page 4, row 2' })).toBeDefined();
    const bars = (name: string) =>
      container
        .querySelector(name)
        ?.getAttribute('d')
        ?.split('z')
        .filter((bar) => bar !== '').length;
    expect([bars('.page-small-strip'), bars('.page-small-lit')]).toEqual([2, 1]);
    expect(container.querySelectorAll('.page-small-place')).toHaveLength(1);
  });
});

describe('a spine', () => {
  it('has a short name at its head, without the word binder', () => {
    const { container } = render(<Spine name="Binder 12" lines={['2023–24']} fullness={0.5} />);
    expect(container.querySelector('.spine-number')?.textContent).toBe('12');
  });

  it('turns a long name along with its lines', () => {
    const { container } = render(<Spine name="Grandfather" lines={['120']} fullness={null} />);
    expect(container.querySelector('.spine-lines')?.textContent).toBe('Grandfather120');
  });

  it('never shows more than full', () => {
    const { container } = render(<Spine name="1" lines={[]} fullness={1.4} />);
    expect(container.querySelector('.spine-bar span')?.getAttribute('style')).toContain('100%');
  });
});

describe('the tolerance line', () => {
  it('points left of what was meant when less was measured', () => {
    const { container } = render(
      <ToleranceLine
        label="37.2 °C"
        meant={37.8}
        eitherWay={0.15}
        measured={37.2}
        reach={1.2}
        widthPx={240}
      />,
    );
    // 240 px for 2.4 °C: 0.6 under is 60 px left of the middle, 60. The pointer begins 1 px left of it.
    expect(container.querySelector('.tolerance-pointer')?.getAttribute('d')).toMatch(/^M59(\.0+\d*)? /);
  });

  it('reaches as far as what was measured', () => {
    const { container } = render(
      <ToleranceLine label="30 °C" meant={37.8} eitherWay={0.15} measured={30} widthPx={240} />,
    );
    const x = Number(
      /^M(\S+) /.exec(container.querySelector('.tolerance-pointer')?.getAttribute('d') ?? '')?.[1],
    );
    expect(x).toBeGreaterThan(0);
  });
});
