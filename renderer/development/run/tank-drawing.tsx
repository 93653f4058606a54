/** The tank as it is to be held now. */
export function TankDrawing({ action }: { readonly action: 'agitate' | 'stand' | 'pour_out' | 'next_bath' }) {
  const turned = action === 'agitate' ? 'rotate(150 24 30)' : action === 'stand' ? '' : 'rotate(115 24 30)';
  return (
    <svg className="run-tank" viewBox="0 0 48 60" width="64" height="80" aria-hidden="true">
      <g transform={turned}>
        <path d="M15 4h18v7H15zM10 12h28a4 4 0 0 1 4 4v36a4 4 0 0 1-4 4H10a4 4 0 0 1-4-4V16a4 4 0 0 1 4-4z" />
        <path d="M9 34h30v17a2 2 0 0 1-2 2H11a2 2 0 0 1-2-2z" className="run-tank-bath" />
      </g>
    </svg>
  );
}
