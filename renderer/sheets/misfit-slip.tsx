import type { Misfit, Offer } from '../../shared/sheet/sheet-layout.ts';
import type { SheetSpec } from '../../shared/sheet/sheet-spec.ts';

export interface MisfitSlipProps {
  readonly misfit: Misfit;
  readonly onSpec: (spec: SheetSpec) => void;
}

/** What does not fit and by how much, and the ways out: each was tried before it is offered. */
export function MisfitSlip({ misfit, onSpec }: MisfitSlipProps) {
  return (
    <section className="misfit" aria-labelledby="misfit-title">
      <h2 id="misfit-title" role="alert">
        The film does not fit, by {formatMm(misfit.byMm)} mm
      </h2>
      <p className="misfit-sum">{misfit.sentence}</p>
      {misfit.offers.length === 0 ? (
        <p>No paper of the list holds it at this size. Choose another size of the film or of the paper.</p>
      ) : (
        <ul aria-label="Ways out">
          {misfit.offers.map((offer) => (
            <li key={`${offer.kind} ${offer.sentence}`}>
              <button type="button" className="misfit-offer" onClick={() => onSpec(offer.spec)}>
                <OfferDrawing offer={offer} />
                <span className="misfit-words">
                  <span className="misfit-what">{offer.sentence}</span>
                  <span className="misfit-result">{describeResult(offer)}</span>
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function formatMm(mm: number): string {
  return (Math.ceil(mm * 10 - 1e-6) / 10).toFixed(1);
}

function describeResult({ kind, scale, sheets }: Offer): string {
  const size = scale === 1 ? 'At true size' : `At ${(scale * 100).toFixed(1)} %, no longer true size`;
  return kind === 'second-sheet' || sheets === 1 ? size : `${size}, on ${sheets} sheets`;
}

/** What would be done, in small. */
function OfferDrawing({ offer: { kind, sheets } }: { readonly offer: Offer }) {
  const papers = kind === 'second-sheet' ? Math.min(sheets, 3) : 1;
  const large = kind === 'paper';
  const strips = kind === 'scale' ? 5 : 6;
  const step = kind === 'scale' ? 4.6 : 5;
  return (
    <svg className="misfit-drawing" viewBox="0 0 44 36" aria-hidden="true">
      {Array.from({ length: papers }, (_, index) => (
        <rect
          // Sheets of paper in a drawing are only their place.
          // oxlint-disable-next-line react/no-array-index-key
          key={index}
          className="misfit-paper"
          x={0.5 + index * 6}
          y={(large ? 0.5 : 2.5) + index * 3}
          width={papers > 1 ? 28 : large ? 43 : 36}
          height={papers > 1 ? 24 : large ? 35 : 31}
        />
      ))}
      {papers > 1
        ? null
        : Array.from({ length: strips }, (_, index) => (
            <rect
              // oxlint-disable-next-line react/no-array-index-key
              key={index}
              className="misfit-strip"
              x="3"
              y={kind === 'trim-perforations' ? 2.5 + index * 5.25 : 4 + index * step}
              width={kind === 'scale' ? 26 : 31}
              height={kind === 'scale' ? 3.2 : 3.9}
            />
          ))}
    </svg>
  );
}
