import { useEffect, useRef, useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { PictureHitCard } from './picture-hit.tsx';
import { usePictureSearch, type PictureSearch } from './use-picture-search.ts';
import './which-view.css';

const ANSWERS = {
  frame: 'It is this frame.',
  scene: 'It is this scene: one of these frames. Lay them side by side to choose.',
  none: 'It is not in the archive.',
  'cannot-tell': 'The picture has too little detail to tell.',
} as const;

/** Finds the frame that any picture shows: a crop, a small copy, a picture of a print, a negative. */
export function WhichView() {
  const search = usePictureSearch();
  const indexed = useArchive('pictures.indexed', {});
  const choose = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  const { look } = search;

  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const here = place.current;
    if (!here) return;
    const drag = (event: DragEvent) => {
      event.preventDefault();
      setOver(true);
    };
    const leave = () => setOver(false);
    const drop = (event: DragEvent) => {
      event.preventDefault();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file) void look(file);
    };
    here.addEventListener('dragover', drag);
    here.addEventListener('dragleave', leave);
    here.addEventListener('drop', drop);
    return () => {
      here.removeEventListener('dragover', drag);
      here.removeEventListener('dragleave', leave);
      here.removeEventListener('drop', drop);
    };
  });

  useEffect(() => {
    function paste(event: ClipboardEvent): void {
      const file = [...(event.clipboardData?.files ?? [])].find((each) => each.type.startsWith('image/'));
      if (file) void look(file);
    }
    window.addEventListener('paste', paste);
    return () => window.removeEventListener('paste', paste);
  });

  const take = (files: FileList | null) => {
    const file = files?.[0];
    if (file) void look(file);
  };
  return (
    <div
      ref={place}
      className={over ? 'which which-over' : 'which'}
      role="region"
      aria-label="Find by picture"
    >
      <header className="which-head">
        <h1>Which frame is this?</h1>
        <Button look="main" busy={search.looking} onPress={() => choose.current?.click()}>
          Choose a picture…
        </Button>
        <input
          ref={choose}
          type="file"
          accept="image/*,.tif,.tiff,.dng"
          aria-label="Picture to look for"
          hidden
          onChange={(event) => {
            take(event.currentTarget.files);
            event.currentTarget.value = '';
          }}
        />
        <p className="which-state">{sayIndexed(indexed.data)}</p>
      </header>
      <Answer search={search} />
    </div>
  );
}

function sayIndexed(counts: { described: number; waiting: number } | undefined): string {
  if (!counts) return '';
  if (counts.waiting > 0)
    return `${counts.described} pictures can be found; ${counts.waiting} are still being learnt.`;
  return `${counts.described} pictures can be found.`;
}

function Answer({ search }: { readonly search: PictureSearch }) {
  const { picture, found, looking, waiting, error } = search;
  if (!picture && !looking && !error) {
    return (
      <EmptyState says="Drop any picture here, or paste it: a crop, a small copy, a phone's picture of a print, a negative. The frame it shows comes back with its page and pocket." />
    );
  }
  return (
    <div className="which-answer">
      {picture ? (
        <figure className="which-asked">
          <img src={picture.address} alt={`Looked for: ${picture.name}`} />
          <figcaption>{picture.name}</figcaption>
        </figure>
      ) : null}
      <div className="which-found" aria-live="polite">
        {looking ? (
          <p>
            {waiting === 0
              ? 'Looking…'
              : `${found ? 'This is what was found so far.' : 'Not among the pictures learnt so far.'} ${waiting} are still being learnt; it is asked again until they are.`}
          </p>
        ) : null}
        {error ? <Notice kind="failed" {...describeError(error)} /> : null}
        {found ? <h2>{ANSWERS[found.answer]}</h2> : null}
        {found && found.hits.length > 0 ? (
          <ul className="which-hits">
            {found.hits.map((hit) => (
              <PictureHitCard key={hit.frameId} hit={hit} asked={picture?.address ?? ''} />
            ))}
          </ul>
        ) : null}
      </div>
    </div>
  );
}
