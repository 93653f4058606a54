import { z } from 'zod';
import { method } from '../method.ts';
import { id, line, made, named, nothing, place, rollState } from '../values.ts';

/** One frame found, with where it lies and what made it. */
export const hit = z.strictObject({
  frameId: id,
  rollId: id,
  roll: z.string(),
  frame: z.string(),
  caption: z.string().nullable(),
  pictureId: z.string().nullable(),
  lies: place.nullable(),
  outing: z.strictObject({ id, title: z.string(), date: z.string().nullable() }).nullable(),
  development: z.strictObject({ id, process: z.string(), date: z.string().nullable() }).nullable(),
});
export type Hit = z.output<typeof hit>;

/** One roll with frames found; `frames` of them. */
const rollHit = z.strictObject({
  rollId: id,
  roll: z.string(),
  title: z.string().nullable(),
  stock: named.nullable(),
  camera: named.nullable(),
  state: rollState,
  frames: z.number().int(),
  pictureId: z.string().nullable(),
});
export type RollHit = z.output<typeof rollHit>;

/** One binder page with frames found; `frames` of them, of `rolls`. */
const pageHit = z.strictObject({
  pageId: id,
  binderId: id,
  binder: z.string(),
  page: z.number().int(),
  frames: z.number().int(),
  rolls: z.array(z.string()),
});
export type PageHit = z.output<typeof pageHit>;

export const facetName = z.enum([
  'stock',
  'camera',
  'year',
  'state',
  'process',
  'format',
  'tag',
  'place',
  'outing',
]);

/** How many of the frames found have each value; `term` asks for a value in the search box, `more` are not listed. */
const facet = z.strictObject({
  facet: facetName,
  values: z.array(z.strictObject({ label: z.string(), frames: z.number().int(), term: z.string() })),
  more: z.number().int(),
});
export type Facet = z.output<typeof facet>;

/** A search as typed into the box. Longer ones are answered with where they are too long. */
const searchText = z.string().max(5000);
export const shownAs = z.enum(['frames', 'rolls', 'pages']);
const limit = z.number().int().min(1).max(1000).default(200);
const after = z.string().max(500).optional();

const savedSearch = z.strictObject({ id, name: z.string(), query: z.string(), shownAs });

/** Finding frames. */
export const SEARCH_METHODS = {
  'search.frames': method(
    z.strictObject({
      words: searchText,
      cameraId: id.optional(),
      stockId: id.optional(),
      from: z.string().max(100).optional(),
      to: z.string().max(100).optional(),
      limit,
      after,
    }),
    z.strictObject({ total: z.number().int(), hits: z.array(hit), next: z.string().nullable() }),
  ),
  'search.find': method(
    z.strictObject({
      query: searchText,
      shownAs: shownAs.default('frames'),
      facets: z.array(facetName).max(20).default([]),
      limit,
      after,
    }),
    z.strictObject({
      /** Of what is shown: frames, rolls or pages. Only the list of that kind is filled. */
      total: z.number().int(),
      frames: z.number().int(),
      hits: z.array(hit),
      rolls: z.array(rollHit),
      pages: z.array(pageHit),
      facets: z.array(facet),
      next: z.string().nullable(),
    }),
  ),
  'search.understand': method(
    z.strictObject({ query: searchText }),
    z.strictObject({
      /** What is wrong, where (UTF-16 units), and what could stand there instead; null when it is understood. */
      mistake: z
        .strictObject({
          at: z.number().int(),
          length: z.number().int(),
          reason: z.string(),
          suggestion: z.string().nullable(),
        })
        .nullable(),
      /** The search in words and as it is best typed; null with a mistake. */
      words: z.string().nullable(),
      printed: z.string().nullable(),
      /** The parts that must all hold, for a builder. */
      filters: z.array(z.strictObject({ text: z.string(), words: z.string() })),
      /** Names that the archive does not have, with the nearest that it has. */
      unknownNames: z.array(
        z.strictObject({ field: z.string(), name: z.string(), suggestion: z.string().nullable() }),
      ),
    }),
  ),
  'searches.list': method(nothing, z.array(savedSearch)),
  'searches.add': method(z.strictObject({ name: line, query: searchText, shownAs }), made, ['searches']),
  'searches.remove': method(z.strictObject({ id }), nothing, ['searches']),
} as const;
