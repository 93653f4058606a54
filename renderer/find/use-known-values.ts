import { useMemo } from 'react';
import { FILM_FORMATS } from '../../shared/domain/film/film-format.ts';
import { FRAME_FORMATS } from '../../shared/domain/film/frame-format.ts';
import type { FieldName } from '../../shared/domain/search/search-fields.ts';
import { useArchive } from '../api/use-query.ts';

/** Names offered at most. Our choice: a list that is longer is typed into, not looked through. */
const MOST = 200;

/** What the archive has for a text field, to be offered while it is typed; nothing where only the user knows. */
export function useKnownValues(field: FieldName): readonly string[] {
  const stocks = useArchive('stocks.list', {}, { when: field === 'stock' || field === 'maker' });
  const cameras = useArchive('cameras.list', {}, { when: field === 'camera' });
  const tags = useArchive('tags.list', {}, { when: field === 'tag' });
  const binders = useArchive('binders.list', {}, { when: field === 'binder' });
  const baths = useArchive('baths.list', {}, { when: field === 'bath' });
  const outings = useArchive('outings.list', {}, { when: field === 'outing' });
  return useMemo(() => {
    const names: Partial<Record<FieldName, readonly (string | null)[] | undefined>> = {
      stock: stocks.data?.map(({ name }) => name),
      maker: stocks.data?.map(({ maker }) => maker),
      camera: cameras.data?.map(({ name }) => name),
      tag: tags.data?.map(({ name }) => name),
      binder: binders.data?.map(({ name }) => name),
      bath: baths.data?.map(({ name }) => name),
      outing: outings.data?.map(({ title }) => title),
      format: FILM_FORMATS.map(({ id }) => id),
      'frame-format': FRAME_FORMATS.map(({ id }) => id),
    };
    return [...new Set((names[field] ?? []).filter((name) => name !== null))].slice(0, MOST);
  }, [field, stocks.data, cameras.data, tags.data, binders.data, baths.data, outings.data]);
}
