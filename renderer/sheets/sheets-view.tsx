import { useState } from 'react';
import type { SheetSpec } from '../../shared/sheet/sheet-spec.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { ChooseRolls } from './choose-rolls.tsx';
import { MisfitSlip } from './misfit-slip.tsx';
import { Paper } from './paper.tsx';
import { SaveSlip } from './save-slip.tsx';
import { readSpec, writeSpec } from './sheet-choice.ts';
import { SheetNotes } from './sheet-notes.tsx';
import { SheetOptions } from './sheet-options.tsx';
import { SheetSentence } from './sheet-sentence.tsx';
import { useChosenRolls } from './use-chosen-rolls.ts';
import { useOverhang } from './use-overhang.ts';
import './sheets-view.css';

/** The contact sheet as it will be printed: rolls, paper, look and size; what does not fit, and the ways out. */
export function SheetsView({ route }: { readonly route: Route }) {
  const viewState = useViewState();
  const settings = useArchive('settings.get', {});
  const papers = useArchive('sheets.papers', {});
  const chosen = useChosenRolls(route.params);
  const [choosing, setChoosing] = useState(false);
  const usualPaper = settings.data?.paper ?? 'a4';
  const spec = readSpec(route.params, usualPaper);
  const sheet = useArchive(
    'sheets.layOut',
    { rollIds: [...chosen.rollIds], spec },
    { when: chosen.rollIds.length > 0 && settings.data !== undefined, keepFormer: true },
  );
  const overhang = useOverhang(chosen.rollIds, spec, sheet.data);
  const [unreadable, setUnreadable] = useState<ReadonlySet<string>>(new Set());

  function setSpec(next: SheetSpec): void {
    viewState.adjust({ ...writeSpec(next, usualPaper), page: null });
  }
  function setRolls(rollIds: readonly number[]): void {
    viewState.adjust({ rolls: rollIds.join(','), roll: null, binder: null, page: null });
  }

  const choose = choosing ? (
    <ChooseRolls
      chosen={chosen}
      onRolls={setRolls}
      onBinder={(binderId) =>
        viewState.adjust({ binder: String(binderId), rolls: null, roll: null, page: null })
      }
      onClose={() => setChoosing(false)}
    />
  ) : null;

  if (settings.data === undefined || papers.data === undefined || chosen.loading) {
    return <div className="sheets" aria-busy="true" />;
  }
  if (chosen.rollIds.length === 0) {
    return (
      <div className="sheets sheets-bare">
        <h1 className="unseen">Contact sheet</h1>
        <EmptyState
          says="A contact sheet shows rolls as they lie in their page, at true size on paper. Choose the rolls that go on it."
          drawing={<div className="sheets-no-paper" aria-hidden="true" />}
          action={
            <Button look="main" onPress={() => setChoosing(true)}>
              Choose rolls…
            </Button>
          }
        />
        {choose}
      </div>
    );
  }
  const misfit = sheet.data?.misfit ?? null;
  return (
    <div className="sheets">
      <h1 className="unseen">Contact sheet of {chosen.words}</h1>
      <SheetSentence
        chosen={chosen}
        papers={papers.data}
        spec={spec}
        onSpec={setSpec}
        onChoose={() => setChoosing(true)}
      />
      <div className="sheets-desk">
        <Paper
          sheet={sheet.data}
          overhang={overhang}
          page={Number(route.params['page'] ?? '1')}
          onPage={(page) => viewState.adjust({ page: page === 1 ? null : String(page) })}
          unit={settings.data.lengthUnit}
          label={chosen.words}
          onUnreadable={(key) =>
            setUnreadable((before) => (before.has(key) ? before : new Set([...before, key])))
          }
        />
        <div className="sheets-side">
          {sheet.error ? <Notice kind="failed" {...describeError(sheet.error)} /> : null}
          {misfit ? <MisfitSlip misfit={misfit} onSpec={setSpec} /> : null}
          <SheetOptions spec={spec} onSpec={setSpec} />
          {sheet.data ? <SheetNotes sheet={sheet.data} unreadable={unreadable} /> : null}
          <SaveSlip
            rollIds={chosen.rollIds}
            words={chosen.words}
            spec={spec}
            pages={sheet.data?.pages ?? 0}
            unavailable={misfit ? 'waits for a fit' : sheet.data ? undefined : 'waits for the sheet'}
          />
        </div>
      </div>
      {choose}
    </div>
  );
}
