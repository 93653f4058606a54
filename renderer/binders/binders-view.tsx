import { useState } from 'react';
import type { Binder } from '../../shared/api/methods/filing-methods.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { BinderPanel } from './binder-panel.tsx';
import { BinderSlip } from './binder-slip.tsx';
import { FilingSlip } from './filing-slip.tsx';
import { Shelf } from './shelf.tsx';
import { WaitingRolls } from './waiting-rolls.tsx';
import './binders-view.css';

/** Which slip is being filled in. */
type Slip =
  | { readonly kind: 'new binder' }
  | { readonly kind: 'change binder'; readonly binder: Binder }
  | { readonly kind: 'file'; readonly rollId: number };

/** The shelf of binders, what waits to be filed, and the binder that is pulled out. */
export function BindersView({ route }: { readonly route: Route }) {
  const viewState = useViewState();
  const { data: binders } = useArchive('binders.list', {});
  const asked = Number(route.params['file'] ?? 0);
  const [slip, setSlip] = useState<Slip | null>(null);
  const shown = slip ?? (asked > 0 ? { kind: 'file' as const, rollId: asked } : null);
  const openId = Number(route.ids[0] ?? 0);
  const named = route.params['binder'];
  const open =
    binders?.find(({ id }) => id === openId) ??
    binders?.find(({ name }) => name === named) ??
    binders?.[0] ??
    null;
  function close(): void {
    setSlip(null);
    if (asked > 0) viewState.adjust({ file: null });
  }
  if (!binders) return <div className="binders-view" aria-busy="true" />;
  return (
    <div className="binders-view">
      <div className="binders-top">
        <Shelf binders={binders} openId={open?.id ?? null} onNew={() => setSlip({ kind: 'new binder' })} />
        <WaitingRolls onFile={(rollId) => setSlip({ kind: 'file', rollId })} />
      </div>
      {open === null ? (
        <div className="binders-none">
          <EmptyState
            says="Binders stand here. A binder holds pages, a page holds strips in its pockets."
            action={
              <Button look="main" onPress={() => setSlip({ kind: 'new binder' })}>
                Put the first binder on the shelf
              </Button>
            }
          />
        </div>
      ) : (
        <BinderPanel
          key={open.id}
          binder={open}
          route={route}
          onChange={() => setSlip({ kind: 'change binder', binder: open })}
          onFile={(rollId) => setSlip({ kind: 'file', rollId })}
        />
      )}
      {shown?.kind === 'file' ? (
        <FilingSlip
          rollId={shown.rollId}
          binders={binders}
          binder={open}
          onClose={close}
          onFiled={({ placements: [first] }) => {
            close();
            if (!first) return;
            viewState.go({ view: 'binders', params: { binder: first.binder, page: String(first.page) } });
          }}
        />
      ) : null}
      {shown?.kind === 'new binder' || shown?.kind === 'change binder' ? (
        <BinderSlip
          binder={shown.kind === 'new binder' ? null : shown.binder}
          onClose={close}
          onDone={(id) => {
            close();
            if (shown.kind === 'new binder') viewState.go({ view: 'binders', ids: [id] });
          }}
        />
      ) : null}
    </div>
  );
}
