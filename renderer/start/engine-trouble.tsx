import { useClients } from '../api/clients-context.tsx';
import type { EngineState } from '../state/engine-state.ts';
import { useNotices } from '../state/notices.tsx';
import { Button } from '../ui/button.tsx';
import { FullPanel } from '../ui/full-panel.tsx';

/** The whole window says that the engine does not run, and what can be done. */
export function EngineTrouble({ state }: { state: Exclude<EngineState, { kind: 'running' }> }) {
  const { host } = useClients();
  const notices = useNotices();
  if (state.kind === 'gone') {
    return (
      <FullPanel
        kind="trouble"
        title="Edgeprint has ended"
        detail="This window is no longer connected to the program that keeps the archive."
        advice="What was saved is saved. Start Edgeprint again and open the address that it writes."
        actions={<Button onPress={() => window.location.reload()}>Try again</Button>}
      />
    );
  }
  return (
    <FullPanel
      kind="trouble"
      title="The part that keeps the archive has stopped"
      detail={`What was being done last did not finish. Reference ${state.reference}.`}
      advice="It is being started again. What was saved before is safe."
      actions={
        <Button look="main" onPress={() => void host.call('host.restartEngine', {}).catch(notices.fail)}>
          Start it again now
        </Button>
      }
    />
  );
}
