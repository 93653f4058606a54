import { useQuery, useQueryClient } from '@tanstack/react-query';
import type { Capabilities, RecentArchive } from '../../shared/api/host-contract.ts';
import { useClients } from './clients-context.tsx';

/** What the shell can do; null until it has said so. */
export function useCapabilities(): Capabilities | null {
  const { host } = useClients();
  const { data } = useQuery({
    queryKey: ['host.capabilities'],
    queryFn: () => host.call('host.capabilities', {}),
  });
  return data ?? null;
}

/** The archives that were open before, and a way to take one off the list. */
export function useRecentArchives(): {
  list: readonly RecentArchive[];
  forget(folder: string): Promise<void>;
} {
  const { host } = useClients();
  const cache = useQueryClient();
  const queryKey = ['host.recentArchives'];
  const { data } = useQuery({ queryKey, queryFn: () => host.call('host.recentArchives', {}), staleTime: 0 });
  return {
    list: data ?? [],
    async forget(folder) {
      await host.call('host.forgetArchive', { folder });
      await cache.invalidateQueries({ queryKey });
    },
  };
}
