import { z } from 'zod';
import { appError, isAppError, type AppError } from './errors.ts';
import { MESSAGE_LIMIT_BYTES, weighJson } from './json-value.ts';
import type { Method } from './method.ts';
import {
  findCallId,
  fromWireError,
  isAbort,
  toWireError,
  wireMessage,
  type Transport,
  type Unsubscribe,
} from './wire.ts';

/** What may be given along with a call. */
export interface CallOptions {
  readonly signal?: AbortSignal;
}

/** Anything that answers calls by name: the engine itself, a host, or a client of either. */
export interface Service {
  call(name: string, input: unknown, options?: CallOptions): Promise<unknown>;
  onEvent(listener: (event: unknown) => void): Unsubscribe;
}

/** What any table of methods is, said so that its own keys stay known. */
type Methods<Table> = { readonly [Name in keyof Table]: Method };

/** One function per method of a table. */
export type Answers<Table extends Methods<Table>> = {
  readonly [Name in keyof Table]: (
    input: z.output<Table[Name]['input']>,
    run: { readonly signal: AbortSignal },
  ) => z.output<Table[Name]['output']> | Promise<z.output<Table[Name]['output']>>;
};

/** The caller's side of a table. */
export interface Client<Table extends Methods<Table>, Event> {
  /**
   * Calls a method of the table.
   * @throws {AppError} what the method throws; engine_stopped when the other end goes away; cancelled when
   * `signal` is aborted; message_too_large when the input is.
   */
  call<Name extends keyof Table & string>(
    name: Name,
    input: z.input<Table[Name]['input']>,
    options?: CallOptions,
  ): Promise<z.output<Table[Name]['output']>>;
  onEvent(listener: (event: Event) => void): Unsubscribe;
  /** Told when the engine behind a living connection has failed; a closed connection is told by `onClose`. */
  onEngineFailed(listener: (error: AppError) => void): Unsubscribe;
  onClose(listener: () => void): Unsubscribe;
  close(): void;
}

/**
 * Turns a table and its answers into a function that takes calls by name. The name is looked up among the
 * table's own keys, the input is parsed always, the output where `checkOutputs` asks for it.
 * The function throws {AppError} method_unknown when the table has no such method, value_not_valid when the
 * input does not fit.
 */
export function answerFrom<Table extends Methods<Table>>(
  table: Table,
  answers: Answers<Table>,
  checkOutputs: boolean,
): Service['call'] {
  async function answer<Name extends keyof Table & string>(
    name: Name,
    input: unknown,
    signal: AbortSignal,
  ): Promise<unknown> {
    const parsed = z.safeParse<Table[Name]['input']>(table[name].input, input);
    if (!parsed.success) throw notValid(parsed.error, input);
    const output: unknown = await answers[name](parsed.data, { signal });
    if (checkOutputs) z.parse(table[name].output, output);
    return output;
  }
  return async (name, input, options) => {
    if (!isMethodOf(table, name)) throw appError('method_unknown', { name: name.slice(0, 100) });
    return answer(name, input, options?.signal ?? new AbortController().signal);
  };
}

/** How a served connection treats what is not the caller's business. */
export interface ServeOptions {
  /** Makes the short reference under which a bug is told to the user and written to the log. */
  newReference(): string;
  /** Told of each bug: a failure that is neither expected nor a cancellation. */
  onBug(error: unknown, reference: string): void;
  /** Whether stacks may cross; development only. */
  withStack?: boolean;
}

/** Serves calls that come over `transport` until it closes. Gives what stops it (the transport stays open). */
export function serve(transport: Transport, service: Service, options: ServeOptions): Unsubscribe {
  const running = new Map<number, AbortController>();

  function refuse(id: number, error: unknown): void {
    const reference = options.newReference();
    if (!isAppError(error) && !isAbort(error)) options.onBug(error, reference);
    transport.send({
      kind: 'reply-error',
      id,
      error: toWireError(error, reference, options.withStack === true),
    });
  }

  async function run(id: number, name: string, input: unknown): Promise<void> {
    const controller = new AbortController();
    running.set(id, controller);
    try {
      const output = await service.call(name, input, { signal: controller.signal });
      checkWeight(output, name);
      transport.send({ kind: 'reply-ok', id, output });
    } catch (error) {
      refuse(id, controller.signal.aborted ? appError('cancelled', {}) : error);
    } finally {
      running.delete(id);
    }
  }

  function take(message: unknown): void {
    const weight = weighJson(message, MESSAGE_LIMIT_BYTES);
    const parsed = weight.ok ? wireMessage.safeParse(message) : null;
    if (parsed?.success !== true) {
      const id = findCallId(message);
      if (id !== null && !running.has(id)) refuse(id, whyUnreadable(weight));
      return;
    }
    const read = parsed.data;
    if (read.kind === 'cancel') running.get(read.id)?.abort();
    if (read.kind !== 'request') return;
    // A second request under an id still running would make two replies to one call: only the first counts.
    if (!running.has(read.id)) void run(read.id, read.method, read.input);
  }

  const offMessage = transport.onMessage(take);
  const offEvent = service.onEvent((event) => transport.send({ kind: 'event', event }));
  function stop(): void {
    offMessage();
    offEvent();
    offClose();
    for (const controller of running.values()) controller.abort();
  }
  const offClose = transport.onClose(stop);
  return stop;
}

interface Pending {
  readonly name: string;
  resolve(output: unknown): void;
  reject(error: unknown): void;
}

/**
 * Makes the caller's side of `table` over `transport`. Outputs and events are parsed where `checkOutputs` asks
 * for it: they come from our own engine, so a released window trusts them.
 */
export function connect<Table extends Methods<Table>, EventSchema extends z.ZodType>(
  transport: Transport,
  table: Table,
  eventSchema: EventSchema,
  checkOutputs: boolean,
): Client<Table, z.output<EventSchema>> {
  const pending = new Map<number, Pending>();
  const onEvents = listeners<z.output<EventSchema>>();
  const onFailures = listeners<AppError>();
  const onCloses = listeners<undefined>();
  let lastId = 0;
  let closed = false;

  function rejectAll(): void {
    const calls = [...pending.values()];
    pending.clear();
    for (const call of calls) call.reject(appError('engine_stopped', {}));
  }

  function settle(id: number, act: (call: Pending) => void): void {
    const call = pending.get(id);
    pending.delete(id);
    if (call) act(call);
  }

  transport.onMessage((message) => {
    const parsed = wireMessage.safeParse(message);
    if (!parsed.success) return;
    const read = parsed.data;
    if (read.kind === 'reply-ok') settle(read.id, (call) => call.resolve(read.output));
    else if (read.kind === 'reply-error') settle(read.id, (call) => call.reject(fromWireError(read.error)));
    else if (read.kind === 'event') {
      const event = eventSchema.safeParse(read.event);
      if (event.success) onEvents.tell(event.data);
    } else if (read.kind === 'engine-failed') {
      rejectAll();
      onFailures.tell(fromWireError(read.error));
    }
  });
  transport.onClose(() => {
    closed = true;
    rejectAll();
    onCloses.tell(undefined);
  });

  function ask(name: string, input: unknown, signal: AbortSignal | undefined): Promise<unknown> {
    return new Promise((resolve, reject) => {
      if (closed) return reject(appError('engine_stopped', {}));
      if (signal?.aborted === true) return reject(appError('cancelled', {}));
      checkWeight(input, name);
      lastId += 1;
      const id = lastId;
      function cancel(): void {
        if (!pending.delete(id)) return;
        transport.send({ kind: 'cancel', id });
        reject(appError('cancelled', {}));
      }
      function free(): void {
        signal?.removeEventListener('abort', cancel);
      }
      pending.set(id, {
        name,
        resolve: (output) => {
          free();
          resolve(output);
        },
        reject: (error) => {
          free();
          reject(error);
        },
      });
      signal?.addEventListener('abort', cancel, { once: true });
      transport.send({ kind: 'request', id, method: name, input });
    });
  }

  return {
    async call(name, input, callOptions) {
      const output = await ask(name, input, callOptions?.signal);
      if (isOutput(table, name, output, checkOutputs)) return output;
      throw new Error(`The answer of ${name} does not fit its table`);
    },
    onEvent: onEvents.add,
    onEngineFailed: onFailures.add,
    onClose: (listener) => onCloses.add(listener),
    close: () => transport.close(),
  };
}

/** A client as a service, so that a host can pass calls on; only names of `table` go through. */
export function passOn<Table extends Methods<Table>, Event>(
  table: Table,
  client: Client<Table, Event>,
): Service {
  return {
    async call(name, input, options) {
      if (!isMethodOf(table, name)) throw appError('method_unknown', { name: name.slice(0, 100) });
      return passCall(table, client, name, input, options);
    },
    onEvent: (listener) => client.onEvent(listener),
  };
}

function passCall<Table extends Methods<Table>, Name extends keyof Table & string, Event>(
  table: Table,
  client: Client<Table, Event>,
  name: Name,
  input: unknown,
  options: CallOptions | undefined,
): Promise<unknown> {
  if (!isInput(table, name, input)) throw notValid(z.safeParse(table[name].input, input).error, input);
  return client.call(name, input, options);
}

function isInput<Table extends Methods<Table>, Name extends keyof Table & string>(
  table: Table,
  name: Name,
  input: unknown,
): input is z.input<Table[Name]['input']> {
  return z.safeParse(table[name].input, input).success;
}

function isMethodOf<Table extends Methods<Table>>(table: Table, name: string): name is keyof Table & string {
  return Object.hasOwn(table, name);
}

function isOutput<Table extends Methods<Table>, Name extends keyof Table & string>(
  table: Table,
  name: Name,
  output: unknown,
  check: boolean,
): output is z.output<Table[Name]['output']> {
  return !check || z.safeParse(table[name].output, output).success;
}

/** @throws {AppError} message_too_large; an ordinary Error when `value` is no JSON, which is a bug. */
function checkWeight(value: unknown, name: string): void {
  const weight = weighJson(value, MESSAGE_LIMIT_BYTES);
  if (weight.ok) return;
  if (weight.reason === 'not json') throw new Error(`${name}: no JSON value at ${weight.at}`);
  throw appError('message_too_large', { bytes: weight.bytes, limit: MESSAGE_LIMIT_BYTES });
}

function whyUnreadable(weight: ReturnType<typeof weighJson>): AppError {
  if (!weight.ok && weight.reason === 'too large') {
    return appError('message_too_large', { bytes: weight.bytes, limit: MESSAGE_LIMIT_BYTES });
  }
  const field = weight.ok ? 'message' : weight.at;
  return appError('value_not_valid', { field, value: '', reason: 'not a message of this program' });
}

function notValid(error: z.core.$ZodError | undefined, input: unknown): AppError {
  const issue = error?.issues[0];
  const path = issue?.path ?? [];
  const value = path.reduce<unknown>(
    (inner, key) => (typeof inner === 'object' && inner !== null ? Reflect.get(inner, key) : undefined),
    input,
  );
  return appError('value_not_valid', {
    field: path.map(String).join('.'),
    value: (JSON.stringify(value) ?? '').slice(0, 100),
    reason: issue?.message ?? 'not valid',
  });
}

function listeners<Value>(): {
  add(listener: (value: Value) => void): Unsubscribe;
  tell(value: Value): void;
} {
  const all = new Set<(value: Value) => void>();
  return {
    add(listener) {
      // A function of its own per call, so that one listener added twice is told twice and removed singly.
      const entry = (value: Value) => listener(value);
      all.add(entry);
      return () => void all.delete(entry);
    },
    tell(value) {
      for (const listener of all) listener(value);
    },
  };
}
