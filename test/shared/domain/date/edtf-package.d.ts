/** The reference library's one function that the comparison uses; it brings no types of its own. */
declare module 'edtf' {
  export default function edtf(
    text: string,
    constraints?: { readonly level?: number },
  ): { readonly min: number | null; readonly max: number | null };
}
