import { appError } from '../../shared/api/errors.ts';
import type { ProcessKind } from '../../shared/api/values.ts';
import { processKind } from '../../shared/api/values.ts';
import { splitFrameAddress } from '../../shared/domain/frame/frame-address.ts';
import { isAppError } from '../../shared/api/errors.ts';
import type { Ask } from './command.ts';
import { UsageError } from './command.ts';

/** The id of a stock by name. @throws {AppError} stock_not_found */
export async function stockByName(ask: Ask, name: string): Promise<number> {
  const found = (await ask('stocks.list', {})).find((stock) => stock.name === name);
  if (!found) throw appError('stock_not_found', { name });
  return found.id;
}

/** The id of a camera by name. @throws {AppError} camera_not_found */
export async function cameraByName(ask: Ask, name: string): Promise<number> {
  const found = (await ask('cameras.list', {})).find((camera) => camera.name === name);
  if (!found) throw appError('camera_not_found', { name });
  return found.id;
}

/** A process named on the command line. @throws {UsageError} */
export function readProcess(text: string): ProcessKind {
  const read = processKind.safeParse(text);
  if (!read.success)
    throw new UsageError(`--process takes ${processKind.options.join(', ')}, not “${text}”.`);
  return read.data;
}

/** What an address such as `2026-001/12A` or `2026-001` names. Roll numbers may have strokes of their own. */
export async function readAddress(
  ask: Ask,
  address: string,
): Promise<{ readonly roll: string; readonly rollId: number; readonly frame: string | null }> {
  const whole = await findRoll(ask, address);
  if (whole !== null) return { roll: address, rollId: whole, frame: null };
  for (const { roll, frame } of splitFrameAddress(address)) {
    const rollId = await findRoll(ask, roll);
    if (rollId !== null) return { roll, rollId, frame };
  }
  throw appError('roll_not_found', { name: address });
}

async function findRoll(ask: Ask, number: string): Promise<number | null> {
  try {
    return (await ask('rolls.byNumber', { number })).id;
  } catch (error) {
    if (isAppError(error, 'roll_not_found')) return null;
    throw error;
  }
}
