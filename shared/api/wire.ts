import { z } from 'zod';
import { AppError, appError, ERROR_DETAILS, isAppError, type ErrorCode } from './errors.ts';

/** Takes a listener away again. */
export type Unsubscribe = () => void;

/** A way for messages between two ends; says nothing about what they mean. */
export interface Transport {
  /** Hands over one JSON value; on a closed transport it does nothing. */
  send(message: unknown): void;
  onMessage(listener: (message: unknown) => void): Unsubscribe;
  /** Called once, when no more messages will come. */
  onClose(listener: () => void): Unsubscribe;
  close(): void;
}

const callId = z.number().int().positive();

const wireError = z.strictObject({
  code: z.string(),
  details: z.unknown(),
  message: z.string(),
  stack: z.string().optional(),
});
export type WireError = z.output<typeof wireError>;

/** Every message there is. */
export const wireMessage = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('request'), id: callId, method: z.string().max(100), input: z.unknown() }),
  z.strictObject({ kind: z.literal('reply-ok'), id: callId, output: z.unknown() }),
  z.strictObject({ kind: z.literal('reply-error'), id: callId, error: wireError }),
  z.strictObject({ kind: z.literal('cancel'), id: callId }),
  z.strictObject({ kind: z.literal('event'), event: z.unknown() }),
  z.strictObject({ kind: z.literal('engine-failed'), error: wireError }),
]);
export type WireMessage = z.output<typeof wireMessage>;

/** The id of the call that an unreadable message seems to belong to, to be able to refuse it by name. */
export function findCallId(message: unknown): number | null {
  if (typeof message !== 'object' || message === null || !('id' in message)) return null;
  const parsed = callId.safeParse(message.id);
  return parsed.success ? parsed.data : null;
}

/**
 * An error as it crosses: an `AppError` keeps its code and details, a called-off operation is `cancelled`,
 * anything else is a bug and becomes `internal` with `reference`.
 */
export function toWireError(error: unknown, reference: string, withStack: boolean): WireError {
  const known = isAppError(error)
    ? error
    : isAbort(error)
      ? appError('cancelled', {})
      : appError('internal', { reference });
  const stack = error instanceof Error ? error.stack : undefined;
  return {
    code: known.code,
    details: known.details,
    message: known.message,
    ...(withStack && stack !== undefined ? { stack } : {}),
  };
}

/** The error that crossed; one that cannot be read is `internal`. */
export function fromWireError(error: WireError): AppError {
  const cause = error.stack;
  if (!isErrorCode(error.code))
    return appError('internal', { reference: `unknown code ${error.code}` }, cause);
  const details = ERROR_DETAILS[error.code].safeParse(error.details);
  if (!details.success) return appError('internal', { reference: `unreadable ${error.code}` }, cause);
  return new AppError<ErrorCode>(error.code, details.data, cause);
}

/** Whether a call was called off rather than failed. */
export function isAbort(error: unknown): boolean {
  return error instanceof Error && error.name === 'AbortError';
}

function isErrorCode(code: string): code is ErrorCode {
  return Object.hasOwn(ERROR_DETAILS, code);
}
