import { useRef, useState } from 'react';
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
  /** Pictures not learnt yet: it is asked again until they are. */
  readonly waiting: number;
  readonly error: Error | null;
  look(picture: File): Promise<void>;
}

/** How many frames are answered at most. */
const MOST_HITS = 6;

/** How often it is looked whether all pictures are learnt, in ms. */
const ASK_AGAIN_MS = 2000;

/** Hands a picture in and asks which frame it shows; pictures not described yet are described first. */
export function usePictureSearch(): PictureSearch {
  const { engine, host } = useClients();
  const [picture, setPicture] = useState<PictureSearch['picture']>(null);
  const [found, setFound] = useState<Found | null>(null);
  const [looking, setLooking] = useState(false);
  const [waiting, setWaiting] = useState(0);
  const [error, setError] = useState<Error | null>(null);
  /** Counts pictures handed in, so that an earlier one stops asking. */
  const turn = useRef(0);

  async function look(file: File): Promise<void> {
    turn.current += 1;
    const mine = turn.current;
    setLooking(true);
    setWaiting(0);
    setError(null);
    setFound(null);
    setPicture(null);
    try {
      const received = await handInPicture(host, file);
      setPicture({ name: file.name, address: received.address });
      await engine.call('pictures.describe', {});
      for (;;) {
        const { waiting: left } = await engine.call('pictures.indexed', {});
        const answer = await engine.call('pictures.which', { file: received.path, limit: MOST_HITS });
        if (mine !== turn.current) return;
        // What is found before all pictures are learnt is shown at once, but a better frame may still come.
        setWaiting(left);
        if (answer.answer !== 'none' || left === 0) setFound(answer);
        if (left === 0 || answer.answer === 'cannot-tell') break;
        await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_MS));
        if (mine !== turn.current) return;
      }
    } catch (failure) {
      setError(failure instanceof Error ? failure : new Error(String(failure)));
    } finally {
      if (mine === turn.current) setLooking(false);
    }
  }
  return { picture, found, looking, waiting, error, look };
}
