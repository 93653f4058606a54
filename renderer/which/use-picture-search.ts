import { useState } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { handInPicture } from '../api/hand-in-picture.ts';
import { useClients } from '../api/clients-context.tsx';

type Found = Output<'pictures.which'>;

/** A picture that is being looked for, and what came of it. */
export interface PictureSearch {
  /** The picture looked for, as the window can show it; null before the first. */
  readonly picture: { readonly name: string; readonly address: string } | null;
  readonly found: Found | null;
  readonly looking: boolean;
  readonly error: Error | null;
  look(picture: File): Promise<void>;
}

/** How many frames are answered at most. */
const MOST_HITS = 6;

/** Hands a picture in and asks which frame it shows; pictures not described yet are described first. */
export function usePictureSearch(): PictureSearch {
  const { engine, host } = useClients();
  const [picture, setPicture] = useState<PictureSearch['picture']>(null);
  const [found, setFound] = useState<Found | null>(null);
  const [looking, setLooking] = useState(false);
  const [error, setError] = useState<Error | null>(null);

  async function look(file: File): Promise<void> {
    setLooking(true);
    setError(null);
    setFound(null);
    setPicture(null);
    try {
      const received = await handInPicture(host, file);
      setPicture({ name: file.name, address: received.address });
      await engine.call('pictures.describe', {});
      setFound(await engine.call('pictures.which', { file: received.path, limit: MOST_HITS }));
    } catch (failure) {
      setError(failure instanceof Error ? failure : new Error(String(failure)));
    } finally {
      setLooking(false);
    }
  }
  return { picture, found, looking, error, look };
}
