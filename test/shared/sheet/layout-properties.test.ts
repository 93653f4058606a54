import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DisplayItem, TextItem } from '../../../shared/sheet/display-list.ts';
import { layOutSheet } from '../../../shared/sheet/layout.ts';
import { sheetLayout } from '../../../shared/sheet/sheet-layout.ts';
import type { PlacedFrame } from '../../../shared/sheet/sheet-layout.ts';
import type { PlannedMark, SheetPlan } from '../../../shared/sheet/sheet-plan.ts';
import { sheetPlan } from '../../../shared/sheet/sheet-plan.ts';
import { sheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import type { SheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import { FILM_135, FILM_6X6, FILM_HALF, makePage } from '../../support/make-plan.ts';

/** Layouts of whole rolls take a few milliseconds each. */
const RUNS = { numRuns: 60 };

/** Below what a printer resolves, mm; sums of floating point numbers differ by less. */
const TOLERANCE_MM = 1e-6;

const film = fc.constantFrom(FILM_135, FILM_6X6, FILM_HALF);
const cut = fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 8 });
const marked: fc.Arbitrary<PlannedMark[]> = fc.constantFrom<PlannedMark[]>(
  [],
  [{ kind: 'dot' }],
  [{ kind: 'stroke' }],
);

/** One or two pages; keys are made unique over the pages. */
const plan: fc.Arbitrary<SheetPlan> = fc
  .array(fc.tuple(cut, film, marked), { minLength: 1, maxLength: 2 })
  .map((pages) => ({
    pages: pages.map(([rows, kind, marks], page) =>
      makePage(rows, kind, (number) => ({ key: `${page}-${number}`, marks, caption: `Caption ${number}` })),
    ),
  }));

const spec: fc.Arbitrary<SheetSpec> = fc.record({
  paperId: fc.constantFrom('8x10in', 'letter', 'a4', '24x30cm', '11x14in', '9.5x12in', 'a3'),
  customMm: fc.constant(null),
  orientation: fc.constantFrom('auto', 'upright', 'wide'),
  marginMm: fc.double({ min: 0, max: 12, noNaN: true }),
  look: fc.constantFrom('film', 'ink-saving'),
  scale: fc.oneof(
    fc.constant(1),
    fc.constant('fit' as const),
    fc.double({ min: 0.2, max: 1.5, noNaN: true }),
  ),
  trim: fc.constantFrom('none', 'outer', 'all'),
  sheets: fc.constantFrom('one', 'as-needed'),
  captions: fc.boolean(),
  pencilMarks: fc.boolean(),
  ruler: fc.boolean(),
  heading: fc.boolean(),
  title: fc.constantFrom(null, 'Torrow'),
});

function overlap(a: PlacedFrame, b: PlacedFrame): boolean {
  return (
    a.page === b.page &&
    a.xMm < b.xMm + b.widthMm - TOLERANCE_MM &&
    b.xMm < a.xMm + a.widthMm - TOLERANCE_MM &&
    a.yMm < b.yMm + b.heightMm - TOLERANCE_MM &&
    b.yMm < a.yMm + a.heightMm - TOLERANCE_MM
  );
}

/** Where the baseline of a line of text ends. */
function endOf({ xMm, yMm, widthMm, turned }: TextItem): readonly [number, number] {
  if (turned === 90) return [xMm, yMm + widthMm];
  if (turned === 270) return [xMm, yMm - widthMm];
  return [xMm + widthMm, yMm];
}

function isInside(item: DisplayItem, page: { widthMm: number; heightMm: number }, marginMm: number): boolean {
  const points: readonly (readonly [number, number])[] =
    item.kind === 'line'
      ? item.points
      : item.kind === 'text'
        ? [[item.xMm, item.yMm], endOf(item)]
        : [
            [item.xMm, item.yMm],
            [item.xMm + item.widthMm, item.yMm + item.heightMm],
          ];
  const least = marginMm - TOLERANCE_MM;
  return points.every(
    ([x, y]) => x >= least && y >= least && x <= page.widthMm - least && y <= page.heightMm - least,
  );
}

describe('any layout', () => {
  it('has every frame of the plan once, in order, or none and a misfit', () => {
    fc.assert(
      fc.property(plan, spec, (plan, spec) => {
        const layout = layOutSheet(plan, spec);
        const keys = plan.pages.flatMap((page) =>
          page.rows.flatMap((row) => row.strips.flatMap((strip) => strip.frames.map((frame) => frame.key))),
        );
        expect(layout.frames.map((frame) => frame.key)).toEqual(layout.misfit ? [] : keys);
      }),
      RUNS,
    );
  });

  it('has no two pictures that overlap', () => {
    fc.assert(
      fc.property(plan, spec, (plan, spec) => {
        const { frames } = layOutSheet(plan, spec);
        const overlapping = frames.flatMap((a, index) =>
          frames
            .slice(index + 1)
            .filter((b) => overlap(a, b))
            .map((b) => `${a.key} ${b.key}`),
        );
        expect(overlapping).toEqual([]);
      }),
      RUNS,
    );
  });

  it('keeps everything but the pencil inside the printable area', () => {
    fc.assert(
      fc.property(plan, spec, (plan, spec) => {
        for (const page of layOutSheet(plan, { ...spec, pencilMarks: false }).pages) {
          const outside = page.items.filter((item) => !isInside(item, page, spec.marginMm));
          expect(outside).toEqual([]);
        }
      }),
      RUNS,
    );
  });

  it('prints pictures at their size times the scale', () => {
    fc.assert(
      fc.property(plan, spec, (plan, spec) => {
        const layout = layOutSheet(plan, spec);
        const frames = plan.pages.flatMap((page) =>
          page.rows.flatMap((row) => row.strips.flatMap((strip) => strip.frames)),
        );
        for (const [index, placed] of layout.frames.entries()) {
          expect(placed.widthMm).toBeCloseTo((frames[index]?.picture.widthMm ?? NaN) * layout.scale, 9);
          expect(placed.heightMm).toBeCloseTo((frames[index]?.picture.heightMm ?? NaN) * layout.scale, 9);
        }
      }),
      RUNS,
    );
  });

  it('keeps the scale that was asked for', () => {
    fc.assert(
      fc.property(plan, spec, (plan, spec) => {
        fc.pre(spec.scale !== 'fit');
        expect(layOutSheet(plan, spec).scale).toBe(spec.scale);
      }),
      RUNS,
    );
  });

  it('is JSON that its schema accepts', () => {
    fc.assert(
      fc.property(plan, spec, (plan, spec) => {
        expect(sheetPlan.parse(plan)).toEqual(plan);
        expect(sheetSpec.parse(spec)).toEqual(spec);
        const layout = layOutSheet(plan, spec);
        expect(sheetLayout.parse(JSON.parse(JSON.stringify(layout)))).toEqual(layout);
      }),
      RUNS,
    );
  });

  it('doubles every picture when paper, margins and scale are doubled', () => {
    const bare = { heading: false, ruler: false, paperId: 'custom' } as const;
    fc.assert(
      fc.property(
        plan,
        spec,
        fc.record({
          widthMm: fc.integer({ min: 150, max: 500 }),
          heightMm: fc.integer({ min: 150, max: 500 }),
        }),
        fc.double({ min: 0.3, max: 1.2, noNaN: true }),
        (plan, spec, customMm, scale) => {
          // A scale of 1 says nothing on the sheet, any other takes a line: leave it out on both sides.
          fc.pre(scale !== 1 && scale * 2 !== 1);
          const single = layOutSheet(plan, { ...spec, ...bare, customMm, scale });
          const double = layOutSheet(plan, {
            ...spec,
            ...bare,
            customMm: { widthMm: customMm.widthMm * 2, heightMm: customMm.heightMm * 2 },
            marginMm: spec.marginMm * 2,
            scale: scale * 2,
          });
          // The words of the scale keep their size, so rows may start elsewhere; sizes and steps along a strip double.
          fc.pre(single.misfit === null && double.misfit === null);
          for (const [index, frame] of single.frames.entries()) {
            const twin = double.frames[index];
            expect(twin?.widthMm).toBeCloseTo(frame.widthMm * 2, 6);
            expect(twin?.heightMm).toBeCloseTo(frame.heightMm * 2, 6);
            const before = single.frames[index - 1];
            const twinBefore = double.frames[index - 1];
            if (!before || !twin || !twinBefore || before.yMm !== frame.yMm) continue;
            expect(twin.xMm - twinBefore.xMm).toBeCloseTo((frame.xMm - before.xMm) * 2, 6);
          }
        },
      ),
      RUNS,
    );
  });

  it('fits no larger than asked for by fit: half a percent more is a misfit', () => {
    fc.assert(
      fc.property(plan, spec, (plan, spec) => {
        const fitted = layOutSheet(plan, { ...spec, scale: 'fit' });
        fc.pre(fitted.misfit === null && fitted.scale < 7.9 && Math.abs(fitted.scale - 1) > 0.01);
        const more = layOutSheet(plan, { ...spec, scale: fitted.scale * 1.005 + 0.001, sheets: 'one' });
        expect(more.misfit).not.toBeNull();
      }),
      RUNS,
    );
  });
});
