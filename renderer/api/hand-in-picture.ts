import { PICTURE_PIECE_LIMIT } from '../../shared/api/host-contract.ts';
import type { HostClient } from './connect.ts';

/** A picture that was handed in: where the engine finds it and where the window can show it from. */
export interface ReceivedPicture {
  readonly fileId: string;
  readonly path: string;
  readonly address: string;
}

/** Three bytes make four characters of base64. */
const PIECE_BYTES = (PICTURE_PIECE_LIMIT / 4) * 3;

/**
 * Hands a picture to the host, so that it can be looked for in the archive; the host keeps it until it ends.
 * It goes piece by piece over the wire, which both hosts have, rather than as an upload: a scheme of the desktop
 * shell's own takes seconds per megabyte of those.
 * @throws {AppError} message_too_large when the picture is above what the host takes in
 */
export async function handInPicture(host: HostClient, picture: File): Promise<ReceivedPicture> {
  const name = picture.name === '' ? 'picture' : picture.name.slice(-200);
  const first = await toBase64(picture.slice(0, PIECE_BYTES));
  const received = await host.call('host.receivePicture', { name, fileId: null, base64: first });
  for (let at = PIECE_BYTES; at < picture.size; at += PIECE_BYTES) {
    const base64 = await toBase64(picture.slice(at, at + PIECE_BYTES));
    await host.call('host.receivePicture', { name, fileId: received.fileId, base64 });
  }
  return received;
}

function toBase64(piece: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result).replace(/^[^,]*,?/, '')));
    reader.addEventListener('error', () =>
      reject(reader.error ?? new Error('The picture could not be read')),
    );
    reader.readAsDataURL(piece);
  });
}
