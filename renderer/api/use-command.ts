import { useMutation } from '@tanstack/react-query';
import type { Given, MethodName, Output } from '../../shared/api/contract.ts';
import { useNotices } from '../state/notices.tsx';
import { useClients } from './clients-context.tsx';

/** How a command ended. */
export type Ended<Value> =
  { readonly ok: true; readonly output: Value } | { readonly ok: false; readonly error: Error };

/** A change to the archive that a part of the window can make. */
export interface Command<Name extends MethodName> {
  /** Makes the change. Nothing is shown as done before the engine says so. Never rejects. */
  run(input: Given<Name>): Promise<Ended<Output<Name>>>;
  readonly pending: boolean;
  /** What the last run failed with. */
  readonly error: Error | null;
  /** Forgets the failure. */
  clear(): void;
}

/**
 * A command by its method. A failure is told in a notice, unless `tells` is `here`: then the caller shows `error`
 * beside the field it belongs to.
 */
export function useCommand<Name extends MethodName>(
  name: Name,
  tells: 'notice' | 'here' = 'notice',
): Command<Name> {
  const { engine } = useClients();
  const notices = useNotices();
  const mutation = useMutation<Output<Name>, Error, Given<Name>>({
    mutationKey: [name],
    mutationFn: (input) => engine.call(name, input),
    onError: (error) => {
      if (tells === 'notice') notices.fail(error);
    },
  });
  return {
    run: (input) =>
      mutation.mutateAsync(input).then(
        (output) => ({ ok: true, output }),
        (error: Error) => ({ ok: false, error }),
      ),
    pending: mutation.isPending,
    error: mutation.error,
    clear: mutation.reset,
  };
}
