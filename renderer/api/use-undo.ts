import { useArchive } from './use-query.ts';
import { useCommand } from './use-command.ts';

/** Taking back and making again what was changed in the archive. */
export interface Undo {
  /** The change that would be taken back, in words; null when there is none. */
  readonly undoes: string | null;
  readonly redoes: string | null;
  undo(): Promise<void>;
  redo(): Promise<void>;
}

/** The archive's own undo, which lasts over restarts. */
export function useUndo(): Undo {
  const { data } = useArchive('archive.state', {});
  const undo = useCommand('archive.undo');
  const redo = useCommand('archive.redo');
  return {
    undoes: data?.undo ?? null,
    redoes: data?.redo ?? null,
    undo: async () => void (await undo.run({})),
    redo: async () => void (await redo.run({})),
  };
}
