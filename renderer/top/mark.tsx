/** The mark of the program: the triangle and the code bars that a film has on its edge. */
export function Mark() {
  return (
    <svg className="mark" viewBox="0 0 34 12" width="34" height="12" aria-hidden="true">
      <path d="M0 1 L9 6 L0 11 Z" className="mark-pencil" />
      <path d="M12 1h1.5v10H12zM15 1h3v10h-3zM19.5 1H21v10h-1.5zM22.5 1h1.5v10h-1.5zM25.5 1h3v10h-3zM30 1h1.5v10H30z" />
    </svg>
  );
}
