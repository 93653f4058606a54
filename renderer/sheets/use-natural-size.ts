import { useEffect, useState } from 'react';

/** The size of a picture in pixels, null until it has come. Not asked for where `address` is null. */
export function useNaturalSize(address: string | null): { width: number; height: number } | null {
  const [known, setKnown] = useState<{ address: string; width: number; height: number } | null>(null);
  useEffect(() => {
    if (address === null) return undefined;
    const picture = new Image();
    picture.addEventListener('load', () =>
      setKnown({ address, width: picture.naturalWidth, height: picture.naturalHeight }),
    );
    picture.src = address;
    return () => {
      // What is no longer waited for need not come.
      picture.src = '';
    };
  }, [address]);
  return known !== null && known.address === address && known.width > 0 ? known : null;
}
