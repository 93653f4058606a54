import type { Output } from '../../shared/api/contract.ts';
import { Notice } from '../ui/notice.tsx';

export interface SheetNotesProps {
  readonly sheet: Output<'sheets.layOut'>;
  /** Keys of frames whose picture cannot be shown. */
  readonly unreadable: ReadonlySet<string>;
}

/** What is worth knowing before the sheet is printed: its size, signs and texts it lacks, pictures that cannot be read. */
export function SheetNotes({ sheet, unreadable }: SheetNotesProps) {
  const { missingGlyphs, shortened, scale, misfit, frames } = sheet;
  const lost = frames.filter(({ frameId }) => unreadable.has(String(frameId)));
  return (
    <div className="sheet-notes">
      {misfit === null && scale !== 1 ? (
        <Notice
          kind="warning"
          title={`Not at true size: the film is drawn at ${(scale * 100).toFixed(1)} %`}
          detail="The sheet says so in its heading. Measure frames on it with that in mind."
        />
      ) : null}
      {lost.length > 0 ? (
        <Notice
          kind="warning"
          title={lost.length === 1 ? 'One picture cannot be read' : `${lost.length} pictures cannot be read`}
          detail={`Words stand in its place on the sheet: ${lost.map(({ roll, frame }) => `${roll}/${frame}`).join(', ')}.`}
          advice="The drive with the scans may be away, or the file damaged."
        />
      ) : null}
      {missingGlyphs.length > 0 ? (
        <Notice
          kind="warning"
          title={`No letters for ${missingGlyphs.join(' ')}`}
          detail="The faces of the sheet lack these signs; □ stands for each."
        />
      ) : null}
      {shortened.length > 0 ? (
        <details className="sheet-shortened">
          <summary>
            {shortened.length === 1 ? 'One text is' : `${shortened.length} texts are`} cut short on the sheet
          </summary>
          <ul>
            {shortened.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}
