import fc from 'fast-check';
import { once } from 'node:events';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket, WebSocketServer } from 'ws';
import { CONTRACT } from '../../shared/api/contract.ts';
import { isAppError } from '../../shared/api/errors.ts';
import { MESSAGE_LIMIT_BYTES } from '../../shared/api/json-value.ts';
import { connect, serve, type Client } from '../../shared/api/rpc.ts';
import type { Transport } from '../../shared/api/wire.ts';
import { webSocketTransport } from '../../main/transport/web-socket.ts';
import { makeTestService, TEST_METHODS, testEvent } from './test-methods.ts';
import { WAYS, type Reached } from './three-ways.ts';

type TestClient = Client<typeof TEST_METHODS, { type: 'told'; text: string }>;

/** The code and details an awaited call failed with. */
async function failureOf(call: Promise<unknown>): Promise<unknown> {
  try {
    await call;
  } catch (error) {
    return isAppError(error) ? { code: error.code, details: error.details } : error;
  }
  return 'did not fail';
}

/** The reply that a raw message brings, past every check of the caller's side. */
function replyTo(transport: Transport, message: unknown): Promise<unknown> {
  return new Promise((resolve) => {
    const off = transport.onMessage((reply) => {
      off();
      resolve(reply);
    });
    transport.send(message);
  });
}

/** A nested array, `levels` deep. */
function nested(levels: number): unknown {
  let value: unknown = 0;
  for (let level = 0; level < levels; level += 1) value = [value];
  return value;
}

describe.each(WAYS)('contract over $name', ({ reach }) => {
  let reached: Reached;
  let transport: Transport;
  let client: TestClient;

  beforeAll(async () => {
    reached = await reach();
  });
  beforeEach(async () => {
    transport = await reached.open();
    client = connect(transport, TEST_METHODS, testEvent, true);
  });
  afterAll(() => reached.close());

  async function expectAlive(): Promise<void> {
    const again = connect(await reached.open(), TEST_METHODS, testEvent, true);
    expect(await again.call('things.count', { name: 'still here' })).toEqual({ from: 1, name: 'still here' });
  }

  it('carries a valid call with its defaults filled in and its text trimmed', async () => {
    expect(await client.call('things.count', { name: '  a ' })).toEqual({ from: 1, name: 'a' });
  });

  it('brings any JSON value back equal', async () => {
    await fc.assert(
      fc.asyncProperty(fc.jsonValue({ maxDepth: 6 }), async (drawn) => {
        // What JSON itself cannot keep apart (−0 from 0) is settled before comparing.
        const value = TEST_METHODS['things.echo'].input.shape.value.parse(JSON.parse(JSON.stringify(drawn)));
        expect(await client.call('things.echo', { value })).toEqual({ value });
      }),
      { numRuns: 60 },
    );
  });

  it('keeps the answers of many calls apart', async () => {
    const numbers = Array.from({ length: 200 }, (_, index) => index);
    const answers = await Promise.all(
      numbers.map((from) => client.call('things.count', { from, name: 'n' })),
    );
    expect(answers.map((answer) => answer.from)).toEqual(numbers);
  });

  it('brings an expected failure with its code and details', async () => {
    expect(await failureOf(client.call('things.fail', {}))).toEqual({
      code: 'roll_not_found',
      details: { name: '2024-031' },
    });
  });

  it('turns a bug into internal with a reference and nothing else', async () => {
    const reply = await replyTo(transport, { kind: 'request', id: 7, method: 'things.break', input: {} });
    expect(JSON.stringify(reply)).not.toContain('secret');
    expect(reply).toMatchObject({ id: 7, error: { code: 'internal', details: { reference: 'ref-1' } } });
  });

  it('turns an answer that does not fit its table into internal', async () => {
    expect(await failureOf(client.call('things.lie', {}))).toMatchObject({ code: 'internal' });
  });

  it('tells events to whoever listens', async () => {
    const told = new Promise((resolve) => client.onEvent(resolve));
    await client.call('things.tell', { text: 'rolls' });
    expect(await told).toEqual({ type: 'told', text: 'rolls' });
  });

  it('calls a running method off', async () => {
    const { count } = await client.call('things.calledOff', {});
    const controller = new AbortController();
    const running = failureOf(client.call('things.wait', {}, { signal: controller.signal }));
    await client.call('things.count', { name: 'n' });
    controller.abort();
    expect(await running).toEqual({ code: 'cancelled', details: {} });
    await expect
      .poll(() => client.call('things.calledOff', {}), { timeout: 5000 })
      .toEqual({ count: count + 1 });
  });

  it('does not send a call that was called off before', async () => {
    const signal = AbortSignal.abort();
    expect(await failureOf(client.call('things.wait', {}, { signal }))).toMatchObject({ code: 'cancelled' });
  });

  it.each(['things.none', '', '__proto__', 'constructor', 'toString', 'hasOwnProperty', 'x'.repeat(99)])(
    'refuses the method %j by name',
    async (name) => {
      const reply = await replyTo(transport, { kind: 'request', id: 1, method: name, input: {} });
      expect(reply).toMatchObject({ kind: 'reply-error', id: 1, error: { code: 'method_unknown' } });
      await expectAlive();
    },
  );

  it.each([
    ['a wrong type', { name: 5 }, 'name'],
    ['a missing field', {}, 'name'],
    ['a fraction for a count', { name: 'n', from: 1.5 }, 'from'],
    ['an unknown key', { name: 'n', more: 1 }, ''],
    ['a list for an object', [], ''],
    ['null', null, ''],
    ['text', 'name', ''],
    ['a text too long', { name: 'x'.repeat(21) }, 'name'],
    ['a prototype key', JSON.parse('{"name":"n","__proto__":{"from":3}}'), ''],
    ['a constructor key', { name: 'n', constructor: { prototype: {} } }, ''],
  ])('refuses %s as input', async (_what, input, field) => {
    const reply = await replyTo(transport, { kind: 'request', id: 1, method: 'things.count', input });
    expect(reply).toMatchObject({ id: 1, error: { code: 'value_not_valid', details: { field } } });
    await expectAlive();
  });

  it.each([
    ['a message without a kind', { id: 3, method: 'things.count', input: {} }],
    ['a kind there is none of', { kind: 'eval', id: 3 }],
    ['a method that is no text', { kind: 'request', id: 3, method: { a: 1 }, input: {} }],
    ['more than a request holds', { kind: 'request', id: 3, method: 'things.count', input: {}, extra: 1 }],
    ['a method name of 101 letters', { kind: 'request', id: 3, method: 'm'.repeat(101), input: {} }],
    ['nesting without end', { kind: 'request', id: 3, method: 'things.echo', input: { value: nested(500) } }],
  ])('refuses %s', async (_what, message) => {
    expect(await replyTo(transport, message)).toMatchObject({
      kind: 'reply-error',
      id: 3,
      error: { code: 'value_not_valid' },
    });
    await expectAlive();
  });

  it.each([
    ['no object', 'hello'],
    ['null', null],
    ['a number', 12],
    ['an id of 0', { kind: 'request', id: 0, method: 'things.count', input: { name: 'n' } }],
    ['an id that is text', { kind: 'request', id: '1', method: 'things.count', input: { name: 'n' } }],
    ['a cancel of nothing', { kind: 'cancel', id: 99 }],
    ['a reply to nothing', { kind: 'reply-ok', id: 99, output: {} }],
  ])('passes over %s', async (_what, message) => {
    transport.send(message);
    expect(await client.call('things.count', { name: 'next' })).toEqual({ from: 1, name: 'next' });
  });

  it('answers the first of two requests under one id', async () => {
    transport.send({ kind: 'request', id: 5, method: 'things.wait', input: {} });
    transport.send({ kind: 'request', id: 5, method: 'things.count', input: { name: 'n' } });
    expect(await replyTo(transport, { kind: 'cancel', id: 5 })).toMatchObject({
      id: 5,
      error: { code: 'cancelled' },
    });
  });

  it('does not send an input above the limit', async () => {
    const value = 'x'.repeat(MESSAGE_LIMIT_BYTES);
    expect(await failureOf(client.call('things.echo', { value }))).toMatchObject({
      code: 'message_too_large',
      details: { limit: MESSAGE_LIMIT_BYTES },
    });
    await expectAlive();
  });

  it('refuses a message above the limit, by a reply or by ending the connection', async () => {
    const ended = new Promise((resolve) => transport.onClose(() => resolve('connection ended')));
    const value = 'x'.repeat(MESSAGE_LIMIT_BYTES + 1);
    const reply = replyTo(transport, { kind: 'request', id: 1, method: 'things.echo', input: { value } });
    expect(await Promise.race([reply, ended])).toSatisfy(
      (outcome) => outcome === 'connection ended' || JSON.stringify(outcome).includes('message_too_large'),
    );
    await expectAlive();
  });
});

describe.each(WAYS)('an end of a $name that goes away', ({ reach }) => {
  async function reachAnew() {
    const reached = await reach();
    const client = connect(await reached.open(), TEST_METHODS, testEvent, true);
    await client.call('things.count', { name: 'n' });
    return { reached, client };
  }

  it('rejects every pending call with engine_stopped when the other end dies in mid-call', async () => {
    const { reached, client } = await reachAnew();
    const pending = [client.call('things.wait', {}), client.call('things.wait', {})].map(failureOf);
    reached.kill();
    const stopped = { code: 'engine_stopped', details: {} };
    expect(await Promise.all(pending)).toEqual([stopped, stopped]);
    expect(await failureOf(client.call('things.count', { name: 'n' }))).toEqual(stopped);
    await reached.close();
  });

  it('rejects pending calls when its own end closes', async () => {
    const { reached, client } = await reachAnew();
    const pending = failureOf(client.call('things.wait', {}));
    client.close();
    expect(await pending).toMatchObject({ code: 'engine_stopped' });
    await reached.close();
  });
});

describe('a WebSocket that does not speak JSON', () => {
  it.each([
    ['text that is no JSON', '{"kind":', 1007],
    ['bytes', Buffer.from([1, 2, 3]), 1003],
  ])('is cut off after %s', async (_what, sent, code) => {
    const server = new WebSocketServer({ host: '127.0.0.1', port: 0 });
    await once(server, 'listening');
    server.on('connection', (socket) =>
      serve(webSocketTransport(socket), makeTestService(), { newReference: () => 'r', onBug: () => {} }),
    );
    const address = server.address();
    const socket = new WebSocket(`ws://127.0.0.1:${typeof address === 'object' ? address?.port : 0}`);
    await once(socket, 'open');
    socket.send(sent);
    const [closeCode] = await once(socket, 'close');
    expect(closeCode).toBe(code);
    server.close();
  });
});

describe('the table of methods', () => {
  it('refuses unknown keys in every input that is an object', () => {
    const loose = Object.entries(CONTRACT)
      .filter(([, { input }]) => input.safeParse({ surely_no_key_of_ours: 1 }).success)
      .map(([name]) => name);
    expect(loose).toEqual([]);
  });

  it('names methods as nouns.verb', () => {
    const odd = Object.keys(CONTRACT).filter((name) => !/^[a-z]+\.[a-zA-Z]+$/.test(name));
    expect(odd).toEqual([]);
  });
});
