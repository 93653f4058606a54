import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { Given, MethodName, Output } from '../../shared/api/contract.ts';
import { useClients } from './clients-context.tsx';
import type { EngineClient } from './connect.ts';

export interface QueryChoices {
  /** False: not yet, because something it needs is not there. */
  readonly when?: boolean;
  /** Shows the former answer while one for another input is on its way (a filter being typed). */
  readonly keepFormer?: boolean;
}

/** What the archive has answered so far. */
export interface Answer<Value> {
  /** Undefined until the first answer. */
  readonly data: Value | undefined;
  readonly error: Error | null;
  /** Whether an answer is on its way. */
  readonly fetching: boolean;
  /** Whether `data` is the answer to the former input. */
  readonly former: boolean;
}

/** What is kept in the cache: the answer, boxed, so that an answer of null is one. */
interface Boxed<Value> {
  readonly value: Value;
}

/** What the archive answers, fetched anew whenever the engine says that it may have changed. */
export function useArchive<Name extends MethodName>(
  name: Name,
  input: Given<Name>,
  { when = true, keepFormer = false }: QueryChoices = {},
): Answer<Output<Name>> {
  const { engine } = useClients();
  const { data, error, isFetching, isPlaceholderData } = useQuery<Boxed<Output<Name>>>({
    queryKey: [name, input],
    queryFn: ({ signal }) => ask(engine, name, input, signal),
    enabled: when,
    ...(keepFormer ? { placeholderData: keepPreviousData } : {}),
  });
  return { data: data?.value, error, fetching: isFetching, former: isPlaceholderData };
}

async function ask<Name extends MethodName>(
  engine: EngineClient,
  name: Name,
  input: Given<Name>,
  signal: AbortSignal,
): Promise<Boxed<Output<Name>>> {
  return { value: await engine.call(name, input, { signal }) };
}
